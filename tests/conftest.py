"""What all tests share: the example stations and a fixed hypothesis profile."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest
from hypothesis import settings

from firnstead.pipeline.kept import FOLDER, beside
from firnstead.pipeline.years import work_out_years
from firnstead.station import StationFile, read_station

settings.register_profile("short", derandomize=True, deadline=None, max_examples=40)
settings.register_profile("long", deadline=None, max_examples=2000)
settings.load_profile("long" if os.environ.get("FIRNSTEAD_LONG") else "short")

EXAMPLES = Path(__file__).resolve().parent.parent / "examples" / "stations"


@pytest.fixture(scope="session")
def first() -> StationFile:
    """The one-trench example station."""
    return read_station(EXAMPLES / "first")


@pytest.fixture(scope="session")
def first_years(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the one-trench example with its years worked out."""
    folder = tmp_path_factory.mktemp("years") / "first"
    shutil.copytree(EXAMPLES / "first", folder, ignore=shutil.ignore_patterns(FOLDER))
    work_out_years(read_station(folder), beside(folder))
    return folder


@pytest.fixture(scope="session")
def full() -> StationFile:
    """The full example station."""
    return read_station(EXAMPLES / "full")
