"""Heat, pipes, water and power as one balance: the loop between them, gone round until nothing moves any more.

Building heat warms the trench, the trench cools pipes and buildings, tracing and pumps load the sets, their waste heat
warms the well and the buildings, and what sets and lines give off warms the trench again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from firnstead.core.memo import Memo
from firnstead.core.results import WHOLE, Check, Step, Study, check, not_checked
from firnstead.snow import SnowResult
from firnstead.station import Station

Row = tuple[float, ...]
Rows = Mapping[str, Row]
NOTHING: Row = (0.0,) * 12
AIR_TOLERANCE = 0.05  # K between two rounds, any place and month
POWER_TOLERANCE = 0.005  # share of the greatest monthly load between two rounds
MOST_ROUNDS = 12
ORDER = ("heat", "pipes", "water", "power")


@dataclass(frozen=True)
class Utilities:
    """The four studies of the last round, how many rounds it took and what still moved in it."""

    studies: dict[str, Study]
    rounds: int
    moved_air: float
    moved_power: float

    @property
    def air_years(self) -> dict[str, Row]:
        """Yearly mean air [K] by place; empty where the heat is not worked out."""
        found = self.studies["heat"].result
        return dict(found.air_years) if found is not None else {}

    @property
    def floors(self) -> dict[str, float]:
        """Warmest snow [K] right under each heated building through the life; empty without heat."""
        found = self.studies["heat"].result
        return {name: b.snow_floor for name, b in found.buildings.items()} if found is not None else {}

    @property
    def settled(self) -> bool:
        """Whether the last round moved nothing that counts."""
        return self.moved_air <= AIR_TOLERANCE and self.moved_power <= POWER_TOLERANCE


@dataclass(frozen=True)
class _Round:
    """What one round hands on to the next: heat given to places, waste heat, loads [W]; air [K]."""

    gains: Rows
    waste_heat: Row
    waste_well: Row
    loads: Rows
    air: Rows


def utilities(station: Station, snow: SnowResult, memo: Memo, floor_heave: Mapping[str, float] | None = None) -> Utilities:
    """Go round heat, pipes, water and power until air and loads settle within the stated tolerances."""
    now = _Round({}, NOTHING, NOTHING, {}, {})
    for count in range(1, MOST_ROUNDS + 1):
        studies, then = _go_round(station, snow, memo, now, floor_heave)
        air, power = _moved(now.air, then.air), _moved_loads(now.loads, then.loads)
        now = then
        if count > 1 and air <= AIR_TOLERANCE and power <= POWER_TOLERANCE:
            break
    made = {**studies, "power": _with_settled(studies["power"], count, air, power)}
    return Utilities(made, count, air, power)


def _go_round(
    station: Station, snow: SnowResult, memo: Memo, now: _Round, floor_heave: Mapping[str, float] | None
) -> tuple[dict[str, Study], _Round]:  # fmt: skip
    from firnstead import heat, pipes, power, water

    warm = heat.study(station, snow, memo, gains=now.gains or None, waste=now.waste_heat)
    air: Rows = warm.result.air if warm.result is not None else {}
    lines = pipes.study(station, snow, memo, air=air or None, floor_heave=floor_heave)
    well = water.study(station, snow, memo, waste=now.waste_well)
    heaters: Rows = warm.result.electric if warm.result is not None else {}
    loads = {
        **{f"heat: {name}": row for name, row in heaters.items()},
        **{f"tracing: {name}": row for name, row in lines.result.tracing.items() if any(row)},
        **{f"water: {name}": row for name, row in well.result.electric.items() if any(row)},
    }
    heat_used: Row = warm.result.waste_used if warm.result is not None else NOTHING
    heat_fuel: Row = warm.result.fuel if warm.result is not None else NOTHING
    sets = power.study(
        station, memo, loads=loads, waste_used=_sum((heat_used, well.result.waste_used)),
        other_fuel=_sum((heat_fuel, well.result.fuel)))  # fmt: skip
    given: Row = sets.result.waste if sets.result is not None else NOTHING
    gains: dict[str, Row] = {}
    for rows in (lines.result.losses, sets.result.gains if sets.result is not None else {}):
        for place, row in rows.items():
            gains[place] = _sum((gains.get(place, NOTHING), row))
    # a well that gets too little heat is lost, a cold building has its own heaters: the well comes first
    left = tuple(max(0.0, a - b) for a, b in zip(given, well.result.waste_used, strict=True))
    return (
        {"heat": warm, "pipes": lines, "water": well, "power": sets},
        _Round(gains, left, given, loads, air),
    )


def _with_settled(study: Study, rounds: int, air: float, power: float) -> Study:
    """The power study with one more check: does the loop between the four stand still."""
    names = {"subject": "Heat, pipes, water and power", "discipline": "power", "place": WHOLE}
    question, key = "Balance of heat, pipes, water and power between two rounds", "power.balance"
    if study.result is None:
        made: Check = not_checked(question=question, key=key, reason="the file has no power, so nothing is handed round",
                                  **names)  # type: ignore[arg-type]  # fmt: skip
    else:
        steps = (
            Step("d_T", "", (("n", float(rounds), "1"),), air, "K", "own_rule",
                 "greatest change of any place's air in any month in the last round"),
            Step("d_P", "", (("n", float(rounds), "1"),), power, "1", "own_rule",
                 "greatest change of a month's load in the last round, as a share of the greatest load"),
            Step("r", "max(d_T/T_1, d_P/P_1)",
                 (("d_T", air, "K"), ("T_1", AIR_TOLERANCE, "K"), ("d_P", power, "1"), ("P_1", POWER_TOLERANCE, "1")),
                 max(air / AIR_TOLERANCE, power / POWER_TOLERANCE), "1", "own_rule", "share of what may still move"),
        )  # fmt: skip
        ratio = max(air / AIR_TOLERANCE, power / POWER_TOLERANCE)
        made = check(question=question, key=key, demand=ratio, limit=1.0, unit="1", working=steps,
                     ratio=min(ratio, 0.9) if ratio <= 1 else ratio,
                     note=f"{rounds} rounds; within the tolerance is settled", **names)  # type: ignore[arg-type]  # fmt: skip
    return Study(study.result, (*study.checks, made), study.work_items)


def _sum(rows: Iterable[Row]) -> Row:
    return tuple(map(sum, zip(*rows, strict=True)))


def _moved(before: Rows, after: Rows) -> float:
    """Greatest change of any value; infinite where a row was not there before."""
    return max(
        (max(abs(a - b) for a, b in zip(before[name], row, strict=True)) if name in before else float("inf")
         for name, row in after.items()),
        default=0.0,
    )  # fmt: skip


def _moved_loads(before: Rows, after: Rows) -> float:
    """Greatest change of a month's total, as a share of the greatest month."""
    new, old = (_sum(rows.values()) if rows else NOTHING for rows in (after, before))
    most = max(max(new), max(old))
    return max(abs(a - b) for a, b in zip(new, old, strict=True)) / most if most > 0 else 0.0
