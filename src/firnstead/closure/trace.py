"""What is kept of a march: the outline of the void and the movement of floor, roof and shoulder, at fixed dates."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firnstead.closure.march import March, Settings
from firnstead.closure.outcome import Outcome, Void
from firnstead.closure.spec import Spec, case_of
from firnstead.core.units import YEAR
from firnstead.snow._arrays import Array


@dataclass(frozen=True, eq=False)
class Trace:
    """Rows belong to `dates` [s]; `lines` (date, point, 2) [m] hold half the outline, from the floor on the axis round.

    `floor` and `top` [m] are the levels on the axis, `heave`, `sag` and `shoulder` [m] the rise of the floor and the
    sinking of roof and shoulder against far snow, `inward` [m] how far the shoulder has come in. From `end` [s] on the
    void counts as closed; `note` says why.
    """

    dates: Array
    lines: Array
    heave: Array
    sag: Array
    shoulder: Array
    inward: Array
    end: float
    note: str = ""

    def void(self, index: int) -> Void:
        """The outline at a date."""
        line = self.lines[index]
        return Void(line, float(line[0, 1]), float(line[-1, 1]))


def trace_of(spec: Spec, settings: Settings | None = None) -> Trace:
    """March a spec through its years and keep what is read of it.

    positions at the dates by cubics between the steps of the march

    Parameters
    ----------
    spec : Spec [text]
        The trench in numbers.
    settings : Settings [text]
        How finely to march.
    Returns
    -------
    Trace [text]
        Outline and movements at the dates of the spec.
    Validity: a march that ends early (a void nearly closed) is held at its end, and the note says so.
    Source: own_rule.

    >>> spec = Spec(((1.5, 1.0), (1.5, 4.0)), "yielding", 0.5, 10.0, 10.0, 1.5, 500.0, 2.0, 1.0, 300.0, 0.0,
    ...             (0.0, 20.0), (400.0, 600.0), 250.0, (250.0,), 1e-4, 5e3, 600.0, 2.0, 1.0)
    >>> trace = trace_of(spec)
    >>> trace.lines.shape[0], bool(trace.heave[-1] > 0 < trace.inward[-1])
    (5, True)
    """
    history = March(case_of(spec), settings).run(float(spec.dates[-1]))
    outcome, end = Outcome(history), history.frames[-1].time
    rows = []
    lines = []
    for date in spec.dates:
        held = min(float(date), end)
        lines.append(outcome.void(held).line)
        shoulder = outcome.shoulder(held)
        rows.append((outcome.rise(held, "floor"), -outcome.rise(held, "roof"), -shoulder[1], shoulder[0]))
    heave, sag, down, inward = np.array(rows).T
    early = bool(history.note)
    note = f"after {end / YEAR:.1f} years taken as closed: {history.note}" if early else ""
    return Trace(spec.dates, np.array(lines), heave, sag, down, inward, end if early else np.inf, note)
