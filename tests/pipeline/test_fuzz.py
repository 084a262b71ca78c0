"""Broken station files never give a traceback: a line number, or a whole assessment.

FIRNSTEAD_FUZZ sets the number of mutated files (default 320).
"""

from __future__ import annotations

import os
import random
import re
from pathlib import Path

import pytest

from firnstead.core.errors import InputError
from firnstead.core.memo import Memo
from firnstead.core.results import Verdict
from firnstead.pipeline import assess
from firnstead.station import StationFile, parse_station

FILES = int(os.environ.get("FIRNSTEAD_FUZZ", "320"))
BATCHES = 8
_NUMBERS = [
    "0",
    "-1",
    "1e9",
    "1e-9",
    ".nan",
    ".inf",
    "-0.0",
    "99999999999999999999",
    "0x1F",
    "1_000",
    "12:30",
    "3.3.3",
    "½",
]
_VALUES = [
    "",
    "null",
    "true",
    "[]",
    "{}",
    "[1, 2]",
    "{a: 1}",
    '"',
    "'x",
    "&a",
    "*a",
    "!!set x",
    "-",
    "? x",
    "|",
    "> ",
    "2031-13-45",
    "\u0000",
]
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def mutate(text: str, rng: random.Random) -> str:
    """Damage a station file in one to three places."""
    lines = text.splitlines()
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        at = rng.randrange(len(lines))
        numbered = [i for i, line in enumerate(lines) if _NUMBER.search(line) and not line.lstrip().startswith("#")]
        way = rng.randrange(12)
        if way == 0:
            del lines[at]
        elif way == 1:
            lines.insert(at, lines[at])
        elif way == 2:
            lines.insert(at, lines[rng.randrange(len(lines))])
        elif way <= 5 and numbered:  # another number
            at = rng.choice(numbered)
            found = list(_NUMBER.finditer(lines[at]))
            hit = rng.choice(found)
            factor = str(round(float(hit[0]) * rng.choice((0.1, 0.5, 0.9, 1.1, 2, 10)), 4))
            new = rng.choice((*_NUMBERS, factor, factor, factor, factor, factor, factor))
            lines[at] = lines[at][: hit.start()] + new + lines[at][hit.end() :]
        elif way == 6:  # another unit, or none
            unit = rng.choice(["", " m", " ft", " kg", " degC", " %", " parsec"])
            lines[at] = re.sub(r"(\d) (m|kg|t|yr|h|degC|deg|kPa)\b", rf"\g<1>{unit}", lines[at], count=1)
        elif way == 7:
            lines[at] = re.sub(r":.*", ": " + rng.choice(_VALUES), lines[at], count=1)
        elif way == 8:
            lines[at] = " " * rng.randrange(6) + lines[at].lstrip()
        elif way == 9 and lines[at]:
            i = rng.randrange(len(lines[at]))
            lines[at] = lines[at][:i] + rng.choice("{}[]:#,&*!|>%@`'\"\\ é雪\t") + lines[at][i + 1 :]
        elif way == 10:  # another name
            words = re.findall(r"[A-Za-z_]{4,}", lines[at])
            if words:
                lines[at] = lines[at].replace(
                    rng.choice(words), rng.choice(["Main", "lateral", "nothing", "kind", "at"]), 1
                )
        else:
            lines = lines[: max(1, at)]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("batch", range(BATCHES))
def test_mutated_files_give_a_line_or_a_whole_assessment(batch: int, first: StationFile, full: StationFile) -> None:
    """Whatever is in the file, the answer is a list of problems with lines and cures, or checks with verdicts."""
    memo, sound = Memo(), 0
    for seed in range(batch, FILES, BATCHES):
        rng = random.Random(seed)
        station = full if seed % 16 == 0 else first
        text = mutate(station.text, rng)
        try:
            read = parse_station(text, station.path)
        except InputError as error:
            last = text.count("\n") + 1
            for p in error.problems:
                assert 1 <= p.line <= last or p.file.endswith(".csv"), (seed, str(p))
                assert p.what, seed
            continue
        except Exception as error:
            raise AssertionError(f"seed {seed}: the reader raised {error!r}") from error
        sound += 1
        try:
            made = assess(read, memo)
        except Exception as error:
            Path(os.environ.get("FIRNSTEAD_FUZZ_KEEP", os.devnull)).write_text(text, encoding="utf-8")
            raise AssertionError(f"seed {seed}: the assessment raised {error!r}") from error
        assert made.checks
        assert all(c.verdict is not Verdict.NOT_CHECKED or c.reason for c in made.checks), seed
    assert sound, "no mutated file was sound: the mutations are too rough to test the studies"
