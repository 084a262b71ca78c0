"""Make the environment in .venv, then start Firnstead or its tests in it. Standard library only.

The stamp of an environment is written last, so one that was left half-made is never taken for a good one.
One start at a time works on the environment (a lock file); a start that finds the stamp right does not wait.
"""

from __future__ import annotations

import ctypes
import fcntl
import hashlib
import importlib.util
import os
import re
import shutil
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from time import time

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
UNFINISHED = VENV / "unfinished"  # there while packages are being put in: what it marks is thrown away
LOG = ROOT / ".setup.log"
REQUIREMENTS = ROOT / "requirements"
LEVELS = {"run": ("core",), "test": ("core", "dev")}
STATION = Path("examples/stations/full/station.yaml")
OUT = Path("out/full")
CANNOT_GO_ON = 2
THIS = f"{sys.version_info[0]}.{sys.version_info[1]}"
SRC_LINK = f"lib/python{THIS}/site-packages/firnstead.pth"  # puts the project on the path of the environment
SRC = str(ROOT / "src")
NETWORK = (
    r"NewConnectionError|ConnectTimeout|ame resolution|ame or service|dns error|timed? ?out|unreachable"
    r"|Connection refused|Connection reset|tcp connect|[Pp]roxy|error sending request|Max retries"
)
CAUSES = {
    r"certificate|SSLError|SSL_ERROR|UnknownIssuer|\btls\b": (
        "the package registry's certificate is not trusted here; name your certificates in SSL_CERT_FILE and PIP_CERT"
    ),
    r"DO NOT MATCH THE HASHES|ash mismatch": "a downloaded package is not the one in the lock file; it was not used",
    r"No space left": "the disk is full",
    r"Permission denied|Read-only file system": f"{VENV} cannot be written; did another user make it?",
    NETWORK: "the package registry cannot be reached; setting up needs a network",
    r"No matching distribution|no wheels|no solution found": (
        f"a package has no ready-made form for Python {THIS} on this machine; try another: PYTHON=python3.12"
    ),
}


class CannotGoOn(Exception):
    """Said in one line, without a traceback."""


def say(text: str) -> None:
    """Tell the person what happens; standard output belongs to the command that is run."""
    print(f"Firnstead: {text}", file=sys.stderr, flush=True)


def stamp(level: str) -> str:
    """What an environment of this level must have been made from."""
    made_from = hashlib.sha256(f"1 {ROOT} {sys.version_info[:2]}".encode())
    for name in ("boot", *LEVELS[level]):
        made_from.update((REQUIREMENTS / f"{name}.txt").read_bytes())
    return made_from.hexdigest()


def is_ready(level: str) -> bool:
    """Whether the environment is there and was made from today's lock files."""
    try:
        right = (VENV / f"stamp-{level}").read_text() == stamp(level)
    except OSError:
        return False
    return right and not UNFINISHED.exists() and os.access(PYTHON, os.X_OK)


def attempt(*command: str | Path, **variables: str) -> str:
    """Run a command quietly; give "" or, if it failed, what it wrote (also kept in the log)."""
    try:
        done = subprocess.run(
            [str(word) for word in command], cwd=ROOT, env={**os.environ, **variables}, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
        )  # fmt: skip
    except OSError as error:
        return str(error)
    if done.returncode == 0:
        return ""
    output = done.stdout.strip() or f"{command[0]} ended with {done.returncode}"
    with suppress(OSError), LOG.open("a", encoding="utf-8") as log:
        log.write(f"$ {' '.join(map(str, command))}\n{output}\n")
    return output


def cause(output: str) -> str:
    """One line for what went wrong in a package installer."""
    for pattern, words in CAUSES.items():
        if re.search(pattern, output):
            return f"{words} (all it said: {LOG})"
    last = output.splitlines()[-1].strip()
    return f"{last[:200]} (all it said: {LOG})"


def install_system(packages: list[str], why: str) -> str:
    """Install system packages by apt, as root or by sudo; "" or, if that cannot be, the line that says what to ask."""
    ask = f"{why}. Ask for it: apt-get install {' '.join(packages)}"
    if not shutil.which("apt-get"):
        return f"{why}. Install what your system calls {' '.join(packages)}"
    before: list[str] = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if before and (not shutil.which("sudo") or attempt("sudo", "-n", "true")):
        return ask
    say(f"installing {' '.join(packages)}")
    apt = [*before, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-y"]
    attempt(*apt, "update")
    failed = attempt(*apt, "install", "--no-install-recommends", *packages)
    return f"{ask}  (tried: {failed.splitlines()[-1][:200]})" if failed else ""


def make_venv() -> None:
    """Make the empty environment."""
    apart = importlib.util.find_spec("ensurepip") is None  # Debian and Ubuntu ship it in a package of its own
    if apart and (missing := install_system([f"python{THIS}-venv"], "this Python cannot make environments")):
        raise CannotGoOn(missing)
    shutil.rmtree(VENV, ignore_errors=True)
    base = getattr(sys, "_base_executable", sys.executable)  # not the environment that was just removed
    if failed := attempt(base, "-m", "venv", VENV):
        shutil.rmtree(VENV, ignore_errors=True)
        raise CannotGoOn(f"no environment could be made in {VENV}: {cause(failed)}")


def install(level: str) -> None:
    """Put the locked packages in: by uv, which is fast, else by pip, which knows the machine's own pip settings."""
    pip = (PYTHON, "-m", "pip", "--disable-pip-version-check", "--quiet", "install", "--retries", "2",
           "--only-binary", ":all:", "--require-hashes", "-r")  # fmt: skip
    wanted = REQUIREMENTS / f"{LEVELS[level][-1]}.txt"
    no_uv = attempt(*pip, REQUIREMENTS / "boot.txt")
    uv = (VENV / "bin" / "uv", "pip", "install", "--quiet", "--python", PYTHON, "--only-binary", ":all:",
          "--require-hashes", "-r")  # fmt: skip
    if (no_uv or attempt(*uv, wanted, UV_PYTHON_DOWNLOADS="never")) and (failed := attempt(*pip, wanted)):
        raise CannotGoOn(f"the packages could not be installed: {cause(failed)}")
    (VENV / SRC_LINK).write_text(f"{SRC}\n", encoding="utf-8")


def works() -> bool:
    """Whether the environment there is sound, finished, made for this folder and of the Python that is running."""
    moved = any(link.read_text(encoding="utf-8").strip() != SRC for link in VENV.glob(SRC_LINK))
    if moved or UNFINISHED.exists() or not PYTHON.exists():
        return False
    return not attempt(PYTHON, "-c", f"import pip, sys; sys.exit(not sys.version.startswith('{THIS}.'))")


def contents() -> list[str]:
    """What is installed, to see whether anything changed."""
    return sorted(path.name for path in VENV.glob("lib/python*/site-packages/*"))


def make_ready(level: str) -> None:
    """Make or refresh the environment, one start at a time."""
    try:
        lock = (ROOT / ".setup.lock").open("a")
    except OSError as error:
        raise CannotGoOn(f"the environment cannot be made: {error.strerror} in {ROOT}") from None
    with lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            say("another start is setting things up; waiting for it")
            fcntl.flock(lock, fcntl.LOCK_EX)
        if is_ready(level):
            return
        start = time()
        LOG.unlink(missing_ok=True)
        fresh = not works()
        say(f"{'setting up' if fresh else 'refreshing'} the environment in {VENV}")
        if fresh:
            make_venv()
        before = contents()
        UNFINISHED.touch()
        try:
            install(level)
        except CannotGoOn:
            if fresh:
                shutil.rmtree(VENV)
            elif contents() == before:  # nothing was put in: what was good stays good
                UNFINISHED.unlink()
            raise
        for old in VENV.glob("stamp-*"):
            old.unlink()
        for name in LEVELS if level == "test" else (level,):
            (VENV / f"stamp-{name}").write_text(stamp(name))
        UNFINISHED.unlink()
        say(f"ready after {time() - start:.0f} s")


def make_browser_ready() -> None:
    """For the browser tests: install Chromium and what a bare system lacks for it."""
    if not list((ROOT / "tests" / "browser").glob("test_*.py")):
        return
    names = ("chromium", "chromium-browser", "google-chrome")
    try:
        ctypes.CDLL("libatomic.so.1")
        complete = any(map(shutil.which, names))
    except OSError:
        complete = False
    if complete:
        return
    missing = install_system(["chromium", "libatomic1", "fonts-dejavu-core"], "the browser tests need a browser")
    if missing and os.environ.get("CI") == "true":
        raise CannotGoOn(missing)
    if missing:
        say(f"the browser tests will be skipped: {missing}")


def firnstead(*words: str | Path) -> int:
    """Run one command in the environment, from the project's folder."""
    return subprocess.run([PYTHON, "-m", "firnstead", *words], cwd=ROOT, check=False).returncode


def main_job() -> int:
    """Years, checks and report of the full example station; 0 when the job ran, even if a check fails."""
    if (worked := firnstead("years", STATION)) not in (0, 1):
        return worked
    found = firnstead("check", STATION)
    if found not in (0, 1):
        return found
    written = firnstead("report", STATION, "--out", OUT)
    if written not in (0, 1):
        return written
    say(f"{'something fails in the station' if found else 'nothing fails in the station'}; the report is in {OUT}")
    return 0


def main(level: str, *words: str) -> int:
    """Set up what `level` needs and start it with these words."""
    if not is_ready(level):
        make_ready(level)
    if level == "run" and not words:
        return main_job()
    if level == "test":
        make_browser_ready()
        os.chdir(ROOT)
    start = ("-m", "firnstead") if level == "run" else (str(ROOT / "scripts" / "checks.py"),)
    os.execv(PYTHON, [str(PYTHON), *start, *words])


if __name__ == "__main__":
    try:
        sys.exit(main(*sys.argv[1:]))
    except CannotGoOn as error:
        say(str(error))
        sys.exit(CANNOT_GO_ON)
    except KeyboardInterrupt:
        sys.exit(130)
