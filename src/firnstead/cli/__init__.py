"""The command line: plain words in, tables or JSON out."""

from __future__ import annotations

import sys


def main(arguments: list[str] | None = None) -> int:
    """Run one command and give its exit code: 0 nothing fails, 1 something fails, 2 the input is wrong."""
    from firnstead.cli.app import run

    return run(sys.argv[1:] if arguments is None else arguments)
