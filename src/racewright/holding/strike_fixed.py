"""The same log against the same machine, once on tethers and once rigidly fixed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_first_blow import first_blow
from racewright.holding.strike_outcome import strike_outcome
from racewright.holding.strike_scene import Strike
from racewright.safety import SafetyBasis


@dataclass(frozen=True, slots=True)
class HeldRow:
    """One row of the table.

    Attributes
    ----------
    held : str
        'on tethers' or 'rigidly fixed'.
    force : SafetyFigure
        First-blow force, range [N].
    impulse : float
        Along the normal [N s].
    taken_up : float
        Energy that contact stores at greatest pressure [J].
    slow_tension : SafetyFigure or None
        None for the fixed machine: its mount bears the first blow itself [N].
    ending : str
        What becomes of the log.
    time_to_clear : float or None
        [s]
    safety : SafetyBasis
        Of force, impulse and energy.
    """

    held: str
    force: SafetyFigure
    impulse: float
    taken_up: float
    slow_tension: SafetyFigure | None
    ending: str
    time_to_clear: float | None
    safety: SafetyBasis


def beside_fixed(strike: Strike, *, until: float = 60.0) -> tuple[HeldRow, HeldRow]:
    """Rows for the machine on its tethers and for one of the same size that does not move.

    Yielding saves the first blow only the reduced mass: sqrt(m2/(m1 + m2)) of the fixed machine's force in a central
    blow. It saves the mount everything that comes after.

    Raises
    ------
    NoAnswerError
        When the log passes by or jams.
    """
    rows = []
    for held, fixed in (("on tethers", False), ("rigidly fixed", True)):
        one = replace(strike, machine=replace(strike.machine, fixed=fixed))
        blow, after = first_blow(one), strike_outcome(one, until=until)
        rows.append(
            HeldRow(
                held,
                blow.force,
                blow.impulse,
                blow.work,
                after.slow_tension,
                after.ending,
                after.time_to_clear,
                blow.safety,
            )
        )
    return rows[0], rows[1]
