"""Electric power of a station: loads, sets, feeders, fuel, waste heat, what stops first."""

from __future__ import annotations

from collections.abc import Mapping

from firnstead.core.memo import Memo
from firnstead.core.results import Check, Study, not_checked
from firnstead.power.case import Case, Row
from firnstead.power.numbers import Numbers, numbers_of
from firnstead.power.outcome import result_of
from firnstead.power.results import PowerYear
from firnstead.power.study_case import case_of
from firnstead.power.study_feeders import feeder_checks
from firnstead.power.study_fuel import fuel_checks
from firnstead.power.study_items import power_items
from firnstead.power.study_sets import names, set_checks
from firnstead.station import Station

Found = tuple[Numbers, tuple[Check, ...]]


def study(
    station: Station,
    memo: Memo | None = None,
    *,
    loads: Mapping[str, Row] | None = None,
    waste_used: Row | None = None,
    other_fuel: Row | None = None,
) -> Study:
    """Work out the power of the station.

    `loads` [W] by month are what heat, pipes and water work out, by name; `waste_used` [W] is what they take of the
    waste heat; `other_fuel` [kg] is what heaters and boilers burn. Rows have 12 values, January first.
    """
    memo = memo if memo is not None else Memo()
    plan = station.power
    if plan is None:
        return Study(None, (not_checked(
            reason="the file has no `power`", **names("Power plant", "", "part",
            "No power in the file")),))  # fmt: skip
    case = case_of(station, plan, loads, other_fuel)
    numbers, checks = memo.get(("power", case), lambda: _found(case))
    result: PowerYear = memo.get(("power.result", case, waste_used), lambda: result_of(numbers, waste_used))
    return Study(result, checks, power_items(numbers, frozenset(station.places)))


def _found(case: Case) -> Found:
    numbers = numbers_of(case)
    return numbers, (*set_checks(numbers), *feeder_checks(numbers), *fuel_checks(numbers))
