"""How far the named forms of end-wall and tip loss differ at one state."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.stage.end_wall import END_WALLS, EndWall, angle_ratio
from racewright.stage.radial_equilibrium import over
from racewright.stage.row_flow import ReadyRow, RowFlow
from racewright.stage.solve import Solved
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]


def end_spread(stage: Stage, solved: Solved) -> tuple[Floats, Floats]:
    """Least and largest flow-averaged head lost at the rows' ends among the named forms, shape (p,) each [J/kg].

    Each form is asked at the same circulation and angles, those of the solved state.
    """
    rows = solved.trial.rows
    flow = rows.axial_speed * stage.annulus.area
    wheel = solved.rotor_speed[:, None] * stage.annulus.radius
    still = np.zeros_like(rows.swirl_in)
    turned = (rows.swirl_in - wheel) / rows.axial_speed
    lost = []
    for form in END_WALLS.values():
        total = np.zeros_like(flow)
        for row, found, speed, before in (
            (stage.vanes, rows.vanes, rows.vane_speed, still),
            (stage.blades, rows.blades, rows.axial_speed, turned),
        ):
            total = total + _head(form, row, found, speed, before)
        lost.append(over(total * flow) / rows.flow_rate)
    every = np.stack(lost)
    return np.min(every, axis=0), np.max(every, axis=0)


def _head(form: EndWall, row: ReadyRow, found: RowFlow, speed: Floats, before: Floats) -> Floats:
    mean = 0.5 * (before + found.tangent_out)
    drag = form(
        2.0 * found.response.circulation,
        row.sections.chord_over_pitch,
        row.span / row.chord,
        row.sections.gap,
        angle_ratio(before, found.tangent_out),
    )
    head: Floats = (
        0.5 * row.sections.chord_over_pitch * speed**2 * (1.0 + mean**2) ** 1.5 * (drag.tip + drag.secondary)
    )
    return head
