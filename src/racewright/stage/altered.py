"""A stage with one of its causes of doubt moved: drag, outlet angles, flow through the duct."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from racewright.flow.response import FlowsAt, FlowTable
from racewright.flow.result import Axisymmetric
from racewright.stage.row_flow import ReadyRow, through_row
from racewright.stage.row_model import CompiledRow, FittedRow, Inflow, Response
from racewright.stage.solve import Solved
from racewright.stage.stage_ready import Stage
from racewright.stage.wall_friction import WallFriction

Floats = NDArray[np.float64]

_SMALL_TURN = 1e-4
_LEAST_FOLLOWED = 0.25


def with_drag(stage: Stage, end: float) -> Stage:
    """Section drag of both rows at an end of its band: -1 low, 1 high."""

    def dragged(row: ReadyRow) -> ReadyRow:
        return replace(row, fitted=_DragAt(row.fitted, end))

    return replace(stage, vanes=dragged(stage.vanes), blades=dragged(stage.blades))


def with_vanes_turned(stage: Stage, solved: Solved, sign: float) -> Stage:
    """Outlet angles of the vanes off by the row model's band, either way; `solved` is one point."""
    rows = solved.trial.rows
    angle = _turn(stage.vanes, rows.vanes.response, rows.vane_speed, np.zeros_like(rows.vane_speed), stage)
    return replace(stage, vanes=replace(stage.vanes, fitted=_TurnedTo(stage.vanes.fitted, sign * angle)))


def with_blades_turned(stage: Stage, solved: Solved, sign: float) -> Stage:
    """Outlet angles of the blades off by the row model's band, either way; `solved` is one point."""
    rows = solved.trial.rows
    before = (rows.swirl_in - solved.rotor_speed[:, None] * stage.annulus.radius) / rows.axial_speed
    angle = _turn(stage.blades, rows.blades.response, rows.axial_speed, before, stage)
    return replace(stage, blades=replace(stage.blades, fitted=_TurnedTo(stage.blades.fitted, sign * angle)))


def with_flow(stage: Stage, change: Callable[[FlowsAt], Floats]) -> Stage:
    """The speed ratio at every load as `change` gives it."""
    moved = _MovedFlow(stage.flow, change)
    return replace(stage, table=moved, friction=WallFriction(moved, stage.unit.roughness))


def _turn(row: ReadyRow, found: Response, speed: Floats, before: Floats, stage: Stage) -> Floats:
    """Angle by which the sections must be turned for their outlet angle to change by its band [rad]."""
    turned = replace(row, fitted=_TurnedTo(row.fitted, np.full(speed.shape[1], _SMALL_TURN)))
    viscosity = stage.water.viscosity
    out = [np.arctan(through_row(one, speed, before, viscosity).tangent_out)[0] for one in (row, turned)]
    followed = np.maximum((out[1] - out[0]) / _SMALL_TURN, _LEAST_FOLLOWED)
    angle: Floats = np.broadcast_to(found.angle_band, speed.shape)[0] / followed
    return angle


class _MovedFlow(FlowTable):
    """A flow whose speed at the rotor is changed at every load."""

    def __init__(self, flow: Axisymmetric, change: Callable[[FlowsAt], Floats]) -> None:
        super().__init__(flow)
        self._change = change

    def at(self, loads: Floats) -> FlowsAt:
        found = super().at(loads)
        return replace(found, speed_ratio=self._change(found))


class _DragAt:
    """Sections whose drag stands at an end of its band: -1 low, 0 as computed, 1 high."""

    def __init__(self, inner: FittedRow, end: float) -> None:
        self._inner, self._end = inner, end

    def response(self, inflow: Inflow) -> Response:
        found = self._inner.response(inflow)
        return replace(found, profile_drag=found.profile_drag * (1.0 + self._end * found.drag_band))

    def numbers(self) -> Floats | None:
        return _moved(self._inner, "DRAG", self._end)


class _TurnedTo:
    """Sections turned by an angle [rad]: seen from them, the mean flow is turned back by it."""

    def __init__(self, inner: FittedRow, angle: Floats) -> None:
        self._inner, self._angle = inner, angle

    def response(self, inflow: Inflow) -> Response:
        return self._inner.response(replace(inflow, mean_angle=inflow.mean_angle - self._angle))

    def numbers(self) -> Floats | None:
        return _moved(self._inner, "TURN", self._angle)


def _moved(inner: FittedRow, column: str, by: Floats | float) -> Floats | None:
    """Numbers of the inner row with one of them moved."""
    found = inner.numbers() if isinstance(inner, CompiledRow) else None
    if found is not None:
        from racewright.stage import thin_row_kernel as kernel

        found[:, getattr(kernel, column)] += by
    return found
