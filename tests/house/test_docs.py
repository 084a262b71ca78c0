"""Generated pages say what the code says."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_generated_pages_are_up_to_date() -> None:
    """`scripts/docs.py --check` finds nothing to rewrite."""
    done = subprocess.run(
        [sys.executable, str(ROOT / "scripts" / "docs.py"), "--check"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"run .venv/bin/python scripts/docs.py\n{done.stdout}{done.stderr}"


def test_the_first_example_is_what_new_writes() -> None:
    """The example and the template in the package are the same files."""
    for name in ("station.yaml", "density.csv"):
        example = (ROOT / "examples" / "stations" / "first" / name).read_bytes()
        assert example == (ROOT / "src" / "firnstead" / "station" / "template" / name).read_bytes(), name


def test_every_command_is_in_the_documents_and_has_help() -> None:
    """The README and docs/commands.md name every command of the command line."""
    from firnstead.cli.app import app

    for command in app.registered_commands:
        name = command.name or command.callback.__name__  # type: ignore[union-attr]
        assert command.callback is not None
        assert command.callback.__doc__, name
        for page in ("README.md", "docs/commands.md"):
            assert f"firnstead {name}" in (ROOT / page).read_text(encoding="utf-8"), f"{name} is not in {page}"
