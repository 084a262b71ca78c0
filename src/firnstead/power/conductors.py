"""Resistance of a conductor by its size and temperature; wire sizes."""

from __future__ import annotations

from math import pi
from types import MappingProxyType

from firnstead.power.tables import rows

FOOT = 0.3048
# metal: (resistivity at 20 degC, that of Annex G less its 1.25 for a warm cable [ohm m]; change with temperature [1/K]
# at 20 degC; the same at 75 degC after the US tables)
METALS = MappingProxyType({"copper": (1.8e-8, 0.00393, 0.00323), "aluminium": (2.88e-8, 0.00403, 0.00330)})
COLD, WARM = 293.15, 348.15  # temperatures at which the two tables hold [K]


def resistance_at(
    resistance: float, known_at: float, temperature: float, coefficient: float, reference: float = COLD
) -> float:
    """Give the resistance of a conductor at another temperature.

    R = R_1 (1 + a (T - T_r))/(1 + a (T_1 - T_r))

    Parameters
    ----------
    resistance : float [ohm/m]
        Known resistance R_1.
    known_at : float [K]
        Temperature T_1 at which it is known.
    temperature : float [K]
        Temperature T wanted.
    coefficient : float [1/K]
        Change a with temperature, as a share of the resistance at T_r.
    reference : float [K]
        Temperature T_r of the coefficient.
    Returns
    -------
    float [ohm/m]
        Resistance.
    Validity: pure metals between about -60 and 100 degC.
    Source: iec_60228 (read second-hand); dhogal_problems, ex. 3.4 (read second-hand).

    >>> round(resistance_at(54.3, 293.15, 313.15, 0.0043, 273.15), 1)
    58.6
    """
    return resistance * (1 + coefficient * (temperature - reference)) / (1 + coefficient * (known_at - reference))


def resistance_of_section(section: float, resistivity: float) -> float:
    """Give the resistance per length of a conductor from its section.

    R = rho/S

    Parameters
    ----------
    section : float [m2]
        Section S of metal, above 0.
    resistivity : float [ohm m]
        Resistivity rho.
    Returns
    -------
    float [ohm/m]
        Resistance.
    Validity: direct current; alternating current adds a little above about 300 mm2.
    Source: iec_60364_5_52, Annex G (from memory, unchecked).

    >>> round(1e3 * resistance_of_section(35e-6, 2.25e-8), 3)
    0.643
    """
    return resistivity / section


def resistance_iec(section: float, metal: str, kind: int = 2) -> float | None:
    """Give the greatest resistance at 20 degC that the table allows a conductor of a nominal section.

    table look-up

    Parameters
    ----------
    section : float [m2]
        Nominal section.
    metal : str [text]
        "copper" or "aluminium".
    kind : int [1]
        Class 2 (stranded) or 5 (flexible).
    Returns
    -------
    float or None [ohm/m]
        Resistance; none where the table has no such conductor.
    Validity: sections of the table.
    Source: iec_60228, classes 2 and 5 (read second-hand).

    >>> resistance_iec(35e-6, "copper")
    0.000524
    """
    for row in rows("iec_60228"):
        if int(row["class"]) == kind and abs(float(row["section"]) * 1e-6 - section) < 1e-9:
            return float(row[metal]) / 1e3 if row[metal] else None
    return None


def resistance_nec(size: str, metal: str) -> float | None:
    """Give the resistance at 75 degC of a stranded conductor of an American size.

    table look-up

    Parameters
    ----------
    size : str [text]
        "12", "4/0" or, in thousand circular mils, "250".
    metal : str [text]
        "copper" or "aluminium".
    Returns
    -------
    float or None [ohm/m]
        Resistance; none where the table has no such size.
    Validity: sizes of the table.
    Source: nec_ch9, Table 8 (read second-hand).

    >>> round(1e3 * resistance_nec("4/0", "copper"), 4)
    0.1995
    """
    found = next((row for row in rows("nec_table_8") if row["size"] == size), None)
    return None if found is None else float(found[metal]) / (1000.0 * FOOT)


def section_awg(size: str) -> float:
    """Give the section of an American wire size.

    d = 0.005 in 92^((36 - n)/39), S = pi d^2/4; n = 0 for 1/0,
        -1 for 2/0 and so on; from 250 on S in 1000 circular mils

    Parameters
    ----------
    size : str [text]
        "12", "4/0" or, in thousand circular mils, "250".
    Returns
    -------
    float [m2]
        Section.
    Validity: the sizes that exist.
    Source: nec_ch9 (read second-hand).

    >>> round(1e6 * section_awg("4/0"), 1)
    107.2
    """
    inch = FOOT / 12
    if "/" in size:
        number = 1 - int(size.partition("/")[0])
    elif int(size) >= 250:
        return int(size) * 1000.0 * pi / 4 * (1e-3 * inch) ** 2
    else:
        number = int(size)
    return pi / 4 * (0.005 * inch * float(92 ** ((36 - number) / 39))) ** 2
