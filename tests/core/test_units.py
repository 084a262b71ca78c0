"""Quantities with units."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.core.errors import UnitError
from firnstead.core.units import UNITS, convert, number_text, parse, show

# What each of our unit names is called by the independent library.
_PINT = {
    "deg": "degree", "%": "percent", "h/day": "hour/day", "L": "liter", "gal": "gallon", "lb": "pound",
    "ton_us": "short_ton",
    "t": "metric_ton", "t/m3": "metric_ton/m**3", "kn": "knot", "psf": "pound_force/foot**2", "lbf": "pound_force",
    "kip": "kilopound_force", "kip/ft": "kilopound_force/foot", "lbf/ft": "pound_force/foot", "ksi": "kilopsi",
    "yr": "year", "wk": "week", "in": "inch", "g": "gram", "min": "minute", "hp": "horsepower", "h": "hour",
}  # fmt: skip


def _pint_unit(name: str) -> str:
    if name in _PINT:
        return _PINT[name]
    parts = [_PINT.get(part, part) for part in name.split("/")]
    parts = [part[:-1] + f"**{part[-1]}" if part[-1] in "23" and part not in ("m2", "m3") else part for part in parts]
    parts = [part.replace("m2", "m**2").replace("m3", "m**3") if part in ("m2", "m3") else part for part in parts]
    parts = [
        {"in**3": "inch**3", "yd**3": "yard**3", "in": "inch", "wk": "week", "min": "minute"}.get(p, p) for p in parts
    ]
    return "/".join(parts)


@pytest.mark.parametrize("name", sorted(UNITS))
def test_every_unit_agrees_with_an_independent_library(name: str) -> None:
    """A number in each unit of the table becomes the SI value that pint gives."""
    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    unit = UNITS[name]
    given_there = registry.Quantity(7.5, _pint_unit(name))
    kind = {"1": "dimensionless", "deg": "degree", "h/day": "hour/day"}.get(unit.kind, _pint_unit(unit.kind))
    assert parse(f"7.5 {name}", unit.kind) == pytest.approx(given_there.to(kind).magnitude, rel=1e-12)


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(UNITS)))
def test_writing_and_reading_gives_the_number_back(number: float, name: str) -> None:
    """What is read from a text converts back to the written number."""
    si = parse(f"{number!r} {name}", UNITS[name].kind)
    assert convert(si, name) == pytest.approx(number, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    "text", ["3", 3, "3 fortnights", "3 kg", "", "m", "3 3 m", None, True, [], {}, "1e400 m", "nan m", "--3 m"]
)
def test_what_is_not_a_length_is_refused_with_a_cure(text: object) -> None:
    """Bare numbers, unknown units, units of another kind and nonsense raise an error that says how to mend it."""
    with pytest.raises(UnitError) as caught:
        parse(text, "m")
    assert caught.value.cure


def test_a_temperature_difference_has_no_zero_point() -> None:
    """18 degC of swing is 18 K, but a temperature of 18 degC is 291.15 K."""
    assert parse("18 degC", "dK") == 18
    assert parse("18 degC", "K") == pytest.approx(291.15)
    assert parse("18 degF", "dK") == pytest.approx(10)


def test_readers_of_both_systems_see_a_unit_that_fits_the_size() -> None:
    """Small and large values get a prefix or a unit that keeps the number readable."""
    assert show(137e6, "Pa") == "137 MPa"
    assert show(0.0127, "m") == "12.7 mm"
    assert show(12.192, "m", "us") == "40 ft"
    assert show(249.15, "K") == "-24 degC"
    assert show(None, "m") == "–"
    assert number_text(float("nan")) == "not a number"
