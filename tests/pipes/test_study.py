"""The pipe study on the example stations and on variants of them."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead import snow
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.core.units import YEAR
from firnstead.core.working import evaluate
from firnstead.pipes import study
from firnstead.pipes.study_case import case_of
from firnstead.pipes.study_numbers import Numbers
from firnstead.station import read_station
from firnstead.station.pipes import DeadLeg, PipeFitting, Supports
from house.project import ROOT

STATIONS = {name: read_station(ROOT / "examples" / "stations" / name).station for name in ("first", "full")}
SNOW = {name: snow.study(station).result for name, station in STATIONS.items()}
FULL = STATIONS["full"]


def with_run(name="Water main", station=FULL, kind=None, pipes=None, **changes):
    """The full station with one run, its kind of pipe and the pipes as a whole changed."""
    run = station.pipes.runs[name].model_copy(update=changes)
    kinds = {**station.pipes.kinds, run.kind: station.pipes.kinds[run.kind].model_copy(update=kind or {})}
    new = station.pipes.model_copy(update={"runs": {name: run}, "kinds": kinds, **(pipes or {})})
    return station.model_copy(update={"pipes": new})


def made(name="Water main", kind=None, pipes=None, extra=None, **changes):
    """The study of one run of the full station, changed."""
    return study(with_run(name, kind=kind, pipes=pipes, **changes), SNOW["full"], **(extra or {}))


def found(answer, key):
    """The first check with a key."""
    return next(c for c in answer.checks if c.key == f"pipes.{key}")


def run_of(answer):
    """The only run's result."""
    return next(iter(answer.result.runs.values()))


def sound(answer):
    """Every formula gives its value, every verdict comes out of its working, nothing is without a source."""
    for check in answer.checks:
        for step in check.working:
            assert step.formula or step.text
            assert step.source
            if step.formula:
                assert evaluate(step) == pytest.approx(step.value, rel=1e-9, abs=1e-15), step
        if check.verdict != Verdict.NOT_CHECKED:
            assert {check.demand, check.limit} <= {step.value for step in check.working}, check
        else:
            assert check.reason
        assert check.caution
        assert check.place == "station" or check.place in FULL.places or check.place in STATIONS["first"].places
    return answer


@pytest.mark.parametrize("name", STATIONS)
def test_examples_hold(name):
    """The examples fail nowhere, every run has its result, its checks and its work in order."""
    answer = sound(study(STATIONS[name], SNOW[name]))
    assert set(answer.result.runs) == set(STATIONS[name].pipes.runs)
    assert not [c for c in answer.checks if c.verdict == Verdict.FAILS]
    ids = [item.id for item in answer.work_items]
    assert len(ids) == len(set(ids))
    known = set(ids)
    for item in answer.work_items:
        assert all(after in known or ".cutting." in after or ".roof." in after for after in item.after)
    for run in STATIONS[name].pipes.runs:
        assert f"{run}.pipes.lay" in known
        assert f"{run}.pipes.trial" in known


VARIANTS = [
    ("Water main", {"flow": 0.0}), ("Water main", {"flow": 1e-5}), ("Water main", {"flow": 0.0, "drain": 1200.0}),
    ("Water main", {"dead_legs": (DeadLeg(place="Main", length="0.1 m", bore="20 mm", wall="2 mm"),)}),
    ("Water main", {"flow": 1e-6, "dead_legs": (DeadLeg(place="Main", length="2 m", bore="20 mm", wall="2 mm"),)}),
    ("Water main", {"supports": Supports(kind="on snow")}), ("Water main", {"expansion_leg": None}),
    ("Water main", {"supports": Supports(kind="in snow", depth="0.8 m")}),
    ("Water main", {"supports": Supports(kind="on snow"), "pipes_changes": {"air_without_heat": 243.15}}),
    ("Water main", {"supports": Supports(kind="on snow"), "kind_changes": {"insulation": ()}}),
    ("Water main", {"drain": 1200.0}), ("Heat return", {"supports": Supports(kind="on snow")}),
    ("Water main", {"supports": Supports(kind="hung", bridge="0.2 W/K")}),
    ("Water main", {"supports": Supports(kind="in a niche", niche_width="0.6 m", niche_height="0.7 m")}),
    ("Water main", {"fittings": (PipeFitting(kind="valve", insulated=0),)}),
    ("Water main", {"supply": 283.15, "least": 283.15}), ("Water main", {"laid_at": 303.15}),
    ("Water main", {"kind_changes": {"jacket": None}}), ("Water main", {"kind_changes": {"insulation": ()}}),
    ("Water main", {"pipes_changes": {"air_speed": 3.0}}), ("Water main", {"pipes_changes": {"air_speed": 0.05}}),
    ("Water main", {"pipes_changes": {"air_without_heat": 213.15}}),
    ("Sewage main", {"supports": Supports(kind="on blocks", bridge="0.1 W/K")}), ("Sewage main", {"flow": 0.001}),
    ("Kitchen drain", {"fall": 0.05}), ("Heat supply", {"glycol_share": 0.3}), ("Heat supply", {"carrier": "fuel"}),
    ("Heat supply", {"supports": Supports(kind="in snow", depth="0.5 m")}),
    ("Steam to the well", {"flow": 0.0}), ("Steam to the well", {"drain": None}),
]  # fmt: skip


@pytest.mark.parametrize("name, changes", VARIANTS, ids=str)
def test_workings_of_variants(name, changes):
    """Every branch of the checks has a working that gives its values, and a result without gaps."""
    more = dict(changes)
    answer = sound(made(name, kind=more.pop("kind_changes", None), pipes=more.pop("pipes_changes", None), **more))
    run = run_of(answer)
    assert run.length == pytest.approx(sum(leg.length for leg in run.legs))
    assert len(run.electric) == len(run.loss) == 12
    assert all(math.isfinite(v) for v in (*run.electric, *run.loss, run.loss_cold, run.coldest))
    if run.spots:
        assert run.spots[0].to_zero == min(spot.to_zero for spot in run.spots)


@pytest.mark.parametrize(
    "name, changes, key",
    [
        ("Water main", {"flow": 0.0}, "flow"), ("Water main", {"flow": 0.0}, "outage"),
        ("Water main", {"repair": 86400.0}, "outage"), ("Heat supply", {"glycol_share": 0.3}, "liquid"),
        ("Water main", {"fittings": (PipeFitting(kind="valve", insulated=0),), "repair": 3 * 3600.0}, "outage"),
        ("Water main", {"dead_legs": (DeadLeg(place="Main", length="2 m", bore="20 mm", wall="2 mm"),)}, "dead_leg"),
        ("Kitchen drain", {"fall": 0.05}, "fall"), ("Kitchen drain", {"fall": 0.3}, "fall_room"),
        ("Kitchen drain", {"peak_flow": 0.02}, "bore"), ("Water main", {"expansion_leg": 0.5}, "expansion"),
        ("Water main", {"pump_pressure": 100.0}, "pressure"),
        ("Heat supply", {"supports": Supports(kind="in snow", depth="3 m"), "kind": {"insulation": ()}}, "thaw"),
        ("Water main", {"supports": Supports(kind="in a niche", niche_width="0.4 m", niche_height="0.4 m")}, "niche"),
        ("Steam to the well", {"steam_loss": 0.005}, "steam"), ("Sewage main", {"drain": 1200.0}, "drain"),
    ],
    ids=str,
)  # fmt: skip
def test_what_is_too_weak_fails(name, changes, key):
    """Each question fails where its design is made too weak."""
    assert found(made(name, **changes), key).verdict == Verdict.FAILS


@pytest.mark.parametrize("field, value, key", [("standby", 0, "standby"), ("circuits", 1, "circuits"),
                                               ("cables", 1, "tracing")])  # fmt: skip
def test_tracing_that_is_too_weak_fails(field, value, key):
    """Without a standby, with too few circuits, or in bitter air under thin insulation, tracing fails."""
    tracing = FULL.pipes.runs["Sewage main"].tracing.model_copy(update={field: value})
    kind = {"insulation": ()} if key == "tracing" else None
    assert found(made("Sewage main", kind=kind, tracing=tracing), key).verdict == Verdict.FAILS


def test_no_pipes_is_not_checked():
    """A station without pipes has one question, not checked, and no work."""
    answer = study(FULL.model_copy(update={"pipes": None}), SNOW["full"])
    assert [c.verdict for c in answer.checks] == [Verdict.NOT_CHECKED]
    assert not answer.work_items
    assert not answer.result.runs


def test_memo_changes_nothing():
    """With a memo the answers are the same, and a run that did not change is not worked out again."""
    memo = Memo()
    first = study(FULL, SNOW["full"], memo)
    again = study(FULL, SNOW["full"], memo)
    assert first == again == study(FULL, SNOW["full"])
    assert again.result.runs["Water main"] is first.result.runs["Water main"]


def numbers(name, station=FULL, air=None):
    """One run in numbers."""
    return Numbers(case_of(station, station.pipes, SNOW["full"], station.pipes.runs[name], air, None))


airs_strategy = st.lists(st.floats(220.0, 272.0), min_size=12, max_size=12)


@given(airs_strategy, st.floats(0.0, 2e-3), st.floats(275.0, 300.0), st.sampled_from(["Water main", "Sewage main"]))
def test_heat_of_the_year_is_kept(airs, flow, supply, name):
    """What the carrier and the cables give is what the places get, month by month, to 1e-6."""
    station = with_run(name, flow=flow, supply=supply)
    air = dict.fromkeys(FULL.places, tuple(airs))
    n = numbers(name, station, air)
    electric, losses = n.months()
    for month in range(12):
        flows = n.service((airs[month],) * len(n.case.legs))
        end = flows[-1].end
        carried = n.mass_flow * n.case.carrier.heat_capacity * (supply - end)
        given_off = sum(row[month] for row in losses.values())
        assert given_off == pytest.approx(carried + electric[month], rel=1e-6, abs=1e-6)


@given(st.floats(0.0, 1e-3), st.floats(276.0, 300.0), st.floats(225.0, 268.0))
def test_traced_line_agrees_with_the_integral_of_its_loss(flow, supply, air):
    """The heat of a traced line is the integral of (T - T_a)/R along it, T never below what the thermostat holds."""
    from scipy.integrate import quad

    n = numbers("Sewage main", with_run("Sewage main", flow=flow, supply=supply))
    held, capacity, at, total = n.held, n.mass_flow * n.case.carrier.heat_capacity, supply, 0.0
    flows = n.service((air,) * len(n.case.legs))
    for leg in n.case.legs:
        r = n.resistance(leg, supply, air)

        def free(x, r=r, at=at):
            return air + (at - air) * math.exp(-x / (capacity * r)) if capacity > 0 else air

        kink = -math.log((held - air) / (at - air)) * capacity * r if at > held else 0.0
        points = [kink] if 0 < kink < leg.length else None
        total += quad(lambda x, r=r, free=free: (max(held, free(x)) - air) / r, 0, leg.length, points=points)[0]
        at = max(held, free(leg.length))
    lost = sum(flow.lost for flow in flows)
    assert lost == pytest.approx(total, rel=1e-6, abs=1e-6)


@given(st.floats(0.01, 0.2), st.floats(215.0, 240.0))
def test_thicker_insulation_and_milder_air_give_more_time(thickness, air):
    """More insulation and milder air never shorten the time to 0 degC nor raise the loss."""
    layer = FULL.pipes.kinds["main DN80"].insulation[0]

    def at(t, a):
        kind = {"insulation": (layer.model_copy(update={"thickness": t}),)}
        return run_of(made(kind=kind, pipes={"air_without_heat": a}))

    base = at(thickness, air)
    assert at(thickness + 0.05, air).spots[0].to_zero > base.spots[0].to_zero
    assert at(thickness, air - 5).spots[0].to_zero < base.spots[0].to_zero
    assert at(thickness + 0.05, air).loss_cold < base.loss_cold


def test_the_weakest_metre_is_found():
    """A half-insulated valve is weaker than the line, a bare one weaker still; wet insulation counts unjacketed."""
    plain = run_of(made(fittings=()))
    half = run_of(made(fittings=(PipeFitting(kind="valve", insulated=0.5),)))
    bare = run_of(made(fittings=(PipeFitting(kind="valve", insulated=0),)))
    assert plain.spots[0].what == "plain line"
    assert bare.spots[0].what == half.spots[0].what == "valve"
    assert bare.spots[0].to_zero < half.spots[0].to_zero < plain.spots[0].to_zero
    wet = run_of(made(kind={"jacket": None}, fittings=()))
    assert wet.spots[0].what == "wet insulation"
    bridged = run_of(made(supports=Supports(kind="hung", bridge="0.2 W/K"), fittings=()))
    assert bridged.spots[0].what == "support"


def test_reserve_is_never_credited():
    """The limit of the outage is the time to 0 degC; blockage and solid ice come after it and are not in it."""
    answer = made()
    check, spot = found(answer, "outage"), run_of(answer).spots[0]
    assert check.limit == spot.to_zero
    assert 0 < spot.blocked < spot.solid
    assert "not counted" in check.reason


def test_outage_is_reckoned_without_station_heat():
    """Warm air by month makes the usual time longer, but never the one that is checked."""
    warm = made(extra={"air": dict.fromkeys(FULL.places, (268.15,) * 12)})
    cold = made()
    assert found(warm, "outage").limit == found(cold, "outage").limit
    assert run_of(warm).outage_usual > run_of(warm).spots[0].to_zero
    assert sum(run_of(warm).loss) < sum(run_of(cold).loss)


def test_a_failed_cable_is_known_at_the_alarm():
    """A traced line cools from the alarm, not from what the thermostat holds."""
    tracing = FULL.pipes.runs["Sewage main"].tracing
    early = run_of(made("Sewage main"))
    late = run_of(made("Sewage main", tracing=tracing.model_copy(update={"alarm": 274.15})))
    assert late.spots[0].to_zero < early.spots[0].to_zero


def test_floors_that_rise_take_the_fall():
    """With the forecast of the floors the fall at the end of the life is worked out, and may fail."""
    still = sound(made("Kitchen drain", extra={"floor_heave": dict.fromkeys(FULL.places, 0.0)}))
    assert found(still, "fall_years").demand == pytest.approx(run_of(still).fall)
    uneven = {**dict.fromkeys(FULL.places, 0.0), "Main": 0.05 / YEAR}
    worse = sound(made("Kitchen drain", extra={"floor_heave": uneven}))
    assert found(worse, "fall_years").verdict == Verdict.FAILS
    told = found(made("Kitchen drain"), "fall_years")
    assert told.verdict == Verdict.NOT_CHECKED


def test_heat_goes_where_the_line_lies():
    """A hung line warms the air of the places it passes; one in snow warms their floor."""
    hung, buried = made().result, made(supports=Supports(kind="in snow", depth="1 m")).result
    assert set(hung.losses) == {"Plant 4", "Main", "North 7"}
    assert not hung.floor_losses
    assert set(buried.floor_losses) == {"Plant 4", "Main", "North 7"}
    assert not buried.losses


def test_parts_and_masses_of_the_work():
    """Pipe pieces and cable drums are taken from the packing list; mass grows with the length."""
    items = {item.id: item for item in study(FULL, SNOW["full"]).work_items}
    lay, tracing = items["Sewage main.pipes.lay"], items["Sewage main.pipes.tracing"]
    assert lay.parts == (("main pipe", math.ceil(lay.quantity / 6)),)
    assert tracing.parts[0][0] == "cable drum"
    assert lay.mass == pytest.approx(lay.quantity / items["Water main.pipes.lay"].quantity
                                     * items["Water main.pipes.lay"].mass)  # fmt: skip
    piece = FULL.parts["main pipe"].mass / 6
    assert lay.mass / lay.quantity == pytest.approx(piece, rel=0.03)


def test_a_case_holds_every_input():
    """Two cases alike are equal and share their answers; another air makes another case."""
    one = numbers("Water main").case
    assert one == numbers("Water main").case
    assert hash(one) == hash(numbers("Water main").case)
    assert one != replace(one, speed=1.0)
