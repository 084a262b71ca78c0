"""Carbon monoxide in the blood: the uptake used for fires, and the balance used for long exposures."""

from __future__ import annotations

TORR = 101325.0 / 760  # Pa
MILLILITRE = 1e-6


def cohb_rise_stewart(
    co: float, time: float, breathing: float, *, factor: float = 3.317e-5, exponent: float = 1.036
) -> float:
    """Give the carboxyhaemoglobin taken up in a short exposure.

    dCOHb = 3.317e-5 C^1.036 V t, in percent; C in ppm, V in L/min, t in min

    Parameters
    ----------
    co : float [1]
        Share of carbon monoxide in the air.
    time : float [s]
        Time t in it.
    breathing : float [m3/s]
        Air V breathed: 8.5, 25, 50 L/min at rest, at light and at heavy work.
    factor : float [1]
        Published factor.
    exponent : float [1]
        Published exponent.
    Returns
    -------
    float [1]
        Share of the haemoglobin that is taken.
    Validity: short exposures to much carbon monoxide at sea level; it never comes to rest, so it overstates long ones.
    Source: purser_fed (read second-hand).

    >>> round(cohb_rise_stewart(1000e-6, 28.2 * 60, 25e-3 / 60), 3)
    0.3
    """
    return float(factor * (co * 1e6) ** exponent * (breathing * 60e3) * (time / 60) / 100)


def time_to_cohb_stewart(
    co: float, cohb: float, breathing: float, *, factor: float = 3.317e-5, exponent: float = 1.036
) -> float:
    """Give the time until a share of the haemoglobin is taken in a short exposure.

    t = COHb/(3.317e-5 C^1.036 V)

    Parameters
    ----------
    co : float [1]
        Share of carbon monoxide in the air.
    cohb : float [1]
        Share of the haemoglobin.
    breathing : float [m3/s]
        Air V breathed.
    factor : float [1]
        Published factor.
    exponent : float [1]
        Published exponent.
    Returns
    -------
    float [s]
        Time; infinite in clean air.
    Validity: as cohb_rise_stewart.
    Source: purser_fed (read second-hand).

    >>> round(time_to_cohb_stewart(1000e-6, 0.3, 25e-3 / 60) / 60, 1)
    28.2
    """
    rate = cohb_rise_stewart(co, 1.0, breathing, factor=factor, exponent=exponent)
    return cohb / rate if rate > 0 else float("inf")


def cohb_coburn(
    time: float, co: float, pressure: float, start: float = 0.0075,
    *, made: float = 0.007, blood: float = 5500.0, haldane: float = 218.0, diffusion: float = 30.0,
    breathing: float = 6000.0, oxygen: float = 100.0, capacity: float = 0.20, steps: int = 400,
) -> float:  # fmt: skip
    """Give the carboxyhaemoglobin after a long exposure by the balance of Coburn, Forster and Kane.

    d[COHb]/dt = Vco/Vb + (PIco - [COHb] PO2/([O2Hb] M))/(Vb B), B = 1/DL + (PB - 47)/VA, [O2Hb] = 0.20 - [COHb]

    Parameters
    ----------
    time : float [s]
        Time in it.
    co : float [1]
        Share of carbon monoxide in the air.
    pressure : float [Pa]
        Air pressure PB.
    start : float [1]
        Share of the haemoglobin taken at the start.
    made : float [mL/min]
        Carbon monoxide Vco made in the body.
    blood : float [mL]
        Blood Vb.
    haldane : float [1]
        How much better haemoglobin takes carbon monoxide than oxygen, M.
    diffusion : float [mL/(min Torr)]
        Diffusing capacity DL of the lung.
    breathing : float [mL/min]
        Air VA that reaches the lung.
    oxygen : float [Torr]
        Pressure PO2 of oxygen in the capillaries.
    capacity : float [1]
        Most gas that blood binds, volume for volume.
    steps : int [1]
        Steps of the integration.
    Returns
    -------
    float [1]
        Share of the haemoglobin that is taken.
    Validity: constants are those of a resting adult at sea level; at altitude the oxygen pressure is lower and the
        uptake worse: hand a lower one over. Never tested at altitude.
    Source: coburn_forster_kane (from memory, unchecked).

    >>> round(cohb_coburn(8 * 3600.0, 35e-6, 101325.0), 3)
    0.043
    """
    torr = pressure / TORR
    resistance = 1 / diffusion + (torr - 47) / breathing
    inhaled = co * (torr - 47)

    def rate(bound: float) -> float:
        return made / blood + (inhaled - bound * oxygen / ((capacity - bound) * haldane)) / (blood * resistance)

    bound, step = start * capacity, time / 60 / steps
    for _ in range(steps):
        k1 = rate(bound)
        k2 = rate(bound + step * k1 / 2)
        k3 = rate(bound + step * k2 / 2)
        bound += step * (k1 + 2 * k2 + 2 * k3 + rate(bound + step * k3)) / 6
        bound = min(bound, 0.999 * capacity)
    return bound / capacity


def cohb_in_the_end(
    co: float, pressure: float, *, made: float = 0.007, haldane: float = 218.0, diffusion: float = 30.0,
    breathing: float = 6000.0, oxygen: float = 100.0,
) -> float:  # fmt: skip
    """Give the carboxyhaemoglobin that a steady exposure comes to.

    [COHb]/[O2Hb] = M (Vco B + PIco)/PO2, share = r/(1 + r)

    Parameters
    ----------
    co : float [1]
        Share of carbon monoxide in the air.
    pressure : float [Pa]
        Air pressure.
    made : float [mL/min]
        Carbon monoxide made in the body.
    haldane : float [1]
        How much better haemoglobin takes carbon monoxide than oxygen, M.
    diffusion : float [mL/(min Torr)]
        Diffusing capacity of the lung.
    breathing : float [mL/min]
        Air that reaches the lung.
    oxygen : float [Torr]
        Pressure PO2 of oxygen in the capillaries.
    Returns
    -------
    float [1]
        Share of the haemoglobin that is taken.
    Validity: as cohb_coburn, after a day or more.
    Source: coburn_forster_kane (from memory, unchecked).

    >>> round(cohb_in_the_end(25e-6, 101325.0), 3)
    0.04
    """
    torr = pressure / TORR
    ratio = haldane * (made * (1 / diffusion + (torr - 47) / breathing) + co * (torr - 47)) / oxygen
    return ratio / (1 + ratio)
