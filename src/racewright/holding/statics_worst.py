"""The worst slow tension of every line over all states and speeds, against its strength by limit state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_result import LineLoad, swung
from racewright.holding.statics_sweep import Statics
from racewright.safety import SafetyBasis

Case = Literal["intact", "one line lost"]


@dataclass(frozen=True, slots=True)
class Utilisation:
    """One tension against one wanted factor.

    Attributes
    ----------
    name : str
        Of the limit state.
    factor : float
        Wanted strength over slow tension [-].
    value : float
        Factor x tension/strength; above 1 is too much [-].
    wanted_strength : float
        Factor x tension [N].
    holds : bool
        `value` is 1 or less.
    source, edition : str
        Of the factor.
    """

    name: str
    factor: float
    value: float
    wanted_strength: float
    holds: bool
    source: str
    edition: str


@dataclass(frozen=True, slots=True)
class WorstLine:
    """The point where one line comes nearest to its strength.

    Attributes
    ----------
    name : str
    case : {'intact', 'one line lost'}
    lost : str
        Which tether is missing, '' when intact.
    state : str
    stream_speed : float
        [m/s]
    tension : float
        Greatest slow tension along the line there [N].
    strength : float
        Of the segment nearest to it [N].
    segment : str
    uplift : float
        Upward load on the fixed point there [N].
    utilisations : tuple of Utilisation
        One for each factor of this case.
    left_out : int
        Points of this case that did not settle: nothing is known of the line there.
    safety : SafetyBasis
    """

    name: str
    case: Case
    lost: str
    state: str
    stream_speed: float
    tension: float
    strength: float
    segment: str
    uplift: float
    utilisations: tuple[Utilisation, ...]
    left_out: int
    safety: SafetyBasis


def worst_lines(
    intact: Statics, lost: tuple[Statics, ...], factors: tuple[StrengthFactor, ...]
) -> tuple[WorstLine, ...]:
    """Worst point of each line, intact and with one line lost, against wanted factors.

    Parameters
    ----------
    intact : Statics
    lost : tuple of Statics
        Of `one_line_lost`; empty when that case is not asked.
    factors : tuple of StrengthFactor
        Wanted factors; each is applied to its own case.

    Returns
    -------
    tuple of WorstLine
        By line, intact first. A line that never settled in a case is left out there.
    """
    found = []
    cases: tuple[tuple[Case, tuple[Statics, ...]], ...] = (("intact", (intact,)), ("one line lost", lost))
    for name in intact.lines:
        for case, tables in cases:
            points = list(_points(tables, name))
            missing = sum(int((~t.settled).sum()) for t in tables if t.lost != name)
            if points:
                found.append(_worst(points, case, factors, missing))
    return tuple(found)


def _points(tables: tuple[Statics, ...], name: str) -> Iterator[tuple[LineLoad, str, str, float]]:
    for table in tables:
        for row in table.points:
            for point in row:
                if point.settled:
                    for line in point.lines:
                        if line.name == name:
                            yield line, table.lost, f"{point.state}{swung(point)}", point.stream_speed


def _worst(
    points: list[tuple[LineLoad, str, str, float]], case: Case, factors: tuple[StrengthFactor, ...], missing: int
) -> WorstLine:
    line, lost, state, speed = max(points, key=lambda p: (p[0].utilisation, p[0].tension))
    used = tuple(
        Utilisation(
            f.name,
            f.factor,
            f.factor * line.utilisation,
            f.factor * line.tension,
            f.factor * line.utilisation <= 1.0,
            f.source,
            f.edition,
        )
        for f in factors
        if f.case in (case, "both")
    )
    return WorstLine(
        line.name,
        case,
        lost,
        state,
        speed,
        line.tension,
        line.strength,
        line.segment,
        line.uplift,
        used,
        missing,
        line.safety,
    )
