"""A strike as it can be played: the blow over milliseconds, and the way of log and machine over seconds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.holding.strike_blow import Blow
from racewright.holding.strike_machine import blunt_outline, guarded_outline
from racewright.holding.strike_outcome import Outcome
from racewright.ledger.convert import duct_of
from racewright.ledger.holding_findings import StruckBy
from racewright.ledger.holding_things import said
from racewright.ledger.place_inputs import outer_radius
from racewright.ledger.roles import Roles

Floats = NDArray[np.float64]

ROWS = 240
"""Most rows of a way that are sent. Own choice."""
_PULSE = 60
"""Points of one blow. Own choice."""


@dataclass(frozen=True)
class StrikePulse:
    """Force of the first blow with one published contact.

    Attributes
    ----------
    name : str
        Of the contact.
    time, force : ndarray, shape (k,)
        Since the touch [s], at the place struck [N].
    """

    name: str
    time: Floats
    force: Floats


@dataclass(frozen=True)
class StrikeWay:
    """Where log and machine go at one friction, and the slow tension of the lines meanwhile.

    Attributes
    ----------
    friction : float
        [-]
    time : ndarray, shape (k,)
        Since the touch [s].
    log, machine : ndarray, shape (k, 2)
        Middles, x downstream and y left of the machine's place [m].
    log_turn, machine_turn : ndarray, shape (k,)
        [rad]
    tension : ndarray, shape (k,)
        Slow tension along the stream [N].
    """

    friction: float
    time: Floats
    log: Floats
    log_turn: Floats
    machine: Floats
    machine_turn: Floats
    tension: Floats


@dataclass(frozen=True)
class StrikePlay:
    """One log that strikes.

    Attributes
    ----------
    name, attitude : str
        'floating', 'upright' or 'submerged'.
    length, diameter : float
        Of the log [m].
    outline : ndarray, shape (n, 2)
        Of the machine from above about its middle [m].
    friction : float
        That the scheme gives the log [-].
    point, normal : tuple of float
        Of the first touch, and from machine to log; empty where the log passes by [m], [-].
    pulses : tuple of StrikePulse
        Softest contact first; empty where the log passes by.
    ways : tuple of StrikeWay
        By friction, of the frictions with a way.
    """

    name: str
    attitude: str
    length: float
    diameter: float
    outline: Floats
    friction: float
    point: tuple[float, ...]
    normal: tuple[float, ...]
    pulses: tuple[StrikePulse, ...]
    ways: tuple[StrikeWay, ...]


UNITS = {
    "StrikePulse": {"time": "s", "force": "N"},
    "StrikeWay": {
        "friction": "-", "time": "s", "log": "m", "log_turn": "rad", "machine": "m", "machine_turn": "rad",
        "tension": "N",
    },
    "StrikePlay": {
        "length": "m", "diameter": "m", "outline": "m", "friction": "-", "point": "m", "normal": "-",
    },
}  # fmt: skip


def plays(struck: tuple[StruckBy, ...], roles: Roles) -> tuple[StrikePlay, ...]:
    """What can be played of every log, in the order of `struck`.

    Parameters
    ----------
    struck : tuple of StruckBy
    roles : Roles
        Of the case: sizes of logs and machine are the scheme's.
    """
    duct, guard = duct_of({"machine.duct": roles.plain("machine.duct")}), roles.find("holding.guard")
    outer = outer_radius(duct)
    shape = blunt_outline(outer, duct.length) if guard is None else guarded_outline(outer, duct.length, guard)
    tables = {said(name): table for name, table in roles.plain("holding.strike").items()}
    return tuple(_play(one, tables[one.name], shape.corner) for one in struck)


def _play(one: StruckBy, table: dict[str, Any], outline: Floats) -> StrikePlay:
    touch = None if one.phases is None else one.phases.run.touch
    return StrikePlay(
        name=one.name,
        attitude=table["attitude"],
        length=table["length"],
        diameter=table["diameter"],
        outline=outline,
        friction=table["friction"],
        point=() if touch is None else touch.point,
        normal=() if touch is None else touch.normal,
        pulses=() if one.phases is None else tuple(_pulse(blow) for blow in one.phases.first.blows),
        ways=tuple(way for o in one.frictions.outcomes if (way := way_of(o)) is not None),
    )


def _pulse(blow: Blow) -> StrikePulse:
    from racewright.dossier.figures.strike_histories import pulse

    up = 0.5 * blow.half_period
    time = np.unique(np.append(np.linspace(0.0, blow.duration, _PULSE), min(up, blow.duration)))
    return StrikePulse(blow.stiffness.name, time, pulse(blow, time))


def way_of(outcome: Outcome) -> StrikeWay | None:
    """The way of one outcome in about `ROWS` rows, with those of greatest tension and shift; None without one."""
    run = outcome.run
    if run is None:
        return None
    end = run.time > run.trace_time[-1]  # the trace's last row stands a step before the end
    known = np.append(run.trace_time, [run.time] if end else [])
    logs = np.concatenate([run.trace_log, run.state[None, 0:3]]) if end else run.trace_log
    machines = np.concatenate([run.trace_machine, run.state[None, 6:9]]) if end else run.trace_machine
    rows = np.unique(np.linspace(0, known.size - 1, min(known.size, ROWS)).astype(int))
    furthest = int(np.argmax(np.hypot(run.trace_machine[:, 0], run.trace_machine[:, 1])))
    time = np.union1d(known[rows], [run.slow_time, known[furthest]])
    log, machine = _at(time, known, logs), _at(time, known, machines)
    tension = np.interp(time, run.trace_time, run.trace_tension)
    tension[np.searchsorted(time, run.slow_time)] = run.slow_tension.high
    return StrikeWay(outcome.friction, time, log[:, :2], log[:, 2], machine[:, :2], machine[:, 2], tension)


def _at(time: Floats, known: Floats, trace: Floats) -> Floats:
    """Columns of a trace at other times."""
    return np.stack([np.interp(time, known, column) for column in trace.T], axis=1)
