"""Friction of the water on the duct's walls and the hub, from the solved surface speeds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.contours import inner_side
from racewright.flow.response import FlowsAt, FlowTable
from racewright.stage.friction import plate_friction, transition_reynolds
from racewright.stage.row_flow import STREAM_TURBULENCE

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Friction:
    """Friction at p points, shape (p,) each.

    Attributes
    ----------
    duct_load, hub_load : ndarray
        Flow-averaged head lost along the duct's inner wall and along the hub, over half the stream speed squared [-].
    outer_drag : ndarray
        Axial friction force on the duct's outer side over half rho U^2 times the annulus area [-].
    """

    duct_load: Floats
    hub_load: Floats
    outer_drag: Floats


class WallFriction:
    """Walls of one computed flow made ready; a flow without contours has no friction.

    Friction is that of a plate as long as the wall, at the speed whose cube is the mean cube along it, in turbulent
    water; the head it takes is the integral of cf rho V^3/2 over the wall through the flow past it. In the closure
    the speeds over the through-flow's stay those of the last solved load; the outer side keeps its last drag.
    """

    def __init__(self, table: FlowTable, roughness: float) -> None:
        flow = table.flow
        self._roughness = roughness
        self._area = flow.annulus_area
        self.none = flow.duct_x.size == 0
        if self.none:
            return
        inner = inner_side(flow.duct_x, flow.duct_r)[0].size - 1
        speed = np.abs(flow.duct_speed)
        through = flow.speed_ratio[:, None]
        pieces = (
            _Piece(flow.duct_x[: inner + 1], flow.duct_r[: inner + 1]),
            _Piece(flow.hub_x, flow.hub_r),
            _Piece(flow.duct_x[inner:], flow.duct_r[inner:]),
        )
        self._length = [piece.total for piece in pieces]
        speeds = (speed[:, :inner] / through, np.abs(flow.hub_speed) / through, speed[:, inner:])
        columns = [part for piece, v in zip(pieces, speeds, strict=True) for part in piece.integrals(v)]
        self._columns = table.of(np.stack(columns, axis=1))

    def at(self, flow: FlowsAt, stream_speed: Floats, viscosity: float) -> Friction:
        """Friction at p loads and stream speeds [m/s]."""
        if self.none:
            nothing = np.zeros_like(stream_speed)
            return Friction(nothing, nothing, nothing)
        value, u = self._columns(flow.head_coefficient), flow.speed_ratio
        duct = self._line(value[:, 0] * u * stream_speed, 0, viscosity) * value[:, 1] * u**2 / self._area
        hub = self._line(value[:, 3] * u * stream_speed, 1, viscosity) * value[:, 4] * u**2 / self._area
        outer = self._line(value[:, 6] * stream_speed, 2, viscosity) * value[:, 8] / self._area
        return Friction(duct, hub, outer)

    def _line(self, speed: Floats, piece: int, viscosity: float) -> Floats:
        length = self._length[piece]
        if length == 0.0:
            return np.zeros_like(speed)
        rough = np.full(speed.shape, self._roughness / length)
        return plate_friction(speed * length / viscosity, transition_reynolds(STREAM_TURBULENCE), rough)


class _Piece:
    """Panels of one wall."""

    def __init__(self, x: Floats, r: Floats) -> None:
        self.step = np.hypot(np.diff(x), np.diff(r))
        self.total = float(np.sum(self.step))
        self._area = np.pi * (r[1:] + r[:-1]) * self.step
        self._along = np.abs(np.diff(x)) / np.where(self.step > 0.0, self.step, 1.0)

    def integrals(self, speed: Floats) -> tuple[Floats, Floats, Floats]:
        """Cube-mean speed, integral of V^3 over the area, axial integral of V^2, by load."""
        if self.total == 0.0:
            nothing = np.zeros(speed.shape[0])
            return nothing, nothing, nothing
        mean = np.cbrt(np.sum(speed**3 * self.step, axis=1) / self.total)
        return mean, np.sum(speed**3 * self._area, axis=1), np.sum(speed**2 * self._area * self._along, axis=1)
