"""What the calculation file says, as plain data for the template: head, summary, places, sources."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from firnstead import __version__
from firnstead.core.cautions import CAUTIONS, SHORT, caution_for
from firnstead.core.errors import UnknownSource
from firnstead.core.sources import source
from firnstead.reports.check_rows import KINDS, check_full, check_row
from firnstead.reports.words import ORDER, place_words, verdict_sentence, worst_first

Plain = Mapping[str, Any]
WORST = 20  # rows in the summary's table of the tightest checks


def head(document: Plain, digest: str) -> dict[str, Any]:
    """Cover, running head and foot."""
    station = document["station"]
    us = station["units"] == "us"
    return {
        "name": station["name"],
        "remark": station["remark"],
        "dated": station["dated"],
        "version": digest[:12],
        "digest": digest,
        "program": f"Firnstead {__version__}",
        "units": "US customary, with SI in the workings" if us else "metric (SI)",
        "cautions": list(CAUTIONS),
        "short": SHORT,
    }


def summary(document: Plain) -> dict[str, Any]:
    """Counts, tightest checks, what is not checked and why."""
    checks, system = document["checks"], document["station"]["units"]
    disciplines = list(dict.fromkeys(c["discipline"] for c in checks))
    counts = [
        [name.capitalize(), *(str(sum(c["verdict"] == v for c in checks if c["discipline"] == name)) for v in ORDER)]
        for name in disciplines
    ]
    counts.append(["All", *(str(sum(c["verdict"] == v for c in checks)) for v in ORDER)])
    made = sorted((c for c in checks if c["verdict"] != "not checked"), key=worst_first)
    return {
        "sentence": verdict_sentence(checks),
        "verdicts": [str(v) for v in ORDER],
        "counts": counts,
        "worst": [check_row(c, system) for c in made[:WORST]],
        "more": max(0, len(made) - WORST),
        "unchecked": _unchecked(checks),
    }


def _unchecked(checks: Iterable[Plain]) -> list[list[str]]:
    """Question, reason and places; the same question with the same reason is one row."""
    found: dict[tuple[str, str], list[str]] = {}
    for c in checks:
        if c["verdict"] == "not checked":
            found.setdefault((c["question"], c["reason"]), []).append(place_words(c["place"]))
    return [[question, reason, ", ".join(dict.fromkeys(places))] for (question, reason), places in found.items()]


def places(document: Plain) -> list[dict[str, Any]]:
    """One chapter for each place in the order of the station file, then the whole station."""
    station, checks, system = document["station"], document["checks"], document["station"]["units"]
    by_place = _grouped(checks, "place")
    known = {name: kind for kind in KINDS for name in station.get(kind, {})}
    chapters = []
    printed: dict[str, tuple[str, str]] = {}
    for name in [*(n for n in known if n in by_place), *(n for n in by_place if n not in known)]:
        mine = by_place[name]
        chapters.append({
            "name": name,
            "title": f"{KINDS[known[name]]} “{name}”" if name in known else place_words(name),
            "sentence": verdict_sentence(mine),
            "facts": _facts(station[known[name]][name]) if name in known else [],
            "overview": [check_row(c, system) for c in sorted(mine, key=worst_first)],
            "disciplines": [
                {"name": discipline.capitalize(), "caution": caution_for(discipline),
                 "checks": [check_full(c, system, printed) for c in rows]}
                for discipline, rows in _grouped(mine, "discipline").items()
            ],
        })  # fmt: skip
    return chapters


def _grouped(checks: Iterable[Plain], by: str) -> dict[str, list[Plain]]:
    groups: dict[str, list[Plain]] = {}
    for c in checks:
        groups.setdefault(c[by], []).append(c)
    return groups


def _facts(place: Plain) -> list[list[str]]:
    labels = {"use": "Use", "section": "Section", "roof": "Roof", "opens_into": "Opens into",
              "vehicle_over": "Vehicle above"}  # fmt: skip
    return [[label, str(place[key])] for key, label in labels.items() if place.get(key)]


def source_rows(document: Plain) -> list[dict[str, str]]:
    """Every publication that a check or a step names, by key."""
    named = {s for c in document["checks"] for s in c["sources"]}
    named |= {s["source"] for c in document["checks"] for s in c["working"] if s["source"]}
    rows = []
    for key in sorted({n.split(",")[0].strip() for n in named}):
        try:
            found = source(key)
        except UnknownSource:
            rows.append({"key": key, "citation": "not in the list of sources", "obtained": "unknown"})
            continue
        year = f" ({found.year})" if found.year else ""
        publisher = f" {found.publisher}." if found.publisher else ""
        rows.append(
            {"key": key, "citation": f"{found.authors}{year}: {found.title}.{publisher}", "obtained": found.obtained}
        )
    return rows
