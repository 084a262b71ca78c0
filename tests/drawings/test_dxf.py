"""DXF: read back by ezdxf, no errors, real dimensions with the right values, the same bytes every time."""

import io
from typing import Any

import ezdxf
import pytest

from drawings.samples import BLOCK, ODD, big_plan, lateral, plant, shallow
from firnstead.drawings.dxf import dxf
from firnstead.drawings.figure import Dimension, Figure
from firnstead.drawings.plan import plan
from firnstead.drawings.plan_input import PlanInput, Strip
from firnstead.drawings.section import section
from firnstead.drawings.sheet import lay_out, loose


def read(text: str) -> Any:
    """The document as a drawing program would read it."""
    return ezdxf.read(io.StringIO(text))


@pytest.mark.parametrize("figure", [section(lateral()), section(plant()), section(shallow()), plan(big_plan())])
def test_audit_finds_nothing(figure: Figure) -> None:
    """Read back, the file has no errors and needs no repair; it is R2010 in metres."""
    doc = read(dxf(lay_out(figure, BLOCK)))
    audit = doc.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert doc.dxfversion == "AC1024"
    assert doc.header["$INSUNITS"] == 6


def test_dimensions_are_dimensions_and_measure_right() -> None:
    """Every dimension of the figure is a dimension in the file, with its length in metres and its words."""
    sheet = lay_out(section(lateral()), BLOCK)
    doc = read(dxf(sheet))
    found = [(e.get_measurement(), e.dxf.text) for e in doc.modelspace().query("DIMENSION")]
    wanted = [(i.value(), i.words) for i in sheet.items if isinstance(i, Dimension)]
    assert [t for _, t in found] == [t for _, t in wanted]
    assert [v for v, _ in found] == pytest.approx([v for v, _ in wanted])
    assert (6.0, "depth 6.00 m") in [(pytest.approx(v), t) for v, t in found]


def test_model_is_in_metres_whatever_the_scale() -> None:
    """The same cut has the same coordinates on a sheet and on loose paper."""
    sizes = []
    for sheet in (lay_out(section(plant()), BLOCK), loose(section(plant()), 60.0, 60.0)):
        cut = max(read(dxf(sheet)).modelspace().query('LWPOLYLINE[layer=="cut"]'), key=len)
        xs = [p[0] for p in cut.get_points()]
        sizes.append((min(xs), max(xs)))
    assert sizes[0] == sizes[1] == pytest.approx((-7.3, 7.3))


def test_layers_have_trade_words_and_weights() -> None:
    """Layers are named as the trade names things and carry line weights."""
    doc = read(dxf(lay_out(section(lateral()), BLOCK)))
    weights = {layer.dxf.name: layer.dxf.lineweight for layer in doc.layers}
    wanted = {"snow", "cut", "passes", "arch", "cover", "planks", "building", "dimensions", "text", "frame"}
    assert wanted <= set(weights)
    assert (weights["arch"], weights["cut"], weights["dimensions"]) == (70, 50, 18)
    assert doc.modelspace().query('ARC[layer=="arch"]').first.dxf.lineweight == 70


def test_arch_is_a_real_arc() -> None:
    """A drawing program finds the steel arch as one arc with the radius of its span and rise."""
    arcs = read(dxf(lay_out(section(lateral()), BLOCK))).modelspace().query('ARC[layer=="arch"]')
    assert [a.dxf.radius for a in arcs] == [pytest.approx((4.9**2 / 4 + 1.35**2) / (2 * 1.35))]
    assert arcs.first.end_point.x == pytest.approx(-2.45)


def test_same_bytes_twice_and_settings_put_back() -> None:
    """Two runs write the same file, and the library's own settings are as before."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    sheet = lay_out(plan(big_plan()), BLOCK)
    assert dxf(sheet) == dxf(sheet)
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_odd_names_do_no_harm() -> None:
    """Control characters and control codes in names do not break the file or change the words."""
    given = PlanInput(ODD, (Strip(ODD, (0.0, 0.0), (0.0, 40.0), 6.0),))
    doc = read(dxf(lay_out(plan(given), BLOCK)))
    assert doc.audit().errors == []
    words = [e.dxf.text for e in doc.modelspace().query("TEXT")]
    assert 'Hut <b>&"ø"</b> 50% %d ‘é’ ]]>' in words
