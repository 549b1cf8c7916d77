"""Whether the lines can reach at all: their least stretch with the body in the water and no other load."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.line_segment import Segment
from racewright.holding.tether import Bridle

_STRETCH = 0.5
"""Strain beyond which a line of unknown strength counts as too short. Own choice [-]."""

_WALLS = (1.0, 30.0, 1000.0)
"""Stiffness of bed and surface at each point of the outline over that of the weakest line, raised in steps [-]."""


@dataclass(frozen=True, slots=True)
class Short:
    """The line that must stretch furthest for its strength.

    Attributes
    ----------
    name : str
    tension : float
        That the stretch alone makes [N].
    strength : float
        [N]
    """

    name: str
    tension: float
    strength: float


def shortest_line(layout: Layout, depth: float) -> Short | None:
    """The line that its own stretch breaks in still water, None when all of them can reach.

    Lines are taken straight and without weight, the body without weight and buoyancy but kept between bed and
    surface; the pose of least elastic energy is sought from the intended one.

    Parameters
    ----------
    layout : Layout
    depth : float
        Of the water [m].
    """
    paths = _paths(layout)
    outline = layout.body.outline
    anchor = np.array([p.anchor for p in paths])
    fairlead = np.array([p.fairlead for p in paths])
    length, flex = np.array([p.length for p in paths]), np.array([p.flexibility for p in paths])
    strength = np.array([p.strength for p in paths])
    unit = 1.0 / (flex * strength)
    top = max(depth, float(np.ptp(outline[:, 2])))
    size = layout.body.size

    def stretch(pose: Floats) -> tuple[Floats, Floats]:
        turn = Rotation.from_rotvec(pose[3:] / size).as_matrix()
        way = np.linalg.norm(pose[:3] + fairlead @ turn.T - anchor, axis=1)
        return np.maximum(way - length, 0.0), pose[2] + outline @ turn[2]

    def miss(pose: Floats, wall: float) -> Floats:
        pull, height = stretch(pose)
        out = np.maximum(0.0, np.maximum(-height, height - top))
        return np.concatenate([pull * np.sqrt(unit), out * math.sqrt(wall)])

    pose = np.concatenate([layout.position, np.array([0.0, 0.0, layout.yaw]) * size])
    for wall in _WALLS:
        given = (wall * float(unit.max()),)
        pose = least_squares(miss, pose, x_scale=size, args=given, max_nfev=100, xtol=1e-10).x
    tension = stretch(pose)[0] / flex
    place = int(np.argmax(tension / strength))
    if tension[place] <= strength[place]:
        return None
    return Short(paths[place].name, float(tension[place]), float(strength[place]))


@dataclass(frozen=True, slots=True)
class _Path:
    """From a fixed point to a fairlead, by a leg if there is one."""

    name: str
    anchor: tuple[float, float, float]
    fairlead: tuple[float, float, float]
    length: float
    flexibility: float
    strength: float


def _paths(layout: Layout) -> list[_Path]:
    found = []
    for tether in layout.tethers:
        ways: list[tuple[tuple[float, float, float], tuple[Segment, ...]]] = (
            [
                (p, tether.segments + leg)
                for p, leg in zip(tether.fairlead.fairleads, tether.fairlead.legs, strict=True)
            ]
            if isinstance(tether.fairlead, Bridle)
            else [(tether.fairlead, tether.segments)]
        )
        for point, segments in ways:
            length = sum(s.length for s in segments)
            flexibility = sum(s.length / s.stiffness for s in segments)
            strength = min(min(s.strength for s in segments), _STRETCH * length / flexibility)
            found.append(_Path(tether.name, tether.fixed.position, point, length, flexibility, strength))
    return found
