"""The calculation file: what stands in it, that nothing is lost over pages, that odd input cannot break it."""

from __future__ import annotations

import io
import re
from typing import Any

import pypdf
import pytest

from firnstead.core.cautions import CAUTIONS, SHORT
from firnstead.core.results import Check, Step, Verdict, as_plain, check, not_checked
from firnstead.reports.calculation import typeset
from firnstead.reports.dossier import dossier
from reports.synthetic import FakeAssessment


def made(document: dict[str, Any], text: str = "line one\n  line two\n") -> bytes:
    """The calculation file of a document."""
    return typeset(dossier(document, text, "abcdef123456" + "0" * 52, []))


def pages(pdf: bytes) -> list[str]:
    """The words of each page, blanks evened out."""
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def one_check(found: Check, **station: str) -> dict[str, Any]:
    """A document with a single check."""
    document = FakeAssessment(1, 1).document()
    document["station"] |= station
    return {**document, "checks": as_plain([found])}


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    """A small assessment with every verdict."""
    found = FakeAssessment(3, 14).document()
    assert {c["verdict"] for c in found["checks"]} == {str(v) for v in Verdict}
    return found


@pytest.fixture(scope="module")
def pdf(document: dict[str, Any]) -> bytes:
    """Its calculation file."""
    return made(document)


@pytest.fixture(scope="module")
def printed(pdf: bytes) -> list[str]:
    """The words of its pages."""
    return pages(pdf)


def test_every_check_stands_in_its_place_with_its_verdict(document: dict[str, Any], printed: list[str]) -> None:
    """Each question is printed with demand, limit and verdict in the chapter of its place."""
    whole = " ".join(printed)
    for place in ("N1", "N2", "N3"):
        start = whole.rindex(f"“{place}” Of ")
        following = whole.find("” Of ", start + 10)
        chapter = whole[start : following if following > 0 else len(whole)]
        for c in document["checks"]:
            if c["place"] == place:
                told = re.findall(re.escape(c["question"]) + r" .{0,200}?(holds|close|fails|not checked)", chapter)
                assert len(told) >= 2, c["question"]
                assert set(told) == {c["verdict"]}, c["question"]


def test_every_page_carries_station_version_number_and_caution(printed: list[str]) -> None:
    """A loose page can be traced and still warns."""
    for number, words in enumerate(printed, 1):
        assert "Test Rise (invented)" in words
        assert "abcdef123456" in words
        assert f"page {number} of {len(printed)}" in words
        assert SHORT in words


def test_cover_holds_hash_cautions_and_signature(printed: list[str]) -> None:
    """The first page says what this is, warns in full and has room to sign."""
    cover = printed[0]
    for words in ("abcdef123456" + "0" * 52, "no such station stands", "Signature", "Licence", *CAUTIONS):
        assert words in cover


def test_sources_are_listed_with_how_they_were_obtained(printed: list[str]) -> None:
    """The list of sources names every key that a working cites, and its mark."""
    tail = " ".join(printed[-3:])
    for words in ("statics", "common_practice", "textbook_unchecked", "from memory, unchecked"):
        assert words in tail


def test_station_file_is_echoed_with_line_numbers(document: dict[str, Any]) -> None:
    """Every line of the input is there, numbered, over as many pages as it takes."""
    text = "".join(f"key_{n}: value {n}\n" for n in range(1, 301))
    whole = " ".join(pages(made(document, text)))
    for n in (1, 150, 300):
        assert f"{n} key_{n}: value {n}" in whole.replace("\u00a0", " ")


def test_long_tables_break_over_pages(document: dict[str, Any]) -> None:
    """A hundred and fifty work items lose none at the foot of a page."""
    item = document["work_items"][0]
    items = [{**item, "id": f"N1.cutting.cut.{n}", "what": f"Cut piece number {n}."} for n in range(150)]
    whole = " ".join(pages(made({**document, "work_items": items})))
    assert all(f"Cut piece number {n}." in whole for n in range(150))


def test_the_same_content_gives_the_same_bytes(document: dict[str, Any], pdf: bytes) -> None:
    """Two files from one input can be compared byte by byte."""
    assert made(document) == pdf


def test_a_working_is_set_out_once_and_referred_to_after() -> None:
    """Three places with the same numbers share one working; the later ones name its page."""
    document = FakeAssessment(3, 1).document()
    for c in document["checks"]:
        c.update(demand=1e6, limit=2e6)
    found = pages(made(document))
    first = next(n for n, words in enumerate(found, 1) if "yield strength; from" in words)
    whole = " ".join(found)
    assert whole.count("yield strength; from") == 1
    assert whole.count(f"the same, number for number, as for N1 on page {first}.") == 2


@pytest.mark.parametrize(
    "words", ['#panic("x")', "$a b$ *bold* _it_", "</svg> & <b>", 'a "quote" \\ back', "= Heading", "@label"]
)
def test_markup_in_names_is_printed_as_it_stands(words: str) -> None:
    """Names from the file are words, never commands of the typesetter."""
    found = not_checked(
        subject="x", question=f"Q {words} Q", reason=words, key="roof.x", discipline="roof", place=words
    )
    whole = " ".join(pages(made(one_check(found, name=words, remark=words), text=words)))
    assert f"Q {words} Q" in whole
    assert whole.count(words) >= 5


def test_a_formula_outside_the_grammar_is_shown_as_written() -> None:
    """A faulty step costs its typesetting, not the whole file."""
    step = Step("area", "a ** b + foo(", (("a", 1.0, "m"),), 2.0, "m", "no_such_key", "why")
    found = check(subject="x", question="Odd", demand=1.0, limit=2.0, unit="m", key="roof.x", discipline="roof",
                  place="N1", working=(step,))  # fmt: skip
    whole = " ".join(pages(made(one_check(found))))
    assert "a ** b + foo(" in whole
    assert "not in the list of sources" in whole


def test_values_without_bound_do_not_break_the_page() -> None:
    """Infinite demands, limits and values are said in words."""
    endless = float("inf")
    step = Step("t", "", (("a", endless, "s"),), endless, "s", "statics", "never")
    found = check(subject="x", question="Endless", demand=endless, limit=1.0, unit="s", key="roof.x", discipline="roof",
                  place="N1", working=(step,))  # fmt: skip
    whole = " ".join(pages(made(one_check(found))))
    assert "> 99" in whole
    assert "beyond all bounds" in whole


def test_an_empty_assessment_still_makes_a_file() -> None:
    """A station without checks or work gives a short file that says so."""
    document = {**FakeAssessment(1, 1).document(), "checks": [], "work_items": []}
    found = pages(made(document))
    assert "Nothing is checked here." in found[0]
    assert len(found) < 9
