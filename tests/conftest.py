"""What all tests share: the example stations and a fixed hypothesis profile."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

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
def full() -> StationFile:
    """The full example station."""
    return read_station(EXAMPLES / "full")
