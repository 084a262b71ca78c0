"""Marches in numbers: names by content, what is doubted and changed, and what is kept of them."""

from dataclasses import fields, replace

import numpy as np
import pytest

from closure.specs import SOFT, spec
from firnstead.closure.march import March
from firnstead.closure.outcome import Outcome
from firnstead.closure.spec import CHANGES, DOUBTS, EXPECTED, case_of, family_of
from firnstead.closure.trace import trace_of
from firnstead.core.units import YEAR


@pytest.mark.parametrize("name", [field.name for field in fields(spec())])
def test_every_number_names_the_march(name: str) -> None:
    """A change of any field gives another digest."""
    base = spec()
    value = getattr(base, name)
    other = {str: lambda v: v + "x", float: lambda v: v + 1e-9, tuple: lambda v: (*v, v[-1])}[type(value)](value)
    assert replace(base, **{name: other}).digest() != base.digest() == spec().digest()


def test_family_has_both_ends_of_every_doubt() -> None:
    """Each doubt names two marches of the family; each change differs from the trench as expected."""
    family = family_of(spec(), SOFT)
    for doubt in DOUBTS:
        assert doubt.low in family
        assert doubt.high in family
    assert len({one.digest() for one in family.values()}) == len(family)
    assert {name for name in family if name in CHANGES} == set(CHANGES)
    assert (family["lighter"].k, family["denser"].k) == (SOFT.k_lighter, SOFT.k_denser)


def test_a_vault_has_no_stiff_arch() -> None:
    """Snow without steel is marched without the doubt of an arch."""
    family = family_of(spec(roof="unlined", seat=0.0), SOFT)
    assert "stiff roof" not in family
    assert EXPECTED in family


def test_undercut_leaves_the_top_and_moves_the_floor() -> None:
    """More undercut sets the floor back and leaves the shoulder where it was."""
    family = family_of(spec(), SOFT)
    assert np.allclose(family[CHANGES[0]].outline, [(2.3, 1.2), (2.3 + 0.2 * 1.2 / 5.0, 2.4), (3.3, 6.2)])


def test_colder_air_is_never_below_the_snow() -> None:
    """Five kelvin colder, but not colder than the snow that cools it; air that is colder already stays."""
    warm, cold = (family_of(spec(air=(t,)), SOFT)[CHANGES[3]].air[0] for t in (252.0, 243.0))
    assert (warm, cold) == (247.0, 243.0)


def test_trace_is_the_march_at_its_dates() -> None:
    """What is kept is what the march gave, quarter by quarter."""
    one = spec(years=1.0)
    trace, outcome = trace_of(one), Outcome(March(case_of(one)).run(YEAR))
    assert np.all(trace.dates == np.arange(5) * 0.25 * YEAR)
    for index, date in enumerate(trace.dates):
        assert trace.heave[index] == pytest.approx(outcome.rise(float(date), "floor"), abs=1e-12)
        assert np.allclose(trace.lines[index], outcome.void(float(date)).line)
    assert trace.inward[-1] > 0.0
    assert trace.end == np.inf


def test_vault_of_snow_is_marched() -> None:
    """A vault whose outline rises to the crown marches too, and its crown sinks."""
    turns = np.arange(1, 7) / 6 * np.pi / 2
    vault = tuple((2.3 * float(np.sin(t)), 3.2 - 1.9 * float(np.cos(t))) for t in turns)
    one = spec(outline=(*vault, (3.1, 8.2)), roof="unlined", seat=0.0, seat_load=0.0, slab=500.0, raised=2.0,
               milled_depth=3.2, milled_edge=5.4, years=1.0)  # fmt: skip
    trace = trace_of(one)
    assert not trace.note
    assert 0.0 < trace.sag[-1] < 1.0
