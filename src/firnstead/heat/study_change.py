"""What to change where a place gets too warm: how much cold air, how much less loss, from its balance that month."""

from __future__ import annotations

import numpy as np

from firnstead.core.results import Step
from firnstead.heat.airflow import AIR_HEAT, air_density
from firnstead.heat.numbers import Numbers
from firnstead.heat.results import Remedy

SUPPLY_RISE = 4.0  # K above undisturbed snow: what an air well may give at the end of a warm season (own rule)
SEASON = 3  # months for which the change has acted when the warmest month comes: the warm season (own rule)


def remedies_for(n: Numbers, p: int) -> tuple[tuple[Remedy, ...], tuple[Step, ...]]:
    """Each way alone that would bring a place to its limit, with the steps; nothing where it holds."""
    m, c, case = n.march, n.case.climate, n.case.places[p]
    air = m.air[:, p]
    scenario, month = divmod(int(np.argmax(air)), c.months)
    over = float(air[scenario, month]) - case.limit
    if over <= 0:
        return (), ()
    rho_c = float(air_density(c.pressure, c.mean)) * AIR_HEAT
    snow = _snow_conductance(n, p, scenario)
    ways = conductances(n, p, scenario, month)
    carried = sum(ways)
    needed = over * (carried + snow)
    supply = c.mean + SUPPLY_RISE
    here = [(i, b) for i, b in enumerate(n.case.buildings) if b.place == p]
    lost = float(m.terms["buildings"][scenario, p, month])
    own = float(m.terms["gains"][scenario, p, month])
    steps = [
        Step("G_s", "", (("n", float(SEASON), "1"),), snow, "W/K", "calonne_2019",
             "what the snow round the place takes per degree after a warm season, film counted (finite elements)"),
        Step("Q_c", "(T - T_l) (G_t + G_s)", (("T", float(air[scenario, month]), "K"), ("T_l", case.limit, "K"),
             ("G_t", carried, "W/K"), ("G_s", snow, "W/K")), needed, "W", "own_rule",
             "heat to be kept out or carried off, with G_t the sum of the conductances of air above"),
    ]  # fmt: skip
    found = []
    if supply < case.limit - 0.5:
        flow = needed / (rho_c * (case.limit - supply))
        steps.append(Step("V_c", "Q_c/(C (T_l - T_c))", (("Q_c", needed, "W"), ("C", rho_c, "J/m3/K"),
                          ("T_l", case.limit, "K"), ("T_c", supply, "K")), flow, "m3/s", "own_rule",
                          "air of the snow, 4 K warmer than undisturbed snow, that carries it off"))  # fmt: skip
        found.append(
            Remedy(case.name, f"cold air of {supply - 273.15:.0f} degC from the snow, more than now", flow, "m3/s")
        )
    for what, heat in (("loss of its buildings to its air less", lost if here else 0.0),
                       ("heat of things, pipes and engines in it less", own)):  # fmt: skip
        if heat > needed:
            found.append(Remedy(case.name, what, needed / heat, "1"))
    return tuple(found), tuple(steps)


def conductances(n: Numbers, p: int, scenario: int, month: int) -> tuple[float, ...]:
    """Air that comes into a place, per degree [W/K]: through buildings, vents, air wells, portals, doorways."""
    m, case = n.march, n.case.places[p]
    rho_c = float(air_density(n.case.climate.pressure, n.case.climate.mean)) * AIR_HEAT
    here = float(m.air[scenario, p, month])
    rooms = sum(b.wall_roof + rho_c * (float(m.leak[scenario, i, month])
                + (0.0 if b.from_outside else b.ventilation * (1 - b.recovery)))
                for i, b in enumerate(n.case.buildings) if b.place == p)  # fmt: skip
    surface = n.case.climate.surface[month % 12]
    vents = float(m.terms["vents"][scenario, p, month])
    wells = sum(float(m.well_share[scenario, j, month]) * w.flow * w.count * rho_c
                for j, (q, w) in enumerate((q, w) for q, each in enumerate(n.case.places) for w in each.wells)
                if q == p and w.temperature < here)  # fmt: skip
    through = vents / (surface - here) if vents < 0 else 0.0
    doors = 0.0
    for link in n.case.links:
        if p in (link.a, link.b):
            apart = here - float(m.air[scenario, link.b if p == link.a else link.a, month])
            doors += (
                rho_c * link.leak if link.leak else abs(float(m.links[scenario, p, month]) / apart) if apart else 0.0
            )
    return rooms, through, wells, case.outside_leak * rho_c, doors


def _snow_conductance(n: Numbers, p: int, scenario: int) -> float:
    """What the snow takes per degree of air after a warm season [W/K]."""
    case = n.case.places[p]
    answer = n.snowfield.responses[case.section][scenario]
    after = float(answer.pulse[:, :, :SEASON].sum())
    film = n.case.climate.film * (answer.wall_length + answer.patch_width)
    return case.length / (1.0 / after + 1.0 / film)
