"""Loads on load, at runaway and with the rotor held: what the body must bear."""

from __future__ import annotations

from collections.abc import Callable

from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Column, Points, Table, Text
from racewright.dossier.text import clean
from racewright.stage.result import State


def write(states: tuple[State, ...]) -> tuple[Block, ...]:
    """The table of states, the largest loads in words, and what to know of single rows; empty without states."""
    if not states:
        return ()
    torque, thrust, roll = (
        _largest(states, pick) for pick in (lambda s: s.torque, lambda s: s.thrust, lambda s: s.roll_moment)
    )
    worst = Text(
        "The body and all that holds it must bear the largest of these, not the design point's: "
        f"roll moment {fmt.quantity(abs(roll.roll_moment), fmt.TORQUE)} ({_where(roll)}), "
        f"thrust {fmt.quantity(abs(thrust.thrust), fmt.FORCE)} ({_where(thrust)}), "
        f"shaft torque {fmt.quantity(abs(torque.torque), fmt.TORQUE)} ({_where(torque)}). "
        "They are steady values; gusts, sudden loss of load and debris come on top.",
        "safety",
    )
    notes = tuple(f"{_where(s)[0].upper()}{_where(s)[1:]}: {clean(s.remark)}" for s in states if s.remark.strip())
    return (_table(states), worst, *((Points(notes),) if notes else ()))


def _table(states: tuple[State, ...]) -> Table:
    columns = (
        Column("state", share=1.6),
        *(
            Column(n, "end", 1.1)
            for n in ("stream speed", "rotor speed", "shaft power", "torque", "thrust", "roll moment")
        ),
    )
    rows = tuple(
        (
            s.name if s.solved else f"{s.name}, estimate",
            fmt.fixed(s.stream_speed, fmt.SPEED, 2),
            fmt.quantity(s.rotor_speed, fmt.ROTATION),
            _figure(s.shaft_power, fmt.POWER),
            _figure(s.torque, fmt.TORQUE),
            _figure(s.thrust, fmt.FORCE),
            _figure(s.roll_moment, fmt.TORQUE),
        )
        for s in states
    )
    return Table(
        "States at the design speed and at the fastest water of the place. Runaway: the rotor turns free; "
        "held: it stands still.",
        columns,
        rows,
    )


def _figure(value: float, scales: tuple[fmt.Scale, ...]) -> str:
    """Three digits; what is below a thousandth of the smallest unit is nought."""
    return fmt.quantity(0.0 if abs(value) < 1e-3 else value, scales)


def _largest(states: tuple[State, ...], pick: Callable[[State], float]) -> State:
    return max(states, key=lambda s: abs(pick(s)))


def _where(state: State) -> str:
    return f"{state.name} at {fmt.fixed(state.stream_speed, fmt.SPEED, 2)}"
