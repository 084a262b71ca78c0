"""The working of a step: what is read, what is printed, what is computed, and what is refused."""

import math
import random

import pytest

from firnstead.core.errors import FormulaError
from firnstead.core.formula import Node, parse, plain_name, value_of, write
from firnstead.core.results import Step
from firnstead.core.working import (
    displayed,
    evaluate,
    given_text,
    numbers_put_in,
    plain,
    quantity_maths,
    quantity_text,
    value_text,
)

NUMBERS = {"a": 3.0, "b": 2.0, "c": 5.0, "n": 2.0, "E": 7.0, "nu": 0.25, "q_2": 4.0, 'q_"cr"': 6.0, "N_gamma": 1.5}


def step(formula: str, **changes) -> Step:
    """A step whose inputs are all of NUMBERS."""
    row = {"symbol": "x", "inputs": tuple((name, value, "1") for name, value in NUMBERS.items()), "value": 1.0,
           "unit": "1", "source": "statics", "text": ""} | changes  # fmt: skip
    return Step(formula=formula, **row)


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("a", 3.0),
        ("2.5", 2.5),
        ("a + b - c", 0.0),
        ("a - b - c", -4.0),
        ("-a^2", -9.0),
        ("-a b + c", -1.0),
        ("a b c", 30.0),
        ("2a", 6.0),
        ("a/b/c", 0.3),
        ("a/b c", 7.5),
        ("a/(b c)", 0.3),
        ("a b/c b", 2.4),
        ("1/2 (a + b)", 2.5),
        ("1/2(a + b)", 2.5),
        ("a^2/b", 4.5),
        ("a^n b", 18.0),
        ("a^(-1) b", 2 / 3),
        ("a^(n/b)", 3.0),
        ("2^10", 1024.0),
        ("E(1 - nu^2)", 7 * (1 - 0.0625)),
        ('q_2 + q_"cr"', 10.0),
        ("N_gamma c", 7.5),
        ("sqrt(q_2)/b", 1.0),
        ("exp(ln(c))", 5.0),
        ("sin(pi/2) + cos(0) + tan(0)", 2.0),
        ("abs(b - c)", 3.0),
        ("max(a, b, c) - min(a, b)", 3.0),
        ("sqrt(a + b)^2", 5.0),
        ("(a + b)(a - b)", 5.0),
    ],
)
def test_formula_gives_the_value_that_its_typesetting_shows(formula, expected):
    """Products, strokes, signs and powers bind as typst prints them."""
    assert evaluate(step(formula)) == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ("a +", "missing"),
        ("", "no formula"),
        ("()", "missing"),
        ("(a", "missing"),
        ("a)", "does not belong"),
        ("a, b", "does not belong"),
        ("a * b", "grammar"),
        ("a ** b", "grammar"),
        ("a^-1", "exponent"),
        ("a^q_2", "exponent"),
        ("a^sqrt(b)", "exponent"),
        ("a^2^3", "does not belong"),
        ("a/b(c)", "space"),
        ("a^n(c)", "space"),
        ("a/-b", "missing"),
        ("a + -b", "missing"),
        ("area b", "neither a letter nor a greek name"),
        ("q_cr", "neither a letter nor a greek name"),
        ("q_", "grammar"),
        ("sqrt a", "missing"),
        ("sqrt(a, b)", "one value"),
        ("max(a)", "two or more"),
        ("min()", "missing"),
        ("log(a)", "neither"),
        ("z", "not among the inputs"),
        ("1e-3 a", "not among the inputs"),
        ("a/(b - 2)", "no number"),
        ("sqrt(b - c)", "no number"),
        ("(-a)^0.5", "no number"),
        ("exp(1000 a)", "no number"),
        ("__import__", "grammar"),
        ("a.b", "grammar"),
        ("(" * 80 + "a" + ")" * 80, "too many parentheses"),
        ("'a'", "grammar"),
        ("a\\b", "grammar"),
        ('q_"a\\"', "grammar"),
        ("#a", "grammar"),
    ],
)
def test_malformed_formula_is_refused_with_a_reason(formula, says):
    """Whatever is outside the grammar, or gives no number, is one clear error and nothing else."""
    with pytest.raises(FormulaError, match=says):
        evaluate(step(formula))


def test_random_text_never_breaks_the_reader():
    """Any text is either a formula or a FormulaError, never another exception."""
    dice = random.Random(1)
    read = 0
    for _ in range(3000):
        text = "".join(dice.choice(list('ab12.+-/^()_," ') + ["sqrt", "pi", "rho_"]) for _ in range(dice.randint(1, 9)))
        try:
            parse(text)
            read += 1
        except FormulaError:
            pass
    assert 100 < read < 2900


def _random_formula(dice: random.Random, depth: int) -> Node:
    if depth == 0 or dice.random() < 0.2:
        return Node("name", dice.choice("abcE")) if dice.random() < 0.7 else Node("number", dice.choice(["2", "1.5"]))
    kind = dice.choice(["+", "-", "/", "^", "product", "minus", "sqrt", "max", "abs"])
    if kind == "^":
        return Node("^", parts=(_random_formula(dice, depth - 1), Node("number", "2")))
    count = {"minus": 1, "sqrt": 1, "abs": 1, "product": 3}.get(kind, 2)
    return Node(kind, parts=tuple(_random_formula(dice, depth - 1) for _ in range(count)))


def test_writing_and_reading_again_keeps_the_value():
    """A formula written out again, in maths or with negative numbers in place of names, still means the same."""
    dice = random.Random(2)
    same = 0
    for _ in range(400):
        node = _random_formula(dice, 4)
        values = {name: dice.choice([-2.5, 0.5, 3.0]) for name in "abcE"}

        def number(name, values=values):
            return f"{values[name.text]:g}", 1 if values[name.text] < 0 else 5

        try:
            expected = value_of(node, values)
        except (ArithmeticError, ValueError):
            continue
        for maths in (True, False):
            names = write(node, lambda name: (name.text, 5), maths, " ")[0]
            numbers = write(node, number, maths, " ")[0]
            names, numbers = names.replace(" slash ", "/"), numbers.replace(" slash ", "/")
            assert value_of(parse(names), values) == pytest.approx(expected, rel=1e-12), names
            assert value_of(parse(numbers), {}) == pytest.approx(expected, rel=1e-12), numbers
        same += 1
    assert same > 100


def test_numbers_stand_with_their_units_where_the_names_were():
    """The printed numbers follow the layout of the formula and carry their units."""
    arch = Step("sigma", "N/A + M/S", (("N", 33e3, "N/m"), ("A", 3.294e-3, "m2/m"), ("M", 2400.0, "N m/m"),
                ("S", 3.2e-5, "m3/m")), 8.5e7, "Pa", "statics")  # fmt: skip
    assert numbers_put_in(arch) == (
        '(33 "kN/m")/(3.294 times 10^(-3) "m²/m") + (2.4 "kN m/m")/(32 times 10^(-6) "m³/m")'
    )
    assert plain(arch) == ("σ = N/A + M/S = 33 kN/m/(3.294×10⁻³ m²/m) + 2.4 kN m/m/(32×10⁻⁶ m³/m) = 85 MPa [statics]")


def test_powers_and_negative_numbers_are_put_in_parentheses():
    """A quantity that is raised to a power or is negative cannot be misread."""
    cube = step("a^2 - b", inputs=(("a", 2.5, "m"), ("b", -1.0, "m2")), unit="m2", value=7.25)
    assert numbers_put_in(cube) == '(2.5 "m")^(2) - (-1 "m²")'
    assert "(2.5 m)^2 - (-1 m²)" in plain(cube)


def test_only_forces_and_stresses_take_prefixes():
    """Lengths and times keep powers of ten, so an empirical formula can be keyed in as it stands."""
    assert quantity_text(2.05e11, "Pa") == "205 GPa"
    assert quantity_text(-1500.0, "N/m") == "-1.5 kN/m"
    assert quantity_text(0.0005, "m") == "500×10⁻⁶ m"
    assert quantity_text(31557600.0, "s") == "31.56×10⁶ s"
    assert quantity_text(249.15, "K") == "249.2 K"
    assert quantity_text(123456.0, "1") == "123456"
    assert quantity_text(0.0, "Pa") == "0 Pa"
    assert quantity_maths(0.0005, "m") == '500 times 10^(-6) "m"'
    assert quantity_text(math.inf, "Pa")


def test_value_shows_the_reader_s_unit_beside_si():
    """The display unit stands behind the SI value where it differs, and never for a temperature."""
    stress = step("a", unit="Pa", value=1.37e8)
    assert (value_text(stress), value_text(stress, "us")) == ("137 MPa", "137 MPa (19.87 ksi)")
    assert displayed(step("a", unit="m", value=0.45)) == "450 mm"
    assert displayed(step("a", unit="K", value=5.0), "us") == ""


def test_step_without_formula_tells_how_its_value_came():
    """Tables and solvers have no formula: the line says how, and from what."""
    looked_up = Step("f_y", "", (("t", 0.0035, "m"),), 2.3e8, "Pa", "aisi_handbook, table 2", "sheet table")
    assert numbers_put_in(looked_up) == ""
    assert plain(looked_up) == "f_y = 230 MPa [aisi_handbook, table 2] (sheet table), from t = 3.5×10⁻³ m"
    assert given_text(looked_up) == "t = 3.5×10⁻³ m"
    with pytest.raises(FormulaError, match="sheet table"):
        evaluate(looked_up)


def test_an_input_given_twice_with_two_values_is_refused():
    """One letter cannot mean two numbers in one formula."""
    with pytest.raises(FormulaError, match="twice"):
        evaluate(step("a", inputs=(("a", 1.0, "m"), ("a", 2.0, "m"))))


def test_every_greek_name_is_shown_as_its_letter():
    """Plain text shows greek letters, in names and in subscripts."""
    assert plain_name("rho_0") == "ρ_0"
    assert plain_name("k_phi") == "k_φ"
    assert plain_name('L_"free"') == "L_free"


def test_pi_stays_pi():
    """The number pi is left as its letter when numbers are put in."""
    ring = step("pi a", inputs=(("a", 2.0, "m"),), unit="m", value=2 * math.pi)
    assert numbers_put_in(ring) == 'pi dot 2 "m"'
    assert "π · 2 m" in plain(ring)
