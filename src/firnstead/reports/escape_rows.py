"""Rows about ways out, worst first, for the screen and for paper; from the machine-readable form."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firnstead.escape.imo import travel_time_imo
from firnstead.reports.words import counted, pair, place_words, shown, worst_first

Plain = Mapping[str, Any]
NUMBERED = 6  # places whose numbers are written out; the rest is only named
TIME = "escape.time"  # key of the check that sets the time needed against what smoke leaves
URGENT = ("fails", "close")
UNMEASURED = "by a ladder that was never measured"


@dataclass(frozen=True)
class Times:
    """Slowest person of a place: walk and queue by both models, time needed [s]; who, when, and what is blocked.

    The times are None where nobody can tell them: somebody is cut off, or a ladder on the way was never measured.
    """

    hydraulic: float | None
    imo: float | None
    needed: float | None
    who: str
    hour: str
    blocked: str
    why_not: str = ""

    def words(self) -> str:
        """Who, when, what is blocked, and why there is no number."""
        parts = (self.who, self.why_not, self.hour, f"{self.blocked} blocked" if self.blocked else "")
        return ", ".join(part for part in parts if part)


@dataclass(frozen=True)
class PlaceRow:
    """A place with all that is known about its ways out."""

    name: str
    check: Plain | None
    """The check that uses most of its limit; None where nothing was checked."""
    place: Plain
    times: Times | None
    available: float | None
    margin: float | None
    """Time that smoke leaves less the time needed, where it is tightest [s]; None: not known."""


def place_rows(result: Plain, checks: Sequence[Plain]) -> list[PlaceRow]:
    """Every place, worst first."""
    rows = []
    for name, place in result["places"].items():
        mine = [c for c in checks if c["place"] == name and c["verdict"] != "not checked"]
        timed = next((c for c in mine if c["key"] == TIME), None)
        known = timed is not None and timed["limit"] is not None and timed["demand"] is not None
        rows.append(PlaceRow(
            name, min(mine, key=worst_first, default=None), place, slowest(result, name),
            timed["limit"] if timed and known else None,
            timed["limit"] - timed["demand"] if timed and known else None))  # fmt: skip
    return sorted(rows, key=lambda r: (3, 0.0) if r.check is None else worst_first(r.check))


def slowest(result: Plain, place: str) -> Times | None:
    """The slowest walk out of the rooms of a place, over all hours and all ways that a blocked spot leads to.

    Who is cut off is worse than any time, and so is a time that nobody knows.
    """
    found: list[Times] = []
    for name, room in result["buildings"].items():
        if room["place"] != place or not any(room["people"]):
            continue
        lost = _lost(result, name)
        if lost is not None or not room["routes"]:
            return Times(None, None, None, name, "", lost["blocked"] if lost else "", "cut off")
        for route in room["routes"]:
            found += _by_hour(result, name, room, route)
    unknown = next((t for t in found if t.needed is None), None)
    return unknown or max(found, key=lambda t: t.needed or 0.0, default=None)


def _by_hour(result: Plain, name: str, room: Plain, route: Plain) -> list[Times]:
    """The times of one way at the hours at which somebody is there."""
    rows = []
    for hour, people, walk, queue, walk2, queue2, needed in zip(
        result["hours"], room["people"], *(route[key] for key in (
            "walk_hydraulic", "queue_hydraulic", "walk_imo", "queue_imo", "needed")), strict=True):  # fmt: skip
        if people and None in (walk, queue, walk2, queue2, needed):
            rows.append(Times(None, None, None, name, hour["name"], route["blocked"], UNMEASURED))
        elif people:
            rows.append(Times(walk + queue, travel_time_imo(walk2 + queue2), needed, name, hour["name"],
                              route["blocked"]))  # fmt: skip
    return rows


def room_rows(result: Plain) -> list[dict[str, Any]]:
    """One row for each building or niche: nearest exit, worst blocked spot, the way that is left; longest first.

    `needed` is in words: minutes at the slowest hour of both ways, or why there is no number.
    """
    rows = []
    for name, room in result["buildings"].items():
        open_way = next((r for r in room["routes"] if not r["blocked"]), None)
        left = max((r for r in room["routes"] if r["blocked"]), key=lambda r: r["length"], default=None)
        times = [t for r in (open_way, left) if r is not None for t in _by_hour(result, name, room, r)]
        cut = not room["routes"] or (bool(room["worst"]) and room["worst_distance"] is None)
        way = "cut off" if _lost(result, name) or not room["routes"] else "cut off at its own door"
        if cut or not times:
            needed = "–"
        elif any(t.needed is None for t in times):
            needed = "not known"
        else:
            needed = minutes(max(t.needed or 0.0 for t in times))
        rows.append({
            "room": name, "place": room["place"], "people": max(room["people"], default=0),
            "exit": open_way["exit"] if open_way else "none", "length": open_way["length"] if open_way else None,
            "blocked": room["worst"], "left": way if cut else left["exit"] if left else "the same",
            "left_length": room["worst_distance"], "needed": needed, "cut_off": cut})  # fmt: skip
    return sorted(rows, key=lambda r: (not r["cut_off"], -(r["left_length"] or 0.0)))


def _lost(result: Plain, who: str) -> Plain | None:
    """The blocked spot that cuts somebody off; a door of his own whose neighbours the file does not place aside."""
    return next((row for row in result["cut_off"] if row["who"] == who and not row["own_door"]), None)


def to_do(result: Plain, checks: Sequence[Plain], system: str) -> list[tuple[str, str, str]]:
    """What fails or is close and the cure, worst first: (what, places with their numbers, what to do)."""
    cures = {(w["place"], w["what"]): w["cure"] for w in result["worst"]}
    groups: dict[tuple[str, str], list[str]] = {}
    for c in sorted((c for c in checks if c["verdict"] in URGENT), key=worst_first):
        cure = cures.get((c["place"], c["question"]), "See the working of this check")
        if cure.startswith("See"):
            cure += f" (firnstead explain STATION '{c['place']}' escape)"
        row = groups.setdefault((f"{c['question']} {c['verdict']}", cure), [])
        row.append(_with_numbers(c, system) if len(row) < NUMBERED else place_words(c["place"]))
    return [(what, "; ".join(places), cure) for (what, cure), places in groups.items()]


def _with_numbers(c: Plain, system: str) -> str:
    place = place_words(c["place"])
    if c["limit"] is None or c["unit"] == "1":
        return f"{place} ({c['reason']})" if c["reason"] else place
    demand, limit = pair(c["demand"], c["limit"], c["unit"], system)
    return f"{place} ({demand} against {limit})"


def route_of_way(result: Plain | None, origin: str, way: str) -> Plain | None:
    """The route that the fire study knows as "way 2" of a building: the second of its routes; None where unknown."""
    routes = (result or {}).get("buildings", {}).get(origin, {}).get("routes", ())
    word, _, number = way.rpartition(" ")
    known = word == "way" and number.isdigit() and 1 <= int(number) <= len(routes)
    return routes[int(number) - 1] if known else None


def way_words(result: Plain | None, origin: str, way: str) -> str:
    """A way of the fire study for a reader: where it leads, and what is blocked that it is taken."""
    route = route_of_way(result, origin, way)
    if route is None:
        return way
    return f"to {route['exit']}" + (f" with {route['blocked']} blocked" if route["blocked"] else "")


def minutes(seconds: float | None) -> str:
    """Seconds as minutes with one decimal.

    >>> minutes(90.0), minutes(None)
    ('1.5', '–')
    """
    return "–" if seconds is None else f"{seconds / 60:,.1f}"


def limits_sentence(result: Plain, system: str) -> str:
    """Which limits were applied, and that the engineer chose them."""
    limits = result["limits"]
    said = [f"{words} {shown(limits[key], 'm', system)}" for key, words in (
        ("travel", "walk to an exit"), ("blocked_travel", "with one spot blocked"),
        ("common_path", "before two ways are open"), ("dead_end", "dead end")) if limits[key] is not None]  # fmt: skip
    if limits["surface_time"] is not None:
        said.append(f"time to the snow {shown(limits['surface_time'], 's', system)}")
    own = [words.replace("_", " ") for words in limits["changed"]]
    return (f"Limits: {limits['preset']} ({limits['clause']}): {', '.join(said)}."
            + (f" Set in the file instead: {', '.join(own)}." if own else "")
            + " Which limits apply is the responsible engineer's choice; none was made for snow.")  # fmt: skip


def hour_rows(result: Plain) -> list[list[str]]:
    """One row for each hour, in minutes: people, slowest with nothing and with the worst spot blocked, what no plan
    beats, the carried."""

    def time(value: float | None) -> str:
        return "not known" if value is None else minutes(value)

    lost = {(row["who"], row["blocked"]) for row in result["cut_off"]}
    return [
        [h["name"], f"{h['people']}", time(h["reaction"]), f"{h['factor']:g}", time(h["open_hydraulic"]),
         time(h["open_imo"]), time(h["open_needed"]),
         "cut off" if (h["blocked_from"], h["blocked_by"]) in lost else time(h["blocked_needed"]),
         f"{h['blocked_from']}, {h['blocked_by']} blocked" if h["blocked_by"] else h["blocked_from"] or "–",
         time(h["guided"]), time(h["carried_needed"]) if h["carried"] else "–"]
        for h in result["hours"]
    ]  # fmt: skip


def exit_rows(result: Plain) -> list[list[str]]:
    """One row for each exit, fullest first: people by hour, most people while a spot is blocked."""
    rows = []
    for name, use in sorted(result["exits"].items(), key=lambda row: -max(row[1]["most"], default=0)):
        most = max(use["most"], default=0)
        spot = use["most_blocked"][use["most"].index(most)] if most else ""
        rate = "ramp" if use["kind"] == "portal" else "not measured" if use["interval"] is None else (
            f"{use['interval']:g} s a person")  # fmt: skip
        rows.append([name, use["place"], " / ".join(map(str, use["people"])), str(most), spot or "nothing", rate])
    return rows


def cut_off_sentence(result: Plain) -> str:
    """Who has no way out while one spot is blocked."""
    looked = f"{counted(result['blockings'], 'spot')} blocked in turn, each exit with the passage at it"
    rows = result["cut_off"]
    if not rows:
        return f"{looked}: everybody keeps a way out."
    own = sum(row["own_door"] for row in rows)
    spots: dict[str, list[str]] = {}
    for row in sorted(rows, key=lambda row: row["who"] not in result["buildings"]):
        if not row["own_door"]:
            spots.setdefault(row["blocked"], []).append(row["who"])
    listed = "; ".join(f"with {spot} blocked {_counted(who)}" for spot, who in list(spots.items())[:NUMBERED])
    more = f"; and with {len(spots) - NUMBERED} more spots" if len(spots) > NUMBERED else ""
    said = f"Cut off: {listed}{more}." if spots else "Nobody is cut off but behind their own door."
    doors = f" In {counted(own, 'case')} only the room's own door is blocked." if own else ""
    return f"{looked}. {said}{doors}"


def _counted(names: Sequence[str]) -> str:
    more = f" and {len(names) - NUMBERED} more" if len(names) > NUMBERED else ""
    return ", ".join(names[:NUMBERED]) + more


def pairs_sentence(result: Plain, system: str) -> str:
    """What two blocked spots do; empty where it was not asked for."""
    pairs = result["pairs"]
    if pairs is None:
        return ""
    worst = sorted(pairs["rooms"].items(), key=lambda row: -row[1])[:8]
    rooms = ", ".join(f"{name} ({count:,})" for name, count in worst) or "no room"
    return (f"{pairs['pairs']:,} pairs of spots blocked. Longest walk of those who keep a way out: "
            f"{shown(pairs['farthest'], 'm', system)} from {pairs['farthest_from']} with "
            f"{pairs['farthest_by'] or 'nothing'} blocked. Cut off by most pairs: {rooms}.")  # fmt: skip
