"""The questions about a packing list."""

from __future__ import annotations

from collections.abc import Sequence

from firnstead.cargo.loads import Means
from firnstead.cargo.results import CargoResult, PackingLine
from firnstead.core.cautions import caution_for
from firnstead.core.results import Check, Step, check, not_checked

SUBJECT = "Packing list"
SMALL = 1e-3  # m3: a piece below this is taken not to be long, its size is not asked for (own rule)
CAUTION = caution_for("cargo")


def checks_of(result: CargoResult, means: Sequence[Means]) -> tuple[Check, ...]:
    """Completeness both ways, pieces against what can carry them, totals against the season's trips."""
    return (
        _names("not_listed", "Parts needed that have no mass and size anywhere", result.missing, 2.0),
        _names("not_needed", "Parts and kits of the file that nothing needs", result.unneeded, 1.0),
        *_pieces(result, means),
        *_totals(result, means),
        not_checked(subject=SUBJECT, question="Order of loading and packing into trips", key="cargo.order_of_loading",
                    discipline="cargo", place="", caution=CAUTION,
                    reason="packing into trips is not worked out yet; the trips given are a lower bound"),
        *_apart(result),
    )  # fmt: skip


def _names(key: str, question: str, names: tuple[str, ...], ratio: float) -> Check:
    """A list that should be empty; `ratio` decides between fails (above 1) and close (1)."""
    count = float(len(names))
    shown = ", ".join(names[:12]) + (f" and {len(names) - 12} more" if len(names) > 12 else "")
    step = Step("n", "", (), count, "1", "statics", f"names on one side only: {shown or 'none'}")
    return check(
        subject=SUBJECT, question=question, demand=count, limit=0.0, unit="1", key=f"cargo.{key}", discipline="cargo",
        place="", working=(step,), caution=CAUTION, note=shown, ratio=ratio if names else 0.0)  # fmt: skip


def _pieces(result: CargoResult, means: Sequence[Means]) -> tuple[Check, ...]:
    if not means or not result.lines:
        why = "the file names no means of transport" if not means else "there is nothing on the list"
        return (not_checked(subject=SUBJECT, question="Every piece fits a means of transport", key="cargo.fits",
                            discipline="cargo", place="", reason=why, caution=CAUTION),)  # fmt: skip
    heavy = max(result.lines, key=lambda line: (line.mass_each, line.part))
    sized = [line for line in result.lines if line.longest is not None]
    heaviest = max(min(m.heaviest, m.payload) for m in means)
    checks = [_largest("heaviest", f"Heaviest piece: {heavy.part}", heavy.mass_each, heaviest, "kg")]
    if sized:
        long = max(sized, key=lambda line: (line.longest or 0.0, line.part))
        longest = max(m.longest for m in means)
        checks.append(_largest("longest", f"Longest piece: {long.part}", long.longest or 0.0, longest, "m"))
    stranded = tuple(line.part for line in result.lines if not line.carried_by)
    checks.append(_names("fits", "Parts that no means of transport can carry", stranded, 2.0))
    unknown = tuple(line.part for line in result.lines if line.longest is None and line.volume_each >= SMALL)
    if unknown:
        checks.append(not_checked(
            subject=SUBJECT, question="Longest piece among parts worked out", key="cargo.longest_worked_out",
            discipline="cargo", place="", caution=CAUTION,
            reason=f"no size is known of {', '.join(unknown[:8])}; add them to the file's parts"))  # fmt: skip
    return tuple(checks)


def _largest(key: str, question: str, demand: float, limit: float, unit: str) -> Check:
    steps = (
        Step("d", "", (), demand, unit, "statics", "largest over the packing list, packed"),
        Step("l", "", (), limit, unit, "statics", "greatest limit of any means of transport, as stated in the file"),
    )
    return check(
        subject=SUBJECT, question=question, demand=demand, limit=limit, unit=unit, key=f"cargo.{key}",
        discipline="cargo", place="", working=steps, caution=CAUTION)  # fmt: skip


def _totals(result: CargoResult, means: Sequence[Means]) -> tuple[Check, ...]:
    if not means:
        return (not_checked(subject=SUBJECT, question="Mass and volume against the trips of the season",
                            key="cargo.capacity", discipline="cargo", place="", caution=CAUTION,
                            reason="the file names no means of transport"),)  # fmt: skip
    return (
        _total("mass", "Mass against the trips of the season", "kg", result.lines, result.mass,
               [(m.payload, m.trips) for m in means]),
        _total("volume", "Volume against the trips of the season", "m3", result.lines, result.volume,
               [(m.volume, m.trips) for m in means]),
    )  # fmt: skip


def _total(
    key: str, question: str, unit: str, lines: Sequence[PackingLine], demand: float, trips: list[tuple[float, int]]
) -> Check:
    letters = "abcdefgh"[: len(trips)]
    symbol = "m" if unit == "kg" else "V"
    inputs = [(f"P_{x}", size, unit) for x, (size, _) in zip(letters, trips, strict=False)]
    counts = [(f"n_{x}", float(count), "1") for x, (_, count) in zip(letters, trips, strict=False)]
    whole = len(letters) == len(trips)
    limit = sum(size * count for size, count in trips)
    steps = (
        Step(symbol, "", (), demand, unit, "statics", f"pieces times {key} of one piece, sum of {len(lines)} lines"),
        Step("C", " + ".join(f"P_{x} n_{x}" for x in letters) if whole else "", (*inputs, *counts), limit, unit,
             "statics", "one trip's limit times the trips planned, all means of transport"),
    )  # fmt: skip
    return check(
        subject=SUBJECT, question=question, demand=demand, limit=limit, unit=unit, key=f"cargo.{key}",
        discipline="cargo", place="", working=steps, caution=CAUTION,
        note="whole pieces leave space unused in every trip; this is the least that must be carried")  # fmt: skip


def _apart(result: CargoResult) -> tuple[Check, ...]:
    if result.hazardous_mass <= 0:
        return ()
    return (not_checked(subject=SUBJECT, question="Goods that travel apart", key="cargo.apart", discipline="cargo",
                        place="", caution=CAUTION, unit="kg", demand=result.hazardous_mass,
                        reason="the carrier's rules for dangerous goods are not in the file"),)  # fmt: skip
