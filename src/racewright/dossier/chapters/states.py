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
    notes = _notes(states)
    speeds = sorted({s.stream_speed for s in states})
    tables = tuple(_table(tuple(s for s in states if s.stream_speed == u), u) for u in speeds)
    return (
        *tables,
        Text(_WHAT),
        worst,
        *((Points(notes),) if notes else ()),
    )


_WHAT = (
    "Runaway: the rotor turns free, without torque. Held: something stops it. Parked: as its own brake would hold "
    "it; the flow is the same. Clogged: that share of the passage is closed by debris ahead of the rows, and the "
    "rotor turns as its load lets it. Lowest pressure is that of the through-flow against the undisturbed water at "
    "the same depth; the sections' own suction comes on top."
)


def _table(states: tuple[State, ...], stream_speed: float) -> Table:
    names = ("rotor speed", "shaft power", "torque", "thrust", "roll moment", "flow rate", "lowest pressure")
    columns = (Column("state", share=1.7), *(Column(n, "end", 1.1) for n in names))
    rows = tuple(
        (
            s.name if s.solved else f"{s.name}, estimate",
            fmt.quantity(s.rotor_speed, fmt.ROTATION),
            _figure(s.shaft_power, fmt.POWER),
            _figure(s.torque, fmt.TORQUE),
            _figure(s.thrust, fmt.FORCE),
            _figure(s.roll_moment, fmt.TORQUE),
            fmt.quantity(s.flow_rate, fmt.DISCHARGE),
            _figure(s.lowest_pressure, fmt.PRESSURE),
        )
        for s in states
    )
    return Table(f"States in a stream of {fmt.fixed(stream_speed, fmt.SPEED, 2)}.", columns, rows)


def _notes(states: tuple[State, ...]) -> tuple[str, ...]:
    """Remarks, each once, with the states that it is said of."""
    said: dict[str, list[str]] = {}
    for state in states:
        if state.remark.strip():
            said.setdefault(clean(state.remark), []).append(state.name)
    return tuple(f"{_listed(list(dict.fromkeys(names)))}: {text}" for text, names in said.items())


def _listed(names: list[str]) -> str:
    text = ", ".join(names)
    return text[0].upper() + text[1:]


def _figure(value: float, scales: tuple[fmt.Scale, ...]) -> str:
    """Three digits; what is below a thousandth of the smallest unit is nought."""
    return fmt.quantity(0.0 if abs(value) < 1e-3 else value, scales)


def _largest(states: tuple[State, ...], pick: Callable[[State], float]) -> State:
    return max(states, key=lambda s: abs(pick(s)))


def _where(state: State) -> str:
    return f"{state.name} at {fmt.fixed(state.stream_speed, fmt.SPEED, 2)}"
