"""Strain rates that a fish meets: in the open flow, and over its width at walls, sections and the free sheet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.contours import inner_side
from racewright.flow.result import Axisymmetric
from racewright.passage.lines import ThroughLines
from racewright.passage.species import strain_source, strain_width
from racewright.stage.result import OperatingPoint

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Strains:
    """Strain rates by place.

    Attributes
    ----------
    place : tuple of str
        'through-flow', 'walls', 'vanes', 'blades', 'free sheet'.
    rate : ndarray, shape (5,)
        Largest strain rate there [1/s].
    width : float
        Width over which a jump of speed is taken [m].
    source : str
        Where the width comes from.
    """

    place: tuple[str, ...]
    rate: Floats
    width: float
    source: str

    @property
    def largest(self) -> float:
        """The largest of all [1/s]."""
        return float(self.rate.max())


def strains(flow: Axisymmetric, point: OperatingPoint, lines: ThroughLines) -> Strains:
    """Strain rates at an operating point.

    In the through-flow the gradient of speed across and along the lines. At a wall, a section or the free sheet
    behind the duct the water's speed changes over less than a fish's width: there the jump of speed over 1.8 cm, as
    laboratory jets are told. A fish that keeps off them meets less.
    """
    speed = point.stream_speed
    place = np.broadcast_to(lines.x, lines.radius.shape)
    step = np.hypot(np.diff(place, axis=1), np.diff(lines.radius, axis=1))
    along = np.abs(np.diff(lines.speed, axis=1)) / step
    across = np.abs(np.diff(lines.speed, axis=0)) / np.diff(lines.radius, axis=0)
    smooth = speed * max(float(along.max()), float(across.max()))
    width = strain_width()
    inner = inner_side(flow.duct_x, flow.duct_r)[0].size - 1
    load = int(np.argmin(np.abs(flow.head_coefficient - lines.load)))
    walls = [np.abs(flow.duct_speed[load, :inner]).max()]
    if flow.hub_speed.shape[1]:
        walls.append(np.abs(flow.hub_speed[load]).max())
    found = point.triangles
    behind_vanes = np.hypot(found.axial_speed, found.swirl_in).max()
    on_blades = max(
        float(np.hypot(found.axial_speed, swirl - found.blade_speed).max())
        for swirl in (found.swirl_in, found.swirl_out)
    )
    sheet = np.abs(flow.wake_strength[load]).max() if flow.wake_strength.shape[1] else 0.0
    jumps = [speed * float(max(walls)), float(behind_vanes), on_blades, speed * float(sheet)]
    rate = np.array([smooth, *(jump / width for jump in jumps)])
    return Strains(("through-flow", "walls", "vanes", "blades", "free sheet"), rate, width, strain_source())
