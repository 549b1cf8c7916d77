"""What each kind of line would make of the hardest strike, were every tether of that kind and size."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from racewright.holding.layout import Layout
from racewright.holding.layout_lines import LineChoice
from racewright.holding.statics_result import Equilibrium
from racewright.holding.strike_slow import slow_response
from racewright.holding.strike_tether import Tether
from racewright.ledger.holding_findings import StiffnessTrade
from racewright.ledger.struck_findings import StruckBy


@dataclass(frozen=True)
class Holding:
    """A tether that holds against what drifts down on the machine.

    Attributes
    ----------
    name : str
    length : float
        Unstretched [m].
    along : float
        Cosine between its chord and the stream, above 0: a shift downstream stretches it [-].
    tension : float
        At rest [N].
    """

    name: str
    length: float
    along: float
    tension: float


def holding_against(layout: Layout, point: Equilibrium) -> tuple[Holding, ...]:
    """Tethers that a log which drifts down the stream pulls at, of a machine at rest with the stream along x.

    Those count that are not slack and whose upper end lies downstream of their lower one, at the slant at which they
    hang. Lines behind the machine, which it only lets go, and power cables do not. Own choice.

    Parameters
    ----------
    layout : Layout
        Names and lengths.
    point : Equilibrium
        Settled.
    """
    length = {tether.name: tether.length for tether in layout.tethers}
    found = []
    for line in point.lines:
        chord = line.shape[-1] - line.shape[0]
        along = float(chord[0] / np.linalg.norm(chord))
        if line.purpose == "tether" and line.form != "slack" and along > 0.0:
            found.append(Holding(line.name, length[line.name], along, line.tension))
    return tuple(found)


def stiffness_of_all(extension: float, lines: Iterable[Holding]) -> float:
    """Of straight lines of one EA [N] along the stream, side by side: EA c^2/L + T (1 - c^2)/L each [N/m]."""
    return sum((extension * one.along**2 + one.tension * (1.0 - one.along**2)) / one.length for one in lines)


def trade_of(
    choices: Iterable[LineChoice], lines: tuple[Holding, ...], hardest: StruckBy
) -> tuple[StiffnessTrade, ...]:
    """The hardest strike on each choice, all tethers that hold against it taken alike; empty where none does.

    Parameters
    ----------
    choices : iterable of LineChoice
    lines : tuple of Holding
    hardest : StruckBy
        That strikes.
    """
    if hardest.phases is None or not lines:
        return ()
    found = []
    for choice in choices:
        stiffness = stiffness_of_all(choice.stiffness, lines)
        tether = Tether(stiffness, hardest.pretension)
        slow = slow_response(hardest.log_mass, hardest.machine_mass, hardest.stream_speed, tether)
        travel = max(slow.plastic.travel, slow.elastic.travel)
        names = tuple(one.name for one in lines)
        found.append(StiffnessTrade(choice, names, stiffness, slow.tension, travel, hardest.phases.first.force))
    return tuple(found)
