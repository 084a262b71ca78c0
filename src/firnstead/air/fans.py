"""A fan with its duct as a branch of the network: how much it moves against the pressure that lies on it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

FAR = 1e6  # Pa, more than ever lies on a branch
SHUT = 1e-9  # kg/s that a shut damper lets through at that pressure, so that the flow rises with it
POINTS = 60  # points of the tabled branch between no flow and twice the last point of the curve


@dataclass(frozen=True)
class FanCurve:
    """A fan from room a to room b (-1: outside): mass flows [kg/s], rising with the pressure on the branch [Pa]."""

    a: int
    b: int
    drive: float
    """Draught and wind from a to b [Pa]."""
    pressures: tuple[float, ...]
    masses: tuple[float, ...]

    def flow(self, pressure: float) -> float:
        """Mass flow from a to b at a pressure from a to b [kg/s]."""
        i = self._segment(pressure)
        p, m = self.pressures, self.masses
        return m[i] + (pressure - p[i]) * self._slope(i)

    def slope(self, pressure: float) -> float:
        """How fast the flow grows with the pressure [kg/s/Pa]."""
        return self._slope(self._segment(pressure))

    def _segment(self, pressure: float) -> int:
        return min(max(bisect_right(self.pressures, pressure) - 1, 0), len(self.pressures) - 2)

    def _slope(self, i: int) -> float:
        return (self.masses[i + 1] - self.masses[i]) / (self.pressures[i + 1] - self.pressures[i])


def curve_from_duty(
    flow: float, pressure: float, *, shut: float = 4 / 3, points: int = 9
) -> tuple[tuple[float, float], ...]:
    """Give a fan curve from one point of it.

    dp = p (s - (s - 1) (Q/Q1)^2), from no flow to the flow at which no pressure is left

    Parameters
    ----------
    flow : float [m3/s]
        Flow Q1 at the known point.
    pressure : float [Pa]
        Pressure p there.
    shut : float [1]
        Pressure with the outlet shut as a multiple s of it.
    points : int [1]
        Points of the curve.
    Returns
    -------
    tuple of pairs [m3/s, Pa]
        Flow and pressure, pressure falling.
    Validity: for a first estimate only; the maker's curve goes before it.
    Source: own_rule.

    >>> curve_from_duty(2.0, 90.0)[0]
    (0.0, 120.0)
    """
    last = flow * (shut / (shut - 1)) ** 0.5
    steps = [last * i / (points - 1) for i in range(points)]
    return tuple((q, pressure * (shut - (shut - 1) * (q / flow) ** 2)) for q in steps)


def pressure_on_curve(flow: float, curve: tuple[tuple[float, float], ...]) -> float:
    """Give the pressure that a fan makes at a flow.

    straight between the points of its curve, level before the first, on along the last stretch behind the last

    Parameters
    ----------
    flow : float [m3/s]
        Flow.
    curve : tuple of pairs [m3/s, Pa]
        Flow rising, pressure falling.
    Returns
    -------
    float [Pa]
        Pressure.
    Validity: two points at least.
    Source: own_rule.

    >>> pressure_on_curve(1.0, ((0.0, 120.0), (2.0, 80.0)))
    100.0
    """
    if flow <= curve[0][0]:
        return curve[0][1]
    i = min(max(bisect_right([q for q, _ in curve], flow) - 1, 0), len(curve) - 2)
    (q1, p1), (q2, p2) = curve[i], curve[i + 1]
    return p1 + (p2 - p1) * (flow - q1) / (q2 - q1)


def fan_branch(
    a: int, b: int, drive: float, curve: tuple[tuple[float, float], ...], density: float, stated_at: float,
    duct_area: float, running: bool = True, damper: bool = True, *, points: int = POINTS,
) -> FanCurve:  # fmt: skip
    """Give the branch of a fan and its duct, tabled.

    pressure on the branch = (m/(Cd A))^2/(2 rho) - p(m/rho) rho/rho_s; through the damper no air flows back

    Parameters
    ----------
    a : int [1]
        Room it draws from, -1 for the outside.
    b : int [1]
        Room it blows into.
    drive : float [Pa]
        Draught and wind from a to b.
    curve : tuple of pairs [m3/s, Pa]
        Fan curve.
    density : float [kg/m3]
        Density rho of the air that it draws.
    stated_at : float [kg/m3]
        Density rho_s that the curve is stated for.
    duct_area : float [m2]
        Discharge coefficient times area of the duct; infinite without one.
    running : bool [1]
        Whether it runs.
    damper : bool [1]
        Whether a damper stops air from flowing back, and shuts it when it stands.
    points : int [1]
        Points of the table.
    Returns
    -------
    FanCurve [text]
        Branch.
    Validity: fan speed does not change; volume at a given resistance is the same in thin air, pressure is less.
    Source: textbook_unchecked, fan laws.

    >>> round(fan_branch(-1, 0, 0.0, ((0.0, 120.0), (2.0, 0.0)), 0.9, 1.2, float("inf")).flow(0.0), 3)
    1.8
    """
    open_area = duct_area if duct_area < 1e6 else max(curve[-1][0], 0.1)  # without a duct: little resistance back
    back = open_area * (2 * density * FAR) ** 0.5
    if not running and damper:
        return FanCurve(a, b, drive, (-FAR, FAR), (-SHUT, SHUT))
    if not running:
        up = [0.0, *(10.0 ** (i / 4) * 1e-2 for i in range(33))]
        through = [open_area * (2 * density * p) ** 0.5 for p in up]
        return FanCurve(
            a, b, drive, (*(-p for p in reversed(up[1:])), *up), (*(-m for m in reversed(through[1:])), *through)
        )
    thin, resistance = density / stated_at, 1 / (2 * density * duct_area**2) if duct_area < 1e6 else 0.0
    last = 2 * curve[-1][0] * density
    marks = sorted({*(q * density for q, _ in curve), *(last * i / points for i in range(points + 1))})
    pressures = [resistance * m * m - pressure_on_curve(m / density, curve) * thin for m in marks]
    pressures, marks = [pressures[0] - FAR, *pressures], [-SHUT if damper else -back, *marks]
    for i in range(1, len(pressures)):  # a level stretch of the curve: keep it, just rising
        pressures[i] = max(pressures[i], pressures[i - 1] + 1e-9)
    return FanCurve(a, b, drive, tuple(pressures), tuple(marks))
