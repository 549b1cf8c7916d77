"""Random machines that pass every check of their parts, for the tests and the proof of the solids."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import throat_x, wall_radius
from racewright.machine.given_row import SectionTable, given_row
from racewright.machine.hub import Hub
from racewright.machine.row import Row
from racewright.machine.row_ends import standing
from racewright.machine.row_fit import axial_gap, check_row_within
from racewright.machine.sections import FAMILIES


@dataclass(frozen=True)
class RandomMachine:
    """A machine, and how many draws were refused before it."""

    duct: Duct
    hub: Hub
    vanes: Row
    blades: Row
    refused: int


def random_solid_machine(seed: int) -> RandomMachine:
    """Throat 0.1 to 10 m across, area ratio 1.1 to 2.2, any family, 2 to 13 vanes, sweep and lean to 20 degrees.

    Drawn anew where a part, the rows' places or their gaps are refused.
    """
    draw = np.random.default_rng([31, seed])
    refused = 0
    while True:
        try:
            return RandomMachine(*_drawn(draw), refused)
        except InputError:
            refused += 1


def _drawn(draw: np.random.Generator) -> tuple[Duct, Hub, Row, Row]:
    throat = 0.05 * 100.0 ** draw.random()
    shaped = {"camber": draw.uniform(-0.1, 0.4), "lip": draw.uniform(0.6, 1.6)} if draw.random() < 0.4 else {}
    duct = Duct(throat, draw.uniform(1.1, 2.2), throat * draw.uniform(1.2, 2.5), draw.uniform(0.04, 0.2), **shaped)
    radius = throat * draw.uniform(0.15, 0.45)
    place = throat_x(duct) + throat * draw.uniform(-0.1, 0.15)
    chord = throat * draw.uniform(0.1, 0.4, 2)
    vanes_x, rotor_x = place - 0.6 * chord[0], place + 0.6 * chord[1]
    nose = draw.uniform(0.8, 3.0) * radius
    start = vanes_x - chord[0] - draw.uniform(0.0, 0.5) * nose
    length = rotor_x + chord[1] - start
    hub = Hub(radius, start - 0.5 * nose, nose, length, draw.uniform(1.5, 5.0) * radius)
    rows = [
        _row(draw, kind, duct, hub, x, one)
        for kind, x, one in (("vanes", vanes_x, chord[0]), ("blades", rotor_x, chord[1]))
    ]
    axial_gap(*rows)
    for row in rows:
        check_row_within(row, duct)
        standing(row, duct, hub, rooted=True)
    return duct, hub, rows[0], rows[1]


def _row(
    draw: np.random.Generator, kind: Literal["vanes", "blades"], duct: Duct, hub: Hub, x: float, chord: float
) -> Row:
    wall, sections = float(wall_radius(duct, x)), int(draw.integers(2, 7))
    radius = np.linspace(hub.radius, wall, sections)
    share, sign = np.linspace(0.0, 1.0, sections), 1.0 if kind == "vanes" else -1.0
    bowed = draw.uniform(-0.35, 0.35, 2) if draw.random() < 0.4 else np.zeros(2)
    table = SectionTable(
        radius,
        chord * (1.0 + share * draw.uniform(-0.4, 0.4)),
        sign * (draw.uniform(0.1, 0.8) + share * draw.uniform(-0.1, 0.5)),
        sign * draw.uniform(0.0, 0.8) * (1.0 - 0.6 * share),
        draw.uniform(0.05, 0.2) * (1.0 - 0.4 * share),
        bowed[0] * share,
        bowed[1] * share,
    )
    return given_row(
        table,
        kind=kind,
        count=int(draw.integers(2, 14)),
        place_x=x,
        hub_radius=hub.radius,
        wall_radius=wall,
        clearance=0.0 if kind == "vanes" else (wall - hub.radius) * draw.uniform(0.005, 0.04),
        family=list(FAMILIES)[int(draw.integers(len(FAMILIES)))],
    )
