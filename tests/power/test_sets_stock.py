"""Sets, fuel, stock, drums and conductors: behaviour beyond the published values."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firnstead.power.conductors import resistance_iec, resistance_nec, resistance_of_section, section_awg
from firnstead.power.derating import (
    EXPONENTS,
    fuel_factor_iso_3046,
    indicated_ratio_iso_3046,
    power_factor_iso_3046,
    pressure_altitude,
    pressure_standard,
    site_factor_by_rule,
    site_factors,
)
from firnstead.power.sets import fuel_line, sets_running
from firnstead.power.stock import DAY, burnt_in, containers_needed, drums_needed, time_of_stock
from firnstead.power.tables import rows
from firnstead.station.power import Fuel, GeneratorSet


@given(st.floats(0.0, 5000.0))
def test_altitude_and_pressure_are_inverse(altitude):
    """The pressure of an altitude has that pressure altitude."""
    assert pressure_altitude(pressure_standard(altitude)) == pytest.approx(altitude, abs=1e-6)


@given(st.floats(60e3, 100e3), st.floats(220.0, 320.0), st.sampled_from(sorted(EXPONENTS)))
def test_thin_or_warm_air_never_gives_power(pressure, inlet, engine):
    """Every rule leaves between 0 and 1, cold air is not banked, and the fuel factor is at least 1."""
    shares = site_factors(pressure_altitude(pressure), pressure, inlet, engine)
    assert all(0 <= share <= 1 for share, _ in shares.values())
    warmer = site_factors(pressure_altitude(pressure), pressure, inlet + 10, engine)
    assert all(warmer[name][0] <= share + 1e-12 for name, (share, _) in shares.items())
    ratio = indicated_ratio_iso_3046(pressure, inlet, inlet, *EXPONENTS[engine])
    assert fuel_factor_iso_3046(ratio, power_factor_iso_3046(ratio)) >= 1 - 1e-12
    assert indicated_ratio_iso_3046(pressure, 230.0, 230.0, *EXPONENTS[engine], bank_cold=True) > ratio * (1 - 1e-12)


def test_at_sea_level_and_mild_air_nothing_is_lost():
    """At the sea and 20 degC every straight rule leaves all; at 3,000 m each leaves 0.6 to 0.9."""
    assert all(share == 1 for share, source in site_factors(0.0, 101325.0, 293.15, "charged").values()
               if source != "iso_3046_1")  # fmt: skip
    high = site_factors(3000.0, pressure_standard(3000.0), 293.15, "charged")
    assert all(0.6 < share < 0.93 for share, _ in high.values())
    assert site_factor_by_rule(0.0, 308.15 + 5.6, 1e-4, 305.0) == pytest.approx(0.97)


@given(st.lists(st.floats(10.0, 500.0), min_size=1, max_size=8), st.floats(0.0, 5000.0), st.integers(1, 3))
def test_the_fewest_sets_run(powers, load, least):
    """One set fewer would not carry the load, unless it is the least number kept running."""
    planned = np.array(powers)
    n = int(sets_running(np.array([load]), planned, least)[0])
    assert n == 0 if load == 0 else n >= min(least, len(powers))
    if n > max(1, least) and n <= len(powers):
        assert planned[: n - 1].sum() < load
    if 0 < load <= planned.sum():
        assert planned[:n].sum() >= load * (1 - 1e-9)


@given(
    st.floats(1e-12, 1e-10), st.floats(1e-11, 1e-10), st.lists(st.floats(0.1, 1.0), min_size=2, max_size=6, unique=True)
)
def test_a_straight_table_gives_its_line(idle, slope, loads):
    """Least squares through points of a line give the line."""
    if max(loads) - min(loads) < 0.05:
        return
    found = fuel_line(loads, [idle + slope * x for x in loads])
    assert found == pytest.approx((idle, slope), rel=1e-6)


@given(st.lists(st.floats(0.0, 50e3), min_size=12, max_size=12), st.floats(0.0, 2e6), st.integers(0, 11))
def test_stock_and_burning_are_inverse(burnt, stock, start):
    """What is burnt in the time that a stock lasts is the stock; a longer time burns no less."""
    time = time_of_stock(stock, burnt, start)
    if math.isinf(time):
        assert sum(burnt) == 0
        return
    assert burnt_in(time, burnt, start) == pytest.approx(stock, rel=1e-9, abs=1e-6)
    assert burnt_in(time + 10 * DAY, burnt, start) >= stock * (1 - 1e-9) - 1e-6
    assert burnt_in(365 * DAY, burnt, start) == pytest.approx(sum(burnt))


@given(st.lists(st.floats(1.0, 250.0), min_size=1, max_size=5))
def test_drums_hold_all_lengths(lengths):
    """No fewer drums than the length needs, and for few lengths no more than one above the fewest possible."""
    count = drums_needed(lengths, 100.0)
    assert count >= math.ceil(sum(lengths) / 100.0 - 1e-9)
    rest = [length % 100.0 for length in lengths]
    whole = sum(int(length // 100.0) for length in lengths)
    fewest = min(_next_fit(order) for order in itertools.permutations(rest))
    assert count <= whole + fewest + 1


def _next_fit(order):
    drums, left = 0, 0.0
    for length in order:
        if length > left + 1e-9:
            drums, left = drums + 1, 100.0
        left -= length
    return drums


def test_containers_are_whole():
    """A little more than whole containers takes one more; exactly whole ones do not."""
    assert containers_needed(0.6, 0.2) == 3
    assert containers_needed(0.61, 0.2) == 4


def test_table_and_section_of_a_wire_agree():
    """Resistances of both tables lie within 12 % of resistivity over section; a missing size gives none."""
    for row in rows("iec_60228"):
        section, kind = float(row["section"]) * 1e-6, int(row["class"])
        for metal, resistivity in (("copper", 1.8e-8), ("aluminium", 2.88e-8)):
            found = resistance_iec(section, metal, kind)
            assert (found is None) == (row[metal] == "")
            if found is not None:
                assert found == pytest.approx(resistance_of_section(section, resistivity), rel=0.12)
    for row in rows("nec_table_8"):
        found = resistance_nec(row["size"], "copper")
        assert found == pytest.approx(resistance_of_section(section_awg(row["size"]), 1.8e-8 * 1.216), rel=0.06)
    assert resistance_iec(37e-6, "copper") is None
    assert resistance_nec("7", "copper") is None


def test_defaults_are_the_work_sheet_s():
    """Jacket heat and heating value are what the work sheet of 1991 says, turned into SI."""
    btu, gallon = 1055.056, 231 * 0.0254**3
    assert GeneratorSet.model_fields["jacket_heat"].default == pytest.approx(2900 * btu / 3.6e6, rel=1e-3)
    assert Fuel.model_fields["heating_value"].default == pytest.approx(126000 * btu / gallon, rel=1e-3)
