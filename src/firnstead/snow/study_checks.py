"""Checks of the snow: how far the density, the strength and the climate can be trusted."""

from __future__ import annotations

import math

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import YEAR
from firnstead.snow.column import LAW_SPREAD
from firnstead.snow.density import JOHNSEN, rate_constants_herron_langway
from firnstead.snow.results import SnowResult
from firnstead.snow.strength import compressive_strength_band
from firnstead.snow.temperature import MELTING
from firnstead.station import Station

SUBJECT = "Snow of the site"
COMPARED_TEMPERATURES = (241.45, 252.15)  # -31.7 to -21 degC: the six measured cores with which the law was compared
COMPARED_ACCUMULATION = (0.175 / YEAR, 0.50 / YEAR)  # as metres of water, same cores
WARM_TUNNEL = 255.37  # 0 degF, hoffman_1967 (read)
MEASURE = "Strength and density are planning figures until the snow of the site has been measured."
SPREAD = ("At one measured site the short-term strength spread 34 times, from 0.21 to 7.3 MPa (ueda_1981, abstract "
          "read): work with the low end of the band and test.")  # fmt: skip
FRESH = "Freshly milled snow has no cohesion and runs like sand. No load on a cover before its strength is measured."


def checks_of(station: Station, result: SnowResult) -> tuple[Check, ...]:
    """All checks of the snow."""
    return (
        _temperature_of_law(station),
        _accumulation_of_law(station),
        _core_against_law(station, result),
        _natural_strength(station, result),
        _milled_strength(station, result),
        _warm_tunnel(station),
        _melt(station),
    )


def _temperature_of_law(station: Station) -> Check:
    low, high = COMPARED_TEMPERATURES
    return _within(
        "law_temperature", "Mean temperature within the cores that the density law was compared with", "T",
        station.site.mean_temperature, low, high, "K",
        "the law is usually stated for -57 to -15 degC, but that is from memory and unchecked; beyond the six cores "
        "(-31.7 to -21 degC) nothing was compared")  # fmt: skip


def _accumulation_of_law(station: Station) -> Check:
    low, high = COMPARED_ACCUMULATION
    return _within(
        "law_accumulation", "Accumulation within the cores that the density law was compared with", "a",
        station.site.accumulation_water, low, high, "m/s",
        "the law is usually stated for 0.02 to 0.5 m of water a year, but that is from memory and unchecked; beyond "
        "the six cores (0.175 to 0.50 m a year) nothing was compared")  # fmt: skip


def _within(key: str, question: str, symbol: str, value: float, low: float, high: float, unit: str, why: str) -> Check:
    """Holds inside the range; outside it nothing can be said, so it is not checked."""
    nearer = high if value >= (low + high) / 2 else low
    given = Step(symbol, "", (), value, unit, "", "from the station file")
    if not low <= value <= high:
        return not_checked(
            subject=SUBJECT, question=question, reason=why, key=f"snow.{key}", discipline="snow", place="",
            working=(given,), sources=("density_compilation_2024", "herron_langway_1980"), unit=unit, demand=value,
            limit=nearer, caution=MEASURE)  # fmt: skip
    share = Step(
        "r", f"abs(2 {symbol} - {symbol}_1 - {symbol}_2)/({symbol}_2 - {symbol}_1)",
        ((symbol, value, unit), (f"{symbol}_1", low, unit), (f"{symbol}_2", high, unit)),
        abs(2 * value - low - high) / (high - low), "1", "density_compilation_2024",
        "share of the way from the middle of the compared range to its end")  # fmt: skip
    return check(
        subject=SUBJECT, question=question, demand=value, limit=nearer, unit=unit, key=f"snow.{key}", discipline="snow",
        place="", at_least=nearer == low, working=(given, share), sources=("herron_langway_1980",), caution=MEASURE,
        ratio=share.value,
        note="six Greenland cores; the law's depth of 550 kg/m3 was up to 20 % too shallow there")  # fmt: skip


def _core_against_law(station: Station, result: SnowResult) -> Check:
    question, key = "Measured density against the law: depth of 550 kg/m3", "snow.core_against_law"
    if not station.snow.layers:
        return not_checked(
            subject=SUBJECT, question=question, key=key, discipline="snow", place="", caution=MEASURE, unit="1",
            limit=LAW_SPREAD, sources=("herron_langway_1980", "density_compilation_2024"),
            reason="no density is measured; the law alone may be 20 % out in this depth")  # fmt: skip
    if result.depth_of_550 >= result.measured_depth:
        return not_checked(
            subject=SUBJECT, question=question, key=key, discipline="snow", place="", caution=MEASURE, unit="1",
            limit=LAW_SPREAD, reason="the measured layers end before 550 kg/m3 is reached")  # fmt: skip
    site, snow = station.site, station.snow
    ice, gas, share = 917.0, 8.314, JOHNSEN[0] if "johnsen" in snow.law else 1.0
    k0, _ = rate_constants_herron_langway(site.mean_temperature, stage_1_share=share)
    by_law = (math.log(550 / (ice - 550)) - math.log(snow.surface_density / (ice - snow.surface_density))) / (
        ice * k0 / 1000)  # fmt: skip
    if by_law <= 0.0:
        return not_checked(
            subject=SUBJECT, question=question, key=key, discipline="snow", place="", caution=MEASURE, unit="1",
            limit=LAW_SPREAD, reason="the surface density is 550 kg/m3, where the law's first stage ends")  # fmt: skip
    difference = abs(result.depth_of_550 - by_law) / by_law
    steps = (
        Step("z_m", "", (), result.depth_of_550, "m", "own_rule",
             "first crossing of 550 kg/m3 in the measured layers, straight lines that keep each layer's mass"),
        Step("k_0", "11 s exp(-10160/(R T))",
             (("s", share, "1"), ("R", gas, "J/mol/K"), ("T", site.mean_temperature, "K")), k0, "1/m",
             "herron_langway_1980", "densification constant of stage 1, per metre of water"),
        Step("z_l", "(ln(550/(rho_i - 550)) - ln(rho_0/(rho_i - rho_0)))/(rho_i k_0/1000)",
             (("rho_i", ice, "kg/m3"), ("rho_0", snow.surface_density, "kg/m3"), ("k_0", k0, "1/m")),
             by_law, "m", "herron_langway_1980", "depth of 550 kg/m3 by the law"),
        Step("d", "abs(z_m - z_l)/z_l", (("z_m", result.depth_of_550, "m"), ("z_l", by_law, "m")), difference, "1",
             "statics", "difference as a share of the law's depth"),
    )  # fmt: skip
    return check(
        subject=SUBJECT, question=question, demand=difference, limit=LAW_SPREAD, unit="1", key=key, discipline="snow",
        place="", working=steps, sources=("density_compilation_2024", *(("johnsen_2000",) if share < 1 else ())),
        caution="Where core and climate disagree, one of them is wrong: measure again before cutting.",
        note="plausibility: six cores lay within 20 % of the law; the top 2.5 m of a core is disturbed")  # fmt: skip


def _natural_strength(station: Station, result: SnowResult) -> Check:
    question, key = "Measured strength of natural snow against the low end of the band", "snow.natural_strength"
    inside = [m for m in station.snow.strengths if m.depth <= float(result.column.depth[-1])]
    if not inside:
        return not_checked(
            subject=SUBJECT, question=question, key=key, discipline="snow", place="", caution=SPREAD, unit="Pa",
            sources=("mellor_1975", "ueda_1981"),
            reason=f"no strength of natural snow is measured above {result.column.depth[-1]:g} m")  # fmt: skip
    worst = min(inside, key=lambda m: m.strength / result.column.at("ucs_low", m.depth))
    density = result.column.at("density_low", worst.depth)
    low = compressive_strength_band(density).low
    steps = (
        Step("rho", "", (("z", worst.depth, "m"),), density, "kg/m3", "own_rule",
             "low end of the density at the sample's depth, from the snow column"),
        Step("sigma_l", "C (rho/rho_i)^n", (("C", 3000e3, "Pa"), ("rho", density, "kg/m3"), ("rho_i", 917.0, "kg/m3"),
             ("n", 3.0, "1")), low, "Pa", "mellor_1975", "low end of the compressive strength"),
        Step("sigma_m", "", (), worst.strength, "Pa", "", "measured strength, from the station file"),
    )  # fmt: skip
    return check(
        subject=SUBJECT, question=question, demand=worst.strength, limit=low, unit="Pa", key=key, discipline="snow",
        place="", at_least=True, working=steps, sources=("ueda_1981",), caution=SPREAD,
        note=f"worst of {len(inside)} measurements; where one is weaker, the checks of walls and seats are too hopeful",
    )  # fmt: skip


def _milled_strength(station: Station, result: SnowResult) -> Check:
    question, key = "Measured strength of milled snow within what its density allows", "snow.milled_strength"
    milled = result.milled
    if milled.unknown or milled.measured_strength is None:
        return not_checked(
            subject=SUBJECT, question=question, key=key, discipline="snow", place="", caution=FRESH, unit="Pa",
            demand=milled.measured_strength, sources=("waterhouse_bunten_1969", "hobbs_1965"),
            reason=milled.unknown)  # fmt: skip
    high = compressive_strength_band(milled.density).high
    steps = (
        Step("sigma_m", "", (), milled.measured_strength, "Pa", "", "measured strength, from the station file"),
        Step("sigma_h", "C (rho/rho_i)^n", (("C", 10000e3, "Pa"), ("rho", milled.density, "kg/m3"),
             ("rho_i", 917.0, "kg/m3"), ("n", 2.0, "1")), high, "Pa", "mellor_1975",
             "high end of the strength of well-bonded snow of the density as placed"),
    )  # fmt: skip
    return check(
        subject=SUBJECT, question=question, demand=milled.measured_strength, limit=high, unit="Pa", key=key,
        discipline="snow", place="", working=steps, sources=("gow_ramseier_1964",), caution=FRESH,
        note="plausibility; milled snow is weaker than natural snow of the same density")  # fmt: skip


def _warm_tunnel(station: Station) -> Check:
    mean = station.site.mean_temperature
    ratio = (MELTING - WARM_TUNNEL) / (MELTING - mean) if mean < MELTING else math.inf
    steps = (
        Step("T_m", "", (), mean, "K", "", "from the station file"),
        Step("r", "(T_0 - T_w)/(T_0 - T_m)", (("T_0", MELTING, "K"), ("T_w", WARM_TUNNEL, "K"), ("T_m", mean, "K")),
             ratio, "1", "own_rule", "cold needed below melting as a share of the cold that the snow has"),
    ) if mean < MELTING else ()  # fmt: skip
    return check(
        subject=SUBJECT, question="Mean temperature of the snow against the warning for warm tunnels", demand=mean,
        limit=WARM_TUNNEL, unit="K", key="snow.warm_tunnel", discipline="snow", place="", working=steps,
        sources=("hoffman_1967", "cuffey_paterson_2010"), ratio=ratio,
        caution="From -25 to -10 degC snow creeps five times faster. Keep warm air out of the trenches.",
        note="tunnels warmer than 0 degF (-18 degC) were found to threaten the life of a camp")  # fmt: skip


def _melt(station: Station) -> Check:
    mean, swing = station.site.mean_temperature, station.site.annual_swing
    warmest = mean + swing
    steps = (
        Step("T_w", "T_m + S", (("T_m", mean, "K"), ("S", swing, "K")), warmest, "K", "textbook_unchecked",
             "warmest month at the surface"),
        Step("r", "S/(T_0 - T_m)", (("S", swing, "K"), ("T_0", MELTING, "K"), ("T_m", mean, "K")),
             swing / (MELTING - mean), "1", "own_rule", "swing as a share of the cold that the snow has"),
    ) if mean < MELTING else ()  # fmt: skip
    ratio = swing / (MELTING - mean) if mean < MELTING else math.inf
    return check(
        subject=SUBJECT, question="Surface below melting in the warmest month", demand=warmest, limit=MELTING, unit="K",
        key="snow.melt", discipline="snow", place="", working=steps, ratio=ratio,
        caution="Wet snow is weaker than any number here. Stop and inspect after rain, thaw or strong sun.",
        note="monthly means; single warm days and rain happen above it")  # fmt: skip
