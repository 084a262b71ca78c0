"""Hand extinguishers: how far one may have to walk, how much floor one may serve, how cold one may hang."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files
from math import ceil

FOOT = 0.3048


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """Rows of one table of this package; the head lines that begin with # say source, table, unit and mark.

    rows of the CSV

    Parameters
    ----------
    name : str [text]
        Name of the table.
    Returns
    -------
    tuple[dict[str, str], ...] [text]
        Rows by column.
    Validity: tables of this package.
    Source: own_rule, reader of tables.

    >>> table("class_a")[0]["hazard"]
    'light'
    """
    text = files("firnstead.fire.tables").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def walk_class_a() -> float:
    """Give the farthest walk to an extinguisher for solids (class A).

    75 ft

    Parameters
    ----------
    Returns
    -------
    float [m]
        Distance along the way people walk.
    Validity: hand extinguishers.
    Source: nfpa_10, 2007 edition, class A (read second-hand).

    >>> round(walk_class_a(), 2)
    22.86
    """
    return 75 * FOOT


def least_rating_a(hazard: str) -> int:
    """Give the smallest rating of an extinguisher for solids.

    2-A, 2-A, 4-A for light, ordinary, extra hazard

    Parameters
    ----------
    hazard : str [text]
        "light", "ordinary" or "extra".
    Returns
    -------
    int [1]
        Rating.
    Validity: hand extinguishers.
    Source: nfpa_10, 2007 edition, class A (read second-hand).

    >>> least_rating_a("extra")
    4
    """
    return int(next(row["least_rating"] for row in table("class_a") if row["hazard"] == hazard))


def floor_per_rating(hazard: str) -> float:
    """Give the floor that each unit of rating may serve.

    3,000, 1,500, 1,000 ft2 for light, ordinary, extra hazard

    Parameters
    ----------
    hazard : str [text]
        "light", "ordinary" or "extra".
    Returns
    -------
    float [m2]
        Floor.
    Validity: hand extinguishers; see floor_per_extinguisher for the most that one may serve.
    Source: nfpa_10, 2007 edition, class A (read second-hand).

    >>> round(floor_per_rating("ordinary"), 1)
    139.4
    """
    return float(next(row["floor_per_unit"] for row in table("class_a") if row["hazard"] == hazard)) * FOOT**2


def floor_per_extinguisher(rating: int, hazard: str, *, most: float = 11250.0) -> float:
    """Give the floor that one extinguisher may serve.

    min(rating x floor of each unit, 11,250 ft2)

    Parameters
    ----------
    rating : int [1]
        Its rating for solids.
    hazard : str [text]
        "light", "ordinary" or "extra".
    most : float [ft2]
        Most for one.
    Returns
    -------
    float [m2]
        Floor; 0 below the least rating.
    Validity: hand extinguishers.
    Source: nfpa_10, 2007 edition, class A (read second-hand).

    >>> round(floor_per_extinguisher(4, "ordinary"), 1), floor_per_extinguisher(2, "extra")
    (557.4, 0.0)
    """
    if rating < least_rating_a(hazard):
        return 0.0
    return min(rating * floor_per_rating(hazard), most * FOOT**2)


def walk_class_b(rating: int, hazard: str) -> float:
    """Give the farthest walk to an extinguisher for liquids (class B).

    by rating and hazard, 30 or 50 ft

    Parameters
    ----------
    rating : int [1]
        Its rating for liquids.
    hazard : str [text]
        "light", "ordinary" or "extra".
    Returns
    -------
    float [m]
        Distance; 0 where the rating is too small.
    Validity: hand extinguishers, liquids not deep.
    Source: nfpa_10, 2007 edition, class B (read second-hand).

    >>> round(walk_class_b(80, "extra"), 2), walk_class_b(5, "ordinary")
    (15.24, 0.0)
    """
    fitting = [float(r["walk"]) for r in table("class_b") if r["hazard"] == hazard and rating >= int(r["rating"])]
    return max(fitting, default=0.0) * FOOT


def coldest_agent(agent: str) -> float | None:
    """Give the coldest air in which an agent works.

    by agent

    Parameters
    ----------
    agent : str [text]
        Name of the agent.
    Returns
    -------
    float | None [K]
        Temperature; none where only the maker can say.
    Validity: the common kind; the maker's figure on the extinguisher counts.
    Source: tm_5_852_5, fire protection (read); common_practice, low-temperature dry chemical.

    >>> coldest_agent("water")
    273.15
    """
    row = next(row for row in table("agents") if row["agent"] == agent)
    return float(row["coldest"]) if row["coldest"] else None


def extinguishers_needed(floor: float, rating: int, hazard: str) -> int:
    """Give the number of extinguishers that a floor asks for.

    n = A/floor of one, rounded up

    Parameters
    ----------
    floor : float [m2]
        Floor A.
    rating : int [1]
        Rating for solids of each.
    hazard : str [text]
        "light", "ordinary" or "extra".
    Returns
    -------
    int [1]
        Number by floor alone; the walk may ask for more.
    Validity: rating not below the least for the hazard.
    Source: nfpa_10, 2007 edition, class A (read second-hand).

    >>> extinguishers_needed(900.0, 4, "ordinary")
    2
    """
    return ceil(floor / floor_per_extinguisher(rating, hazard) - 1e-9)
