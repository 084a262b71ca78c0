"""Water for fire: how much, in how many tanks, how warm, how soon again, and whose power pumps it."""

from __future__ import annotations

from math import inf

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.fire.reserve import fire_reserve, refill_time
from firnstead.fire.study_facts import Facts

LARGEST_TANK = 0.6  # of the reserve: "two about equal tanks" with a tenth of play (own rule)
REFILL = 48 * 3600.0  # s, in normal use: ufc_3_600_01 (read)
WARM = 277.594  # K, 40 degF: mil_hdbk_1130 (read)


def water_checks(f: Facts) -> tuple[Check, ...]:
    """All checks of the water."""
    water = f.fire.water
    names = f.names("Water kept for fire", "water")
    if water is None:
        return (not_checked(reason="neither a flow nor a reserve is in the file", **names),)
    need = fire_reserve(water.flow, water.duration)
    volumes = [tank.volume for tank in water.tanks.values()]
    kept = float(sum(volumes))
    asked = Step("V", "q t", (("q", water.flow, "m3/s"), ("t", water.duration, "s")), need, "m3", "ufc_3_600_01",
                 "one fire at a time, on top of what the station uses")  # fmt: skip
    held = Step("V_k", "", (), kept, "m3", "own_rule", f"kept for fire alone in {len(volumes)} tanks")
    return (
        check(demand=kept, limit=need, unit="m3", at_least=True, working=(asked, held), **names),
        _tanks(f, volumes, kept), _warm(f), _refill(f, need), _pump(f), _alarmed(f),
    )  # fmt: skip


def _tanks(f: Facts, volumes: list[float], kept: float) -> Check:
    names = f.names("Fire water split over tanks", "water_tanks")
    if not volumes:
        return not_checked(reason="there are no tanks in the file", **names)
    share = max(volumes) / kept
    step = Step("s", "V_1/V_k", (("V_1", max(volumes), "m3"), ("V_k", kept, "m3")), share, "1", "ufc_3_600_01",
                "share in the largest tank: two about equal ones, so that half stays while one is emptied")  # fmt: skip
    return check(demand=share, limit=LARGEST_TANK, unit="1", working=(step,), **names)


def _warm(f: Facts) -> Check:
    names = f.names("Temperature of the fire water", "water_warm")
    tanks = f.fire.water.tanks if f.fire.water else {}
    given = [tank.temperature for tank in tanks.values() if tank.temperature is not None]
    if not given or len(given) < len(tanks):
        return not_checked(reason="the lowest temperature of the water is not in the file", **names)
    step = Step("T", "", (), min(given), "K", "mil_hdbk_1130", "coldest tank")
    return check(demand=min(given), limit=WARM, unit="K", at_least=True, ratio=0.0 if min(given) >= WARM else inf,
                 working=(step,), note="and lines to it kept dry or moving: standing water freezes in the trench",
                 **names)  # fmt: skip


def _refill(f: Facts, need: float) -> Check:
    names = f.names("Time to fill the fire water again", "water_refill")
    water = f.fire.water
    if water is None or water.refill is None:
        return not_checked(reason="the water that can be made for it is not in the file", **names)
    time = refill_time(need, water.refill)
    step = Step("t_r", "V/q_r", (("V", need, "m3"), ("q_r", water.refill, "m3/s")), time, "s", "ufc_3_600_01",
                "with the station's other use cut if need be")  # fmt: skip
    return check(demand=time, limit=REFILL, unit="s", working=(step,), **names)


def _pump(f: Facts) -> Check:
    names = f.names("Fire pump and its power in separate compartments", "water_pump")
    water = f.fire.water
    if water is None or water.pump is None or water.supply is None:
        return not_checked(reason="the pump or where its power comes from is not in the file", **names)
    together = float(bool(f.part_of_room(water.pump) & f.part_of_room(water.supply)))
    step = Step("n", "", (), together, "1", "own_rule", f"1 where one fire takes both {water.pump} and {water.supply}")
    return check(demand=together, limit=0.0, unit="1", ratio=inf if together else 0.0, working=(step,), **names,
                 note="a fire in the pump's own place is fought without it")  # fmt: skip


def _alarmed(f: Facts) -> Check:
    names = f.names("Tanks of fire water without an alarm", "water_alarm")
    tanks = f.fire.water.tanks if f.fire.water else {}
    if not tanks:
        return not_checked(reason="there are no tanks in the file", **names)
    silent = [name for name, tank in tanks.items() if not tank.alarmed]
    step = Step("n", "", (), float(len(silent)), "1", "ufc_3_600_01",
                f"tanks whose level and temperature sound no alarm: {', '.join(silent) or 'none'}")  # fmt: skip
    return check(demand=float(len(silent)), limit=0.0, unit="1", ratio=inf if silent else 0.0, working=(step,), **names)
