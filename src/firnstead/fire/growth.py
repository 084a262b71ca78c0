"""How fast a fire grows, what caps it, and how much it has released."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from types import MappingProxyType

# W/s2; 1055 kW at 600, 300, 150 and 75 s. The family 1000 kW/tg^2 is another one: do not mix them.
GROWTH: Mapping[str, float] = MappingProxyType({"slow": 2.93, "medium": 11.72, "fast": 46.9, "ultrafast": 187.6})


def growth_coefficient_nfpa(growth: str) -> float:
    """Give the growth coefficient of a growth class.

    alpha by class: 1055 kW at 600, 300, 150, 75 s

    Parameters
    ----------
    growth : str [text]
        "slow", "medium", "fast" or "ultrafast".
    Returns
    -------
    float [W/s2]
        Coefficient alpha.
    Validity: the growing part of a fire with enough air; the time before it burns openly is not in it.
    Source: nfpa_92, growth classes (from memory, unchecked; two web tables agree).

    >>> growth_coefficient_nfpa("medium")
    11.72
    """
    return GROWTH[growth]


def heat_release_t_squared(time: float, coefficient: float, cap: float = inf) -> float:
    """Give the heat release rate of a growing fire.

    Q = min(alpha t^2, cap)

    Parameters
    ----------
    time : float [s]
        Time since it burns openly.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    cap : float [W]
        Most that fuel and air allow.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: no decay is counted; see energy_released for the end of the fuel.
    Source: nfpa_92, t-squared fire (from memory, unchecked).

    >>> round(heat_release_t_squared(300.0, 11.72) / 1e3)
    1055
    """
    return min(coefficient * time**2, cap)


def time_to_heat_release(rate: float, coefficient: float) -> float:
    """Give the time at which a growing fire reaches a heat release rate.

    t = sqrt(Q/alpha)

    Parameters
    ----------
    rate : float [W]
        Heat release rate Q.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    Returns
    -------
    float [s]
        Time.
    Validity: growing part of the fire.
    Source: nfpa_92, t-squared fire solved for time (from memory, unchecked).

    >>> round(time_to_heat_release(1055e3, 46.9))
    150
    """
    return float((rate / coefficient) ** 0.5)


def energy_unlimited(time: float, coefficient: float, cap: float) -> float:
    """Give the energy that a growing, then steady fire has released, fuel without end.

    E = alpha t^3/3 up to t_c = sqrt(cap/alpha), then cap (t - 2 t_c/3)

    Parameters
    ----------
    time : float [s]
        Time since it burns openly.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    cap : float [W]
        Most that fuel and air allow.
    Returns
    -------
    float [J]
        Energy.
    Validity: as heat_release_t_squared.
    Source: statics, integral of the t-squared fire.

    >>> energy_unlimited(30.0, 3.0, 300.0)
    7000.0
    """
    peak = time_to_heat_release(cap, coefficient)
    return coefficient * time**3 / 3 if time <= peak else cap * (time - 2 * peak / 3)


def energy_released(time: float, coefficient: float, cap: float, fuel: float = inf) -> float:
    """Give the energy released, at most what the fuel holds.

    E = min(E without end of fuel, fuel)

    Parameters
    ----------
    time : float [s]
        Time since it burns openly.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    cap : float [W]
        Most that fuel and air allow.
    fuel : float [J]
        Energy in the fuel.
    Returns
    -------
    float [J]
        Energy.
    Validity: the fire burns at full rate to the end of its fuel: no decay is counted, which is on the safe side.
    Source: own_rule, no decay.

    >>> energy_released(30.0, 3.0, 300.0, 5000.0)
    5000.0
    """
    return min(energy_unlimited(time, coefficient, cap), fuel)


def burnout_time(coefficient: float, cap: float, fuel: float) -> float:
    """Give the time at which the fuel is used up.

    t = (3 E/alpha)^(1/3) while growing, else E/cap + 2 t_c/3

    Parameters
    ----------
    coefficient : float [W/s2]
        Growth coefficient alpha.
    cap : float [W]
        Most that fuel and air allow.
    fuel : float [J]
        Energy in the fuel.
    Returns
    -------
    float [s]
        Time; infinite for fuel without end.
    Validity: no decay is counted.
    Source: statics, integral of the t-squared fire.

    >>> round(burnout_time(3.0, 300.0, 7000.0), 9)
    30.0
    """
    peak = time_to_heat_release(cap, coefficient)
    growing = (3 * fuel / coefficient) ** (1 / 3)
    return float(growing if growing <= peak else fuel / cap + 2 * peak / 3)


def heat_release_limit_openings(area: float, height: float, *, coefficient: float = 1500e3) -> float:
    """Give the heat release rate that the air through an opening allows.

    Q = 1500 A sqrt(H) (kW, m)

    Parameters
    ----------
    area : float [m2]
        Area of the opening A.
    height : float [m]
        Height of the opening H.
    coefficient : float [W/m2.5]
        Factor, 1500 kW/m2.5.
    Returns
    -------
    float [W]
        Most heat released inside.
    Validity: one room with openings in its walls, air at sea level; thinner air allows less, which is not counted.
    A wall that burns through lets in more.
    Source: pd_7974, ventilation limit (read second-hand).

    >>> round(heat_release_limit_openings(1.6, 2.0) / 1e3)
    3394
    """
    return float(coefficient * area * height**0.5)


def heat_release_limit_fuel(area: float, rate_per_area: float) -> float:
    """Give the heat release rate of a floor that burns from wall to wall.

    Q = q A

    Parameters
    ----------
    area : float [m2]
        Floor that burns.
    rate_per_area : float [W/m2]
        Heat release rate of each square metre.
    Returns
    -------
    float [W]
        Heat release rate.
    Validity: fuel burning with enough air.
    Source: en_1991_1_2, Annex E (from memory, unchecked).

    >>> heat_release_limit_fuel(34.56, 250e3)
    8640000.0
    """
    return area * rate_per_area


def power_mean(start: float, end: float, exponent: float, coefficient: float, cap: float) -> float:
    """Give the mean of a power of the heat release rate over a stretch of time.

    mean of Q^n over t1..t2, Q = min(alpha t^2, cap)

    Parameters
    ----------
    start : float [s]
        Start t1.
    end : float [s]
        End t2.
    exponent : float [1]
        Exponent n.
    coefficient : float [W/s2]
        Growth coefficient alpha.
    cap : float [W]
        Most that fuel and air allow.
    Returns
    -------
    float [W]
        Mean, in W to the power n.
    Validity: the rate is held after the fuel is used up: smoke goes on moving, which is on the safe side.
    Source: statics, integral of the t-squared fire.

    >>> round(power_mean(0.0, 10.0, 1.0, 3.0, 1e6), 9)
    100.0
    """
    peak = time_to_heat_release(cap, coefficient)
    power = 2 * exponent + 1

    def below(time: float) -> float:
        return float(coefficient**exponent * time**power / power)

    growing = max(0.0, below(min(end, peak)) - below(min(start, peak)))
    return float((growing + cap**exponent * (max(end, peak) - max(start, peak))) / (end - start))
