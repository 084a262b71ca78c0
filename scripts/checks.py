"""Every check of the project, one after another; the tests come last. With words: pytest alone with these words."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BIN = Path(sys.executable).parent
STEPS = {
    "lint (ruff check)": ("ruff", "check", "--output-format", "concise"),
    "format (ruff format)": ("ruff", "format", "--check", "--output-format", "concise"),
    "types (mypy --strict)": ("mypy", "--strict"),
    "floors (lint-imports)": ("lint-imports", "--cache-dir", ".cache/imports"),
}


def passes(name: str, words: tuple[str, ...]) -> bool:
    """Run one tool; its output is shown only when it complains."""
    done = subprocess.run(
        [BIN / words[0], *words[1:]], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False
    )
    print(f"{name}: {'passed' if done.returncode == 0 else 'FAILED'}", flush=True)
    if done.returncode:
        print(done.stdout, flush=True)
    return done.returncode == 0


def main(words: list[str]) -> int:
    """Run the steps, then pytest, whose summary is the last line; not 0 if anything failed."""
    failed = [] if words else [name for name, command in STEPS.items() if not passes(name, command)]
    if failed:
        print(f"FAILED before the tests: {', '.join(failed)}", flush=True)
    tests = subprocess.run([sys.executable, "-m", "pytest", *words], cwd=ROOT, check=False).returncode
    return tests or len(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
