"""Files that travel: no path of a machine, no host of a registry, locks with hashes, versions that agree."""

import re
import tomllib

import firnstead
from house.project import PYPROJECT, ROOT, files, line_of, report

# Hosts and options are written in pieces, so that this file does not hold what it looks for.
HOSTS = """pypi org, pythonhosted org, registry npmjs org, registry yarnpkg com, deb debian org, security debian org,
snapshot debian org, archive ubuntu com, proxy golang org, crates io, conda anaconda org, jsdelivr net, unpkg com"""
HOST = re.compile("|".join(re.escape(".".join(host.split())) for host in HOSTS.split(",")), re.IGNORECASE)
OPTIONS = "index url, extra index url, find links, trusted host"
INDEX_OPTION = re.compile("--(" + "|".join("-".join(option.split()) for option in OPTIONS.split(",")) + ")")
FOLDERS = "home|root|tmp|work|farm|opt|usr|etc|var|mnt|srv|Users"
MACHINE_PATH = re.compile(rf"(?<![\w.~/}})>*-])/(?:{FOLDERS})/\w|\b[A-Z]:\\\w")
LOCKS = sorted((ROOT / "requirements").glob("*.txt"))
PIN = re.compile(r"([a-z0-9][a-z0-9.-]*)==\S+")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}( \\)?")


def text_files() -> list[tuple[str, str]]:
    """(path, text) of every file of the project that is text; vendored browser scripts are exempt."""
    found = []
    for path in files():
        content = path.read_bytes()
        if b"\0" not in content and "static" not in path.parts:
            found.append((path.relative_to(ROOT).as_posix(), content.decode("utf-8", errors="replace")))
    return found


def finds(pattern: re.Pattern[str], what: str) -> list[str]:
    """Where a pattern occurs in the text files; the first line of a script may name its interpreter."""
    return [
        f"{shown}:{line_of(text, match.start())}: {what} ({match[0]!r})"
        for shown, text in text_files()
        for match in pattern.finditer(text)
        if text[: match.end()] != f"#!{match[0]}"
    ]


def pins(lock: str) -> dict[str, list[str]]:
    """The pins of a lock file by name; several where the version depends on the Python."""
    found: dict[str, list[str]] = {}
    for line in (ROOT / "requirements" / lock).read_text(encoding="utf-8").splitlines():
        if match := PIN.match(line):
            found.setdefault(match[1], []).append(line)
    return found


def normal(requirement: str) -> str:
    """The name in a requirement, as package indexes write it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[<>=!~ ;\[]", requirement, maxsplit=1)[0]).lower()


def test_no_machine_path() -> None:
    """No file of the project names a folder of somebody's machine."""
    wrong = finds(MACHINE_PATH, "a path of a machine")
    assert not wrong, report(wrong)


def test_no_registry_host() -> None:
    """No file of the project names the host of a package registry: every machine has its own settings for that."""
    wrong = finds(HOST, "a host of a package registry")
    assert not wrong, report(wrong)


def test_no_index_option() -> None:
    """No file of the project tells an installer where to look."""
    wrong = finds(INDEX_OPTION, "an option that names an index")
    assert not wrong, report(wrong)


def test_locks_have_hashes() -> None:
    """Every line of a lock file is a pin with at least one hash, or a hash."""
    assert {path.stem for path in LOCKS} >= {"boot", "core", "dev"}
    wrong = []
    for path in LOCKS:
        shown = path.relative_to(ROOT).as_posix()
        lines = path.read_text(encoding="utf-8").splitlines()
        for number, (line, following) in enumerate(zip(lines, [*lines[1:], ""], strict=True), 1):
            if PIN.match(line) and not HASH.fullmatch(following):
                wrong.append(f"{shown}:{number}: a pin without hash: {line}")
            if not PIN.match(line) and not HASH.fullmatch(line):
                wrong.append(f"{shown}:{number}: neither a pin nor a hash: {line[:60]}")
    assert not wrong, report(wrong)


def test_locks_agree() -> None:
    """What the tests run with is what the user runs with: every pin of core is in dev, word for word."""
    core, dev = pins("core.txt"), pins("dev.txt")
    wrong = [
        f"requirements/dev.txt:1: {name} is {dev.get(name)}, in core.txt {pinned}; run scripts/lock"
        for name, pinned in core.items()
        if dev.get(name) != pinned
    ]
    assert not wrong, report(wrong)


def test_dependencies_agree() -> None:
    """What pyproject.toml asks for is what requirements/core.in asks for, and all of it is locked."""
    asked = {normal(line) for line in PYPROJECT["project"]["dependencies"]}
    lines = (ROOT / "requirements" / "core.in").read_text(encoding="utf-8").splitlines()
    core = {normal(line) for line in lines if line.strip() and not line.startswith(("#", "-"))}
    assert asked == core, f"requirements/core.in:1: differs from pyproject.toml in {sorted(asked ^ core)}"
    unlocked = core - pins("core.txt").keys()
    assert not unlocked, f"requirements/core.txt:1: {sorted(unlocked)} not locked; run scripts/lock"


def test_changelog_has_the_version() -> None:
    """The version in the code is the newest one in the changelog."""
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    headings = re.findall(r"^## (\d\S*)", text, re.MULTILINE)
    assert headings, "CHANGELOG.md:1: no heading of the form `## 0.1.0`"
    assert headings[0] == firnstead.__version__, f"CHANGELOG.md: newest is {headings[0]}, ours {firnstead.__version__}"


def test_scripts_can_be_started() -> None:
    """The commands of the project are executable files with an interpreter line, as cloned."""
    wrong = []
    for path in [ROOT / "run", ROOT / "test", ROOT / ".ci" / "run", *sorted((ROOT / "scripts").iterdir())]:
        if path.suffix != ".py" and path.is_file():
            shown = path.relative_to(ROOT).as_posix()
            wrong += [] if path.stat().st_mode & 0o111 else [f"{shown}:1: not executable"]
            wrong += [] if path.read_bytes().startswith(b"#!") else [f"{shown}:1: no interpreter line"]
    assert not wrong, report(wrong)


def test_text_files_end_well() -> None:
    """Every text file of the project ends with one line end, and every TOML file can be read."""
    wrong = []
    for shown, text in text_files():
        if text and not text.endswith("\n"):
            wrong.append(f"{shown}:{text.count(chr(10)) + 1}: no line end at the end")
        if shown.endswith(".toml"):
            try:
                tomllib.loads(text)
            except tomllib.TOMLDecodeError as error:
                wrong.append(f"{shown}: {error}")
    assert not wrong, report(wrong)
