"""Fresh air that people and engines need, and what they put into it."""

from __future__ import annotations

CUBIC_FOOT_PER_MINUTE = 0.3048**3 / 60  # m3/s
HORSEPOWER = 550 * 0.3048 * 0.45359237 * 9.80665  # W


def outdoor_air_ashrae(
    people: float, area: float, per_person: float, per_area: float, effectiveness: float = 1.0
) -> float:
    """Give the outdoor air of a room by people and floor.

    V = (Rp P + Ra A)/Ez

    Parameters
    ----------
    people : float [1]
        People P in the room.
    area : float [m2]
        Floor A.
    per_person : float [m3/s]
        Outdoor air Rp for each person.
    per_area : float [m/s]
        Outdoor air Ra for each square metre.
    effectiveness : float [1]
        How well it reaches the people, Ez: 0.8 for warm air from the ceiling, taken out high.
    Returns
    -------
    float [m3/s]
        Outdoor air.
    Validity: the rates belong to a use of rooms and to an edition; written for air at sea level.
    Source: ashrae_62_1 (read second-hand).

    >>> round(outdoor_air_ashrae(8, 100.0, 2.5e-3, 0.3e-3), 4)
    0.05
    """
    return (per_person * people + per_area * area) / effectiveness


def tunnel_air(
    people: float, engine_power: float,
    *, per_person: float = 200 * CUBIC_FOOT_PER_MINUTE, per_power: float = 100 * CUBIC_FOOT_PER_MINUTE / HORSEPOWER,
) -> float:  # fmt: skip
    """Give the fresh air of a heading by the rule for tunnels under construction.

    V = 0.0944 P + 0.0633 N, N in kW

    Parameters
    ----------
    people : float [1]
        People P underground.
    engine_power : float [W]
        Brake power N of the diesels that run.
    per_person : float [m3/s]
        Air for each person (200 cubic feet a minute).
    per_power : float [m3/J]
        Air for brake power (100 cubic feet a minute for each horsepower).
    Returns
    -------
    float [m3/s]
        Fresh air.
    Validity: rule for tunnels and caissons in rock and soil; at sea level.
    Source: osha_1926_800, (k)(2) and (k)(10) (read second-hand).

    >>> round(tunnel_air(1, 0.0), 4), round(tunnel_air(0, 1000.0), 4)
    (0.0944, 0.0633)
    """
    return per_person * people + per_power * engine_power


def co2_persily(
    body_mass: float, activity: float, temperature: float, pressure: float,
    *, quotient: float = 0.85, basal_slope: float = 0.048, basal_base: float = 3.653,
) -> float:  # fmt: skip
    """Give the carbon dioxide that a man of 30 to 60 years breathes out.

    V = RQ BMR M (T/p) 0.000211 L/s, BMR = 0.048 m + 3.653 MJ a day, p in kPa

    Parameters
    ----------
    body_mass : float [kg]
        Body mass m.
    activity : float [1]
        Activity M in met: 1.0 resting, 1.2 sitting at light work.
    temperature : float [K]
        Air temperature T at which the volume is counted.
    pressure : float [Pa]
        Air pressure p at which the volume is counted.
    quotient : float [1]
        Carbon dioxide given off for oxygen used, RQ.
    basal_slope : float [MJ/(day kg)]
        Basal rate for body mass.
    basal_base : float [MJ/day]
        Basal rate at no mass.
    Returns
    -------
    float [m3/s]
        Carbon dioxide.
    Validity: men of 30 to 60 years; the published tables could not be opened.
    Source: persily_de_jonge_2017 (from memory, unchecked).

    >>> round(1e3 * co2_persily(85.0, 1.2, 273.15, 101325.0), 4)
    0.0045
    """
    basal = basal_slope * body_mass + basal_base
    return quotient * basal * activity * temperature / (pressure * 1e-3) * 2.11e-7


def oxygen_of_co2(co2: float, *, quotient: float = 0.85) -> float:
    """Give the oxygen that people use from the carbon dioxide they give off.

    O2 = CO2/RQ

    Parameters
    ----------
    co2 : float [m3/s]
        Carbon dioxide given off.
    quotient : float [1]
        Respiratory quotient RQ.
    Returns
    -------
    float [m3/s]
        Oxygen used.
    Validity: mixed diet.
    Source: persily_de_jonge_2017 (from memory, unchecked).

    >>> round(oxygen_of_co2(0.85e-5) * 1e5, 3)
    1.0
    """
    return co2 / quotient


def combustion_air(power: float, *, per_power: float = 3.9 * CUBIC_FOOT_PER_MINUTE / HORSEPOWER,
                   density: float = 1.225) -> float:  # fmt: skip
    """Give the mass of air that an unblown four-stroke diesel burns with its fuel.

    m = 8.9 m3/h for each kW, of air as at sea level

    Parameters
    ----------
    power : float [W]
        Brake power.
    per_power : float [m3/J]
        Air for brake power (3.9 cubic feet a minute for each horsepower).
    density : float [kg/m3]
        Density of the air at sea level that the figure was stated for.
    Returns
    -------
    float [kg/s]
        Mass flow; the volume grows as the air gets thinner.
    Validity: engines of that period without blower; turbocharged engines take more: ask the maker.
    Source: kates_diesel, p. 394 (read second-hand).

    >>> round(combustion_air(1000.0) / 1.225 * 3600, 1)
    8.9
    """
    return per_power * power * density


def cooling_air(heat: float, rise: float, *, heat_capacity: float = 1005.0) -> float:
    """Give the mass of air that carries a heat away at an allowed rise of its temperature.

    m = Q/(c dT)

    Parameters
    ----------
    heat : float [W]
        Heat Q given off to the room.
    rise : float [K]
        Rise dT of the air's temperature.
    heat_capacity : float [J/(kg K)]
        Heat capacity c of air.
    Returns
    -------
    float [kg/s]
        Mass flow.
    Validity: steady; nothing goes into the walls.
    Source: textbook_unchecked, heat balance of the air.

    >>> round(cooling_air(16036.0, 10.0), 3)
    1.596
    """
    return heat / (heat_capacity * rise)
