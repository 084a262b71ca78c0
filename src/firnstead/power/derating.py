"""Power that an engine has left in thin or warm air, and the fuel it then takes. The maker's own curve goes first."""

from __future__ import annotations

from types import MappingProxyType

# rule: (pressure altitude at which the loss starts [m], share lost per metre above it, source)
RULES = MappingProxyType({
    "mine engines, not turbocharged": (305.0, 1e-4, "msha_altitude"),
    "mine engines, turbocharged": (1000.0, 1e-4, "msha_altitude"),
    "small army generator set": (1219.0, 1.3e-4, "tm_9_6115_673"),
    "a portable set's manual": (1000.0, 3e-2 / 500.0, "portable_set_manual"),
    "farm engines": (500.0 * 0.3048, 3e-2 / 304.8, "farm_engines_altitude"),
})  # fmt: skip
# kind of engine: exponents (m, n, q) of ISO 3046-1
EXPONENTS = MappingProxyType({
    "not charged": (1.0, 0.75, 0.0),
    "charged": (0.7, 2.0, 0.0),
    "charged and cooled": (0.7, 1.2, 1.0),
})  # fmt: skip


def pressure_standard(altitude: float, sea_level: float = 101325.0) -> float:
    """Give the air pressure of the standard atmosphere at an altitude.

    p = p0 (1 - 2.25577e-5 h)^5.25588

    Parameters
    ----------
    altitude : float [m]
        Height h over the sea.
    sea_level : float [Pa]
        Pressure p0 at sea level.
    Returns
    -------
    float [Pa]
        Air pressure.
    Validity: below 11 km; cold polar air is thinner: the real pressure on an ice sheet is lower.
    Source: standard_atmosphere (from memory, unchecked; reproduces logged pairs).

    >>> round(pressure_standard(3000.0))
    70109
    """
    return float(sea_level * (1.0 - 2.25577e-5 * altitude) ** 5.25588)


def pressure_altitude(pressure: float, sea_level: float = 101325.0) -> float:
    """Give the altitude in the standard atmosphere that has this air pressure.

    h = (1 - (p/p0)^(1/5.25588))/2.25577e-5

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the station.
    sea_level : float [Pa]
        Pressure p0 at sea level.
    Returns
    -------
    float [m]
        Pressure altitude.
    Validity: below 11 km.
    Source: standard_atmosphere (from memory, unchecked; reproduces logged pairs).

    >>> round(pressure_altitude(71600.0) / 0.3048, -2)
    9300.0
    """
    return float((1.0 - (pressure / sea_level) ** (1.0 / 5.25588)) / 2.25577e-5)


def site_factor_by_rule(
    altitude: float, inlet: float, loss_per_metre: float, start: float, *, loss_per_kelvin: float = 0.03 / 5.6,
    warm: float = 308.15,
) -> float:  # fmt: skip
    """Give the share of a set's power that is left by a straight-line rule of altitude and inlet temperature.

    s = (1 - a (h - h0)) (1 - b (T - T0)), each bracket at most 1, no less than 0

    Parameters
    ----------
    altitude : float [m]
        Pressure altitude h.
    inlet : float [K]
        Temperature T of the air at the inlet.
    loss_per_metre : float [1/m]
        Share a lost per metre.
    start : float [m]
        Altitude h0 at which the loss starts.
    loss_per_kelvin : float [1/K]
        Share b lost per kelvin above the warm limit.
    warm : float [K]
        Temperature T0 above which warmth costs power (35 degC).
    Returns
    -------
    float [1]
        Share left.
    Validity: published rules differ by a fifth at 3,000 m; use the maker's curve.
    Source: tm_9_6115_673 (read) for 1.3 % per 100 m above 1,219 m and 3 % per 5.6 K above 35 degC.

    >>> round(site_factor_by_rule(3200.0, 288.15, 1.3e-4, 1219.0), 3)
    0.742
    """
    thin = min(1.0, max(0.0, 1.0 - loss_per_metre * (altitude - start)))
    return thin * min(1.0, max(0.0, 1.0 - loss_per_kelvin * (inlet - warm)))


def indicated_ratio_iso_3046(
    pressure: float, inlet: float, coolant: float, m: float, n: float, q: float, *,
    reference_pressure: float = 100e3, reference_temperature: float = 298.0, bank_cold: bool = False,
) -> float:  # fmt: skip
    """Give the ratio of indicated power at the site to that at reference conditions.

    k = (p/p_r)^m (T_r/T)^n (T_r/T_c)^q; air colder than T_r counts as T_r unless bank_cold

    Parameters
    ----------
    pressure : float [Pa]
        Air pressure p at the site.
    inlet : float [K]
        Temperature T of the air at the inlet.
    coolant : float [K]
        Temperature T_c of the charge-air coolant.
    m : float [1]
        Exponent of pressure.
    n : float [1]
        Exponent of inlet temperature.
    q : float [1]
        Exponent of coolant temperature.
    reference_pressure : float [Pa]
        p_r.
    reference_temperature : float [K]
        T_r.
    bank_cold : bool [text]
        Whether cold air may raise the power; only with the maker's word.
    Returns
    -------
    float [1]
        Ratio k.
    Validity: engines whose maker gives no curve; exponents from memory.
    Source: iso_3046_1 (from memory, unchecked).

    >>> round(indicated_ratio_iso_3046(67e3, 298.0, 298.0, 0.7, 1.2, 1.0), 4)
    0.7555
    """
    least = 0.0 if bank_cold else reference_temperature
    warm, cooled = (reference_temperature / max(t, least) for t in (inlet, coolant))
    return float((pressure / reference_pressure) ** m * warm**n * cooled**q)


def power_factor_iso_3046(indicated: float, *, mechanical_efficiency: float = 0.8) -> float:
    """Give the share of an engine's power that is left at the site.

    alpha = k - 0.7 (1 - k)(1/eta_m - 1), no less than 0

    Parameters
    ----------
    indicated : float [1]
        Ratio k of indicated power.
    mechanical_efficiency : float [1]
        eta_m.
    Returns
    -------
    float [1]
        Share alpha.
    Validity: as the ratio; never above what the maker allows.
    Source: iso_3046_1 (from memory, unchecked).

    >>> round(power_factor_iso_3046(0.67), 2)
    0.61
    """
    return max(0.0, indicated - 0.7 * (1.0 - indicated) * (1.0 / mechanical_efficiency - 1.0))


def fuel_factor_iso_3046(indicated: float, power: float) -> float:
    """Give the factor on specific fuel use at the site.

    beta = k/alpha

    Parameters
    ----------
    indicated : float [1]
        Ratio k of indicated power.
    power : float [1]
        Share alpha of power left, above 0.
    Returns
    -------
    float [1]
        Factor beta.
    Validity: as the ratio.
    Source: iso_3046_1 (from memory, unchecked).

    >>> round(fuel_factor_iso_3046(0.67, 0.61225), 3)
    1.094
    """
    return indicated / power


def site_factors(altitude: float, pressure: float, inlet: float, engine: str) -> dict[str, tuple[float, str]]:
    """Give the share of power left by every published rule, and by the standard for the kind of engine.

    s of site_factor_by_rule for each rule, alpha of power_factor_iso_3046 for the engine

    Parameters
    ----------
    altitude : float [m]
        Pressure altitude.
    pressure : float [Pa]
        Air pressure.
    inlet : float [K]
        Temperature of the air at the inlet, and of the charge-air coolant.
    engine : str [text]
        "not charged", "charged" or "charged and cooled".
    Returns
    -------
    dict of tuple [1]
        Share left and source key, by the name of the rule.
    Validity: the spread between the rules is the message; the maker's curve decides.
    Source: msha_altitude; tm_9_6115_673; portable_set_manual; farm_engines_altitude (read); iso_3046_1 (from memory).

    >>> found = site_factors(3200.0, 67e3, 298.0, "charged")
    >>> round(min(s for s, _ in found.values()), 2), round(max(s for s, _ in found.values()), 2)
    (0.7, 0.87)
    """
    found = {
        name: (site_factor_by_rule(altitude, inlet, loss, start), source)
        for name, (start, loss, source) in RULES.items()
    }
    ratio = indicated_ratio_iso_3046(pressure, inlet, inlet, *EXPONENTS[engine])
    found["standard for engines"] = power_factor_iso_3046(ratio), "iso_3046_1"
    return found
