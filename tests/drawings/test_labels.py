"""Labels keep off lines and off one another."""

from drawings.samples import big_plan
from firnstead.drawings.figure import Label, Polyline, Text
from firnstead.drawings.labels import Segments, settle
from firnstead.drawings.lower import lower, text_corners
from firnstead.drawings.plan import plan


def label(words: str, *places: tuple[float, float]) -> Label:
    """A label with these possible places."""
    return Label(tuple(Text(words, at) for at in places))


def words_of(items: list[object]) -> dict[str, Text]:
    """Settled words by what they say."""
    return {item.words: item for item in items if isinstance(item, Text)}


def test_label_avoids_a_line() -> None:
    """The first place is crossed by a line, so the second is taken."""
    line = Polyline(((0.0, 1.0), (50.0, 1.0)), "cut")
    found = words_of([*settle([label("North 1", (2.0, 0.0), (2.0, 20.0)), line], 1.0)])
    assert found["North 1"].at == (2.0, 20.0)


def test_label_avoids_a_label() -> None:
    """The second of two labels that want the same place takes its next one."""
    found = words_of([*settle([label("A", (0.0, 0.0)), label("B", (0.0, 0.0), (0.0, 9.0))], 1.0)])
    assert found["A"].at == (0.0, 0.0)
    assert found["B"].at == (0.0, 9.0)


def test_label_without_a_free_place_takes_the_least_bad() -> None:
    """No label is ever dropped: the place that touches the fewest lines is taken."""
    lines = [Polyline(((-9.0, y), (99.0, y)), "cut") for y in (0.5, 1.0, 30.5)]
    found = words_of([*settle([*lines, label("North 1", (0.0, 0.0), (0.0, 30.0))], 1.0)])
    assert found["North 1"].at == (0.0, 30.0)


def test_names_on_a_big_plan_are_all_there_and_free() -> None:
    """On the plan of 20 trenches every name is written once, clear of every line and of every other name."""
    given = big_plan()
    settled = settle(plan(given).items, 1.0)
    found = words_of([*settled])
    names = {s.name for s in given.strips}
    assert names <= found.keys()
    for name in names:
        others = Segments([s for s in lower(settled, 1.0) if s is not found[name]], 1.0)
        assert others.touched(text_corners(found[name], 1.0)) == 0, name
