"""Settling, distortion, relevelling, jacks and shims, with workings."""

from __future__ import annotations

from firnstead.core.results import Check, Step, check, not_checked
from firnstead.core.units import YEAR, show
from firnstead.foundation.numbers import ENERGIES, Numbers, Row
from firnstead.foundation.pressure import mean_pressure
from firnstead.foundation.relevel import TOLERANCE_SHARE
from firnstead.foundation.settlement import equivalent_depth, rate_warm_ice
from firnstead.foundation.study_bearing import NAMES, Inputs, load_steps, row_steps
from firnstead.foundation.viscosity import GAS_CONSTANT, viscosity_at, warmth_arrhenius
from firnstead.snow.viscosity import viscosity_crocus

COLD_STEEL = 253.15  # K: below it ordinary steel is handled as brittle (own rule)
LEVEL = 0.0015  # m: what a level and a jack's thread reach in a camp (own rule)


def settling_checks(n: Numbers) -> tuple[Check, ...]:
    """All checks of settling for one building, floor heave apart."""
    return (_total(n), _relevel(n), _tolerance(n), _stroke(n), _packs(n), _jacks(n))


def rate_steps(n: Numbers, row: Row, mark: str) -> tuple[Step, ...]:
    """From the pressure of the lasting load to the settling rate of a row, by the law that settles fastest."""
    b, c, way = n.layout, n.ground, row.fastest.variant
    loads = row_steps(n, row, "sustained", mark)
    q, pressure = "q" + mark, loads[-1].value
    density = b.pad_density if b.pad_thickness > 0 else float(c.density[0])
    warm = way.warmth(b.floor_temperature, c.temperature)
    viscosity = _viscosity(n, row, density)
    depth = equivalent_depth(row.fastest.rate, pressure, viscosity.value) / warm
    return (
        *loads,
        Step("rho", "", (("z", c.floor, "m"),), density, "kg/m3", "statics",
             "the pad's density" if b.pad_thickness > 0 else "the site's density right under the floor"),
        viscosity,
        _warmth(n, row, warm),
        Step("H" + mark, "", (("b", b.footing_width, "m"), ("l", b.footing_length, "m"), ("s_w", b.spacing, "m"),
             ("s_l", b.spacing_along, "m"), ("t", b.pad_thickness, "m"), ("z_w", b.warm_depth, "m")), depth, "m",
             "doerr_jessberger_1983", "depth of such snow under full pressure that settles as fast: the sum over all "
             "layers of their stress, spread two to one, over their viscosity"),
        Step("v" + mark, f"({q} f H{mark})/eta", ((q, pressure, "Pa"), ("f", warm, "1"), ("H" + mark, depth, "m"),
             ("eta", viscosity.value, "Pa s")), row.fastest.rate, "m/s", "doerr_jessberger_1983",
             "settling rate of " + ("an outer row" if row is n.edge else "an inner row")),
    )  # fmt: skip


def _viscosity(n: Numbers, row: Row, density: float) -> Step:
    way, c = row.fastest.variant, n.ground
    if way.energy == 0.0:
        value = viscosity_crocus(density, c.temperature)
        return Step("eta", "(k eta_0 rho)/c exp(a (T_m - T_0) + d rho)",
                    (("k", 4.0, "1"), ("eta_0", 7.62237e6, "Pa s"), ("rho", density, "kg/m3"), ("c", 250.0, "kg/m3"),
                     ("a", 0.1, "1/K"), ("T_m", 273.15, "K"), ("T_0", c.temperature, "K"), ("d", 0.023, "m3/kg")),
                    value, "Pa s", "vionnet_2012", "viscosity at the site's temperature; the law that settles "
                    "fastest here, far beyond the seasonal snow it was made for")  # fmt: skip
    return Step("eta", "", (("rho", density, "kg/m3"), ("A", c.accumulation, "kg/m2/s")),
                viscosity_at(density, way.law.curve), "Pa s", "bader_1954",
                "sigma rho^2/(A d rho/dz), where the site's own profile has this density; slope over 5 m")  # fmt: skip


def _warmth(n: Numbers, row: Row, value: float) -> Step:
    b, c, way = n.layout, n.ground, row.fastest.variant
    temperatures = (("T_0", c.temperature, "K"), ("T", b.floor_temperature, "K"))
    if way.energy == 0.0:
        return Step("f", "exp(a (T - T_0))", (("a", 0.1, "1/K"), *temperatures), value, "1", "vionnet_2012",
                    "how much faster at the floor's temperature")  # fmt: skip
    return Step("f", "exp(Q/R (1/T_0 - 1/T))", (("Q", way.energy, "J/mol"), ("R", GAS_CONSTANT, "J/mol/K"),
                *temperatures), value, "1", "textbook_unchecked",
                f"how much faster at the floor's warmth; Q from {ENERGIES[0]:.0f} to {ENERGIES[1]:.0f}")  # fmt: skip


def _warm_side(n: Numbers) -> Step:
    b, way = n.layout, n.edge.fastest.variant
    warm = b.floor_temperature + b.warm_side
    if way.energy == 0.0:
        return Step("w", "exp(a D)", (("a", 0.1, "1/K"), ("D", warm - b.floor_temperature, "K")), n.warm_factor, "1",
                    "vionnet_2012", "how much faster the warm side settles")  # fmt: skip
    return Step("w", "exp(Q/R (1/T - 1/T_w))",
                (("Q", way.energy, "J/mol"), ("R", GAS_CONSTANT, "J/mol/K"), ("T", b.floor_temperature, "K"),
                 ("T_w", warm, "K")), warmth_arrhenius(warm, b.floor_temperature, way.energy), "1",
                "textbook_unchecked", "how much faster the warm side settles")  # fmt: skip


def validity(n: Numbers) -> str:
    """What the reader must know about the settling numbers."""
    b, c = n.layout, n.ground
    low, high = (show(each.rate, "m/s") for each in (n.deepest.settling[0], n.deepest.fastest))
    said = [f"band {low} to {high} over two laws and the activation energy"]
    pressure = mean_pressure(n.deepest.sustained, b.footing_width, b.footing_length)
    column = c.snow.column
    burial = column.at("overburden", min(c.floor, float(column.depth[-1])))
    if pressure > burial:
        said.append(f"{show(pressure, 'Pa')} is more than the {show(burial, 'Pa')} of burial that the law was read "
                    "from, so it may settle faster")  # fmt: skip
    if b.floor_temperature > c.temperature + 10:
        said.append("much warmer than the site's snow: outside what the laws were read from")
    ice = show(rate_warm_ice(pressure, b.short_side), "m/s")
    said.append(f"a strip on ice at 0 degC would sink {ice} (fellin_lackinger_2007)")
    return "; ".join(said)


def _total(n: Numbers) -> Check:
    b, life, row = n.layout, n.ground.life, n.deepest
    rate = n.sinking(row)
    warm = (_warm_side(n),) if row is n.edge and b.warm_side > 0 else ()
    inputs: Inputs = (("v", row.fastest.rate, "m/s"), ("t", life, "s"))
    formula = "v t"
    if warm:
        formula, inputs = "v w t", (*inputs, ("w", n.warm_factor, "1"))
    steps = (*load_steps(n, "sustained"), *rate_steps(n, row, ""), *warm,
             Step("S", formula, inputs, rate * life, "m", "crrel_98_3",
                  "over the design life; measured settling did not slow down"))  # fmt: skip
    low = min(each.updated for each in row.settling)
    return check(
        question="Settling in the design life", key="foundation.settlement", unit="m", demand=rate * life,
        limit=b.settlement_limit, working=steps, sources=("brier_paige_1972", "own_rule"), **NAMES,
        note=f"high end; {show(low, 'm')} if every layer stiffens as it grows denser. {validity(n)}")  # fmt: skip


def slope_steps(n: Numbers) -> tuple[Step, ...]:
    """From the rates of the rows to the fastest growth of slope."""
    b, spread = n.layout, n.spread
    a, e = ("a", spread, "1"), n.edge.fastest.rate
    steps = [*load_steps(n, "sustained"), *rate_steps(n, n.edge, "_e")]
    rates = [("v_e", e, "m/s")]
    if n.middle is not None:
        steps += rate_steps(n, n.middle, "_i")
        rates.append(("v_i", n.middle.fastest.rate, "m/s"))
    steps.append(Step("a", "a_p + a_s", (("a_p", b.load_spread, "1"), ("a_s", b.snow_spread, "1")), spread, "1",
                      "own_rule", "difference between neighbours from load and from snow"))  # fmt: skip
    if n.middle is None:
        across, along = "(a v_e)/s_w", "(a v_e)/s_l"
    else:
        across, along = "(abs(v_e - v_i) + a max(v_e, v_i))/s_w", "(a max(v_e, v_i))/s_l"
    steps += [
        Step("beta_w", across, (*rates, a, ("s_w", b.spacing, "m")), n.across, "1/s", "statics",
             "growth of slope between rows"),
        Step("beta_l", along, (*rates, a, ("s_l", b.spacing_along, "m")), n.along, "1/s", "statics",
             "growth of slope along a row"),
        _warm_side(n),
        Step("theta", "(v_e (w - 1) + a_s v_e w)/(W - b)",
             (rates[0], ("w", n.warm_factor, "1"), ("a_s", b.snow_spread, "1"), ("W", b.width, "m"),
              ("b", b.footing_width, "m")), n.tilt, "1/s", "statics", "growth of tilt from side to side"),
        Step("beta", "max(beta_w, beta_l, theta)",
             (("beta_w", n.across, "1/s"), ("beta_l", n.along, "1/s"), ("theta", n.tilt, "1/s")), n.slope, "1/s",
             "statics", "the fastest of them"),
    ]  # fmt: skip
    return tuple(steps)


def _time_step(n: Numbers) -> Step:
    return Step("t_r", "((1 - c) b_r)/beta", (("c", TOLERANCE_SHARE, "1"), ("b_r", n.layout.relevel_limit, "1"),
                ("beta", n.slope, "1/s")), n.time, "s", "own_rule",
                "until the relevel limit, the share c used up by the tolerance at handing over")  # fmt: skip


def _relevel(n: Numbers) -> Check:
    return check(
        question="Years until relevelling", key="foundation.relevel", unit="s", at_least=True, demand=n.time,
        limit=n.layout.relevel_interval, working=(*slope_steps(n), _time_step(n)),
        sources=("sowers_1962", "crrel_98_3"), **NAMES,
        note="by the law that settles fastest, straight in time; 1/150 is where damage to the structure starts. "
             + validity(n))  # fmt: skip


def _tolerance(n: Numbers) -> Check:
    b = n.layout
    steps = (
        Step("s_w", "(W - b)/(n - 1)", (("W", b.width, "m"), ("b", b.footing_width, "m"), ("n", float(b.rows), "1")),
             b.spacing, "m", "statics", "distance between rows"),
        Step("s_l", "(L - l)/(k - 1)", (("L", b.length, "m"), ("l", b.footing_length, "m"),
             ("k", float(b.per_row), "1")), b.spacing_along, "m", "statics", "distance along a row"),
        Step("d_0", "c b_r min(s_w, s_l)", (("c", TOLERANCE_SHARE, "1"), ("b_r", b.relevel_limit, "1"),
             ("s_w", b.spacing, "m"), ("s_l", b.spacing_along, "m")), n.tolerance, "m", "own_rule",
             "difference that may be left between the nearest neighbours"),
    )  # fmt: skip
    return check(question="Levelling tolerance at handing over", key="foundation.tolerance", unit="m", at_least=True,
                 demand=n.tolerance, limit=LEVEL, working=steps, sources=("own_rule",), **NAMES,
                 note="the limit is what a level and a jack's thread reach in a camp")  # fmt: skip


def _lift_steps(n: Numbers, time: float, text: str) -> tuple[Step, ...]:
    row = max(n.rows, key=lambda each: n.lift(each, time))
    rate = n.sinking(row)
    return (Step("u", "max(0, (v_f (1 + a) - v_s) t)",
                 (("v_f", rate, "m/s"), ("a", n.spread, "1"), ("v_s", n.slowest_rate, "m/s"), ("t", time, "s")),
                 n.greatest_lift(time), "m", "statics", text),)  # fmt: skip


def _stroke(n: Numbers) -> Check:
    b = n.layout
    time = min(max(n.step, b.relevel_interval), n.ground.life)
    lift = _lift_steps(n, time, "height to raise the lowest footing between two relevellings")
    demand = lift[0].value + n.tolerance
    steps = (*slope_steps(n), *lift,
             Step("h", "u + d_0", (("u", lift[0].value, "m"), ("d_0", n.tolerance, "m")), demand, "m", "statics",
                  "with the tolerance at handing over"))  # fmt: skip
    return check(question="Stroke of the jacks", key="foundation.jack_stroke", unit="m", demand=demand,
                 limit=b.jack_stroke, working=steps, **NAMES,
                 note="jacks are run back on shims at every relevelling")  # fmt: skip


def _packs(n: Numbers) -> Check:
    b, life = n.layout, n.ground.life
    lift = _lift_steps(n, life, "height to raise the lowest footing in the design life")
    limit = Step('h_"lim"', "h_j + h_p", (("h_j", b.jack_stroke, "m"), ("h_p", b.shim_limit, "m")),
                 b.jack_stroke + b.shim_limit, "m", "own_rule", "jack and the highest safe pack of shims")  # fmt: skip
    return check(question="Jacks and shims through the design life", key="foundation.shims", unit="m",
                 demand=lift[0].value, limit=limit.value, working=(*slope_steps(n), *lift, limit),
                 **NAMES, note=f"{n.shims} shims, each footing counted as the lowest of its row")  # fmt: skip


def _jacks(n: Numbers) -> Check:
    b = n.layout
    steps = (Step("n_f", "n k", (("n", float(b.rows), "1"), ("k", float(b.per_row), "1")), float(b.count), "1",
                  "statics", "footings"),)  # fmt: skip
    names = {"question": "A jack for every footing", "key": "foundation.jacks", **NAMES}
    if b.jacks is None:
        return not_checked(reason="the footings name no jack among the parts", working=steps, **names)
    return check(demand=float(b.jacks), limit=float(b.count), unit="1", at_least=True, working=steps,
                 ratio=0.0 if b.jacks >= b.count else b.count / max(b.jacks, 0.5),  # a count is never close
                 note="missing ones are put on the packing list"
                      + ("; steel so cold can be brittle: no blows on it" if b.floor_temperature < COLD_STEEL else ""),
                 **names)  # fmt: skip


def floor_check(n: Numbers, heave: float | None, interval: float) -> Check:
    """How long half of the gap under the floor stays open as footings sink and the snow floor rises (heave [m/yr])."""
    question, key = "Years until half of the gap under the floor is gone", "foundation.floor_gap"
    if heave is None:
        return not_checked(question=question, key=key, **NAMES,
                           reason="needs the closure forecast of how fast the snow floor rises")  # fmt: skip
    b, row = n.layout, n.deepest
    sinking, rising = n.sinking(row), heave / YEAR
    rate = sinking + rising
    time = b.footing_height / (2 * rate) if rate > 0 else 100 * YEAR
    steps = (
        Step("u", "v + h", (("v", sinking, "m/s"), ("h", rising, "m/s")), rate, "m/s", "statics",
             "mean sinking of the footings in the design life, as worked out under that check, and rise of the floor "
             "between them by the closure forecast, fast end of its band"),
        Step("t", "g/(2 u)", (("g", b.footing_height, "m"), ("u", rate, "m/s")), time, "s", "own_rule",
             "half of the gap must stay for air to pass"),
    ) if rate > 0 else ()  # fmt: skip
    return check(question=question, key=key, unit="s", demand=time, limit=interval, at_least=True, working=steps,
                 note="then raise the building or trim the floor under it; the limit is the wanted time between trims",
                 **NAMES)  # fmt: skip
