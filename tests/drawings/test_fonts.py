"""The shipped fonts: unchanged, licensed, with the letters that our papers need."""

import hashlib
import tomllib
from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont

from firnstead.drawings.textsize import CAP_HEIGHT, MONO_ADVANCE, text_width

FOLDER = files("firnstead") / "fonts"
FONTS = tomllib.loads((FOLDER / "FONTS.toml").read_text(encoding="utf-8"))["font"]
NEEDED = "°²³·×±≥≤–—√Δπ…‘’“”øåéßÆ½"


def opened(file: str) -> TTFont:
    """A font of the folder."""
    with (FOLDER / file).open("rb") as stream:
        return TTFont(stream, lazy=False)


@pytest.mark.parametrize("font", FONTS, ids=lambda font: font["file"])
def test_font_is_as_listed(font: dict[str, str]) -> None:
    """Hash, names and version are those of the list; its licence lies beside it."""
    assert hashlib.sha256((FOLDER / font["file"]).read_bytes()).hexdigest() == font["sha256"]
    names = opened(font["file"])["name"]
    assert names.getDebugName(1) == font["name"]
    assert names.getDebugName(2) == font["style"]
    assert font["version"] in names.getDebugName(5)
    licence = (FOLDER / font["licence_file"]).read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE" in licence
    assert font["name"] in licence


def test_every_font_is_listed() -> None:
    """No font file travels without a line in the list."""
    assert sorted(f["file"] for f in FONTS) == sorted(p.name for p in FOLDER.iterdir() if p.name.endswith(".ttf"))


@pytest.mark.parametrize("font", FONTS, ids=lambda font: font["file"])
def test_font_has_the_letters_we_write(font: dict[str, str]) -> None:
    """Every sign that our drawings and papers write is in the font."""
    letters = opened(font["file"]).getBestCmap()
    assert [c for c in NEEDED if ord(c) not in letters] == []


@pytest.mark.parametrize(
    "words", ["Plan of the station, 340 m long", "Sleeping hut 12", "NORTH PASSAGE", "Wind from 140°"]
)
@pytest.mark.parametrize("style", [{}, {"bold": True}, {"mono": True}])
def test_widths_are_near_enough(words: str, style: dict[str, bool]) -> None:
    """The estimate of a text's width is within a tenth of the font's own widths (mono: exact)."""
    family, weight = "Mono" if style.get("mono") else "Next", "Bold" if style.get("bold") else "Regular"
    font = opened(f"AtkinsonHyperlegible{family}-{weight}.ttf")
    widths, letters = font["hmtx"], font.getBestCmap()
    assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == pytest.approx(CAP_HEIGHT)
    real = sum(widths[letters[ord(c)]][0] for c in words) / font["head"].unitsPerEm / CAP_HEIGHT
    assert text_width(words, 1.0, **style) == pytest.approx(real, rel=1e-6 if style.get("mono") else 0.1)
    assert pytest.approx(0.632) == MONO_ADVANCE
