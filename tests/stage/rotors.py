"""Invented rotors with closed-form answers."""

from __future__ import annotations

import numpy as np

from racewright.stage.rotor_map import RotorMap

RADIUS = 0.5
STARTING = 100.0
"""Torque over stream speed squared of the held rotor [N m s2/m2]."""
RUNAWAY = 4.0
"""Tip-speed ratio without torque [-]."""
AREA = 0.7


def straight_rotor(
    count: int = 41, fastest: float = 4.4, speeds: tuple[float, ...] = (0.25, 1.0, 2.0, 4.0)
) -> RotorMap:
    """Torque = 100 U^2 (1 - x/4): straight, so that the interpolation is exact and power peaks at x = 2.

    Thrust 400 U^2 (1 + x/10), roll moment 50 U^2 (x - 2), axial speed 1.2 U.
    """
    return shaped_rotor(lambda x: STARTING * (1.0 - x / RUNAWAY), count, fastest, speeds)


def humped_rotor(count: int = 81, speeds: tuple[float, ...] = (0.25, 1.0, 2.0, 4.0)) -> RotorMap:
    """Torque = U^2 (10 + 60 x) (1 - x/4): stalls below x = 1.9167, where its torque peaks."""
    return shaped_rotor(lambda x: (10.0 + 60.0 * x) * (1.0 - x / RUNAWAY), count, 4.4, speeds)


def shaped_rotor(coefficient, count: int, fastest: float, speeds: tuple[float, ...]) -> RotorMap:  # type: ignore[no-untyped-def]
    """A rotor of the given torque over stream speed squared; thrust, roll moment and flow as `straight_rotor`."""
    speed, x = np.array(speeds), np.linspace(0.0, fastest, count)
    square = speed[:, None] ** 2
    return RotorMap(
        speed,
        x,
        RADIUS,
        square * coefficient(x),
        square * 400.0 * (1.0 + 0.1 * x),
        square * 50.0 * (x - 2.0),
        1.2 * AREA * speed[:, None] * np.ones_like(x),
        AREA,
        np.ones((speed.size, x.size), dtype=bool),
    )
