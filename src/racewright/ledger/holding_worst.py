"""The worst that each load state asks of the lines, over depths, speeds and lost lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_result import swung
from racewright.holding.statics_sweep import Statics
from racewright.ledger.holding_findings import Held
from racewright.safety import SafetyBasis


@dataclass(frozen=True)
class StateWorst:
    """One load state in one case: the line that comes nearest to its strength.

    Attributes
    ----------
    state : str
        'on load', 'loss of load', 'clogged 50 %', 'held trunk: ...'.
    case : str
        'intact' or 'one line lost'.
    lost : str
        The tether that is missing, '' when intact.
    line : str
        '' where nothing settled.
    label : str
        Of the depth of water.
    stream_speed, tension : float or None
        [m/s], slow [N]
    factor : float
        Wanted, the greatest of this case [-].
    use : float or None
        Factor x tension over strength [-].
    wanted_strength : float or None
        Factor x tension [N].
    not_settled : int
        Points without a rest: nothing is known of the lines there [-].
    safety : SafetyBasis
    """

    state: str
    case: str
    lost: str
    line: str
    label: str
    stream_speed: float | None
    tension: float | None
    factor: float
    use: float | None
    wanted_strength: float | None
    not_settled: int
    safety: SafetyBasis


def worst_by_state(held: Held) -> tuple[StateWorst, ...]:
    """A row for each load state intact, and one with a line lost where it was asked.

    Parameters
    ----------
    held : Held
    """
    whole = [(one.label, one.intact) for one in held.depths]
    gone = [(f"{held.depths[0].label}{swung(table.points[0][0])}", table) for table in held.lost]
    rows = [*_rows(whole, "intact", held.factors), *_rows(gone, "one line lost", held.factors)]
    return tuple(rows)


def _rows(tables: list[tuple[str, Statics]], case: str, factors: tuple[StrengthFactor, ...]) -> Iterator[StateWorst]:
    factor = max((f.factor for f in factors if f.case in (case, "both")), default=1.0)
    for state in dict.fromkeys(name for _label, table in tables for name in table.states):
        yield _worst(state, case, [(label, t) for label, t in tables if state in t.states], factor)


def _worst(state: str, case: str, tables: list[tuple[str, Statics]], factor: float) -> StateWorst:
    """Over all depths, or over all lost lines."""
    best: tuple[float, str, Statics, int, int, int] | None = None
    unknown = 0
    safety = tables[0][1].safety
    for label, table in tables:
        s = table.states.index(state)
        unknown += int((~table.settled[s]).sum())
        if not table.settled[s].any():
            continue
        every = np.where(np.isfinite(table.utilisation[s]), table.utilisation[s], -1.0)
        u, n = np.unravel_index(int(np.argmax(every)), every.shape)
        if best is None or every[u, n] > best[0]:
            best = (float(every[u, n]), label, table, s, int(u), int(n))
    if best is None:
        return StateWorst(state, case, "", "", "", None, None, factor, None, None, unknown, safety)
    use, where, worst, row, column, line = best
    tension = float(worst.tension[row, column, line])
    speed = float(worst.stream_speed[column])
    return StateWorst(
        state, case, worst.lost, worst.lines[line], where, speed, tension, factor, factor * use, factor * tension,
        unknown, worst.points[row][column].lines[line].safety,
    )  # fmt: skip
