"""Random rows, fish and plates: the closed forms against brute force, at any count."""

from __future__ import annotations

import math

import numpy as np

from racewright.machine.row import Row
from racewright.passage.gap import free_opening, neighbours
from racewright.passage.strike_chance import strike_chance
from tests.external.passage_moving import struck_share

LEAST, MOST = 0.05, 0.95
"""Chances outside are not compared: a capped one says nothing, a small one wants more fish."""


def worst_strike(count: int, *, fish: int = 4000, steps: int = 3000, seed: int = 20270) -> tuple[float, float]:
    """Largest difference of closed form and moving blades over `count` random cases, and the mean one [-]."""
    draw = np.random.default_rng(seed)
    off: list[float] = []
    while len(off) < count:
        blades, turn = int(draw.integers(2, 9)), float(draw.uniform(0.0, 20.0))
        speed, radius = float(draw.uniform(0.8, 4.0)), float(draw.uniform(0.15, 1.0))
        length = float(draw.uniform(0.05, 0.6))
        width, edge = float(draw.uniform(0.0, 0.25)) * length, float(draw.uniform(0.0, 0.02))
        angle, swirl = float(draw.uniform(-0.6, 0.6)), float(draw.uniform(-1.5, 1.5))
        closed = float(
            strike_chance(
                blades,
                turn,
                speed,
                radius,
                length,
                swirl=swirl,
                body_angle=angle,
                body_width=width,
                edge_thickness=edge,
            )
        )
        if LEAST < closed < MOST:
            moved = struck_share(
                blades, turn, speed, radius, length, width, angle, swirl, edge, fish=fish, steps=steps, seed=len(off)
            )
            off.append(abs(closed / moved - 1.0))
    return max(off), float(np.mean(off))


def worst_plates(count: int, *, seed: int = 20271) -> float:
    """Largest difference of a plate row's opening and s cos b - t over `count` random overlapping rows [-]."""
    draw = np.random.default_rng(seed)
    radius, even, chord = np.linspace(5.0, 6.0, 4), np.ones(4), 3.0
    off: list[float] = []
    while len(off) < count:
        number, stagger = int(draw.integers(20, 61)), float(draw.uniform(-1.2, 1.2))
        thick = float(draw.uniform(0.02, 0.06))
        row = Row(
            "vanes", number, 0.5, radius, chord * even, stagger * even, 0.0 * even, thick / chord * even, 0.0,
            family="plate",
        )  # fmt: skip
        shapes, pitches = neighbours(row, np.array([5.5]))
        pitch = float(pitches[0])
        wanted = pitch * math.cos(stagger) - thick
        if wanted > 0.0 and pitch * abs(math.sin(stagger)) < 0.8 * chord:
            off.append(abs(free_opening(shapes[0], pitch) / wanted - 1.0))
    return max(off)
