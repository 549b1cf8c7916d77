"""The hub body as a thing: closed nose and tail, cylinder between."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Hub:
    """A body of revolution on the axis: semi-ellipsoid nose, cylinder, semi-ellipsoid tail.

    Attributes
    ----------
    radius : float
        Radius of the cylinder, > 0 [m].
    nose_x : float
        Axial place of the nose tip, from the duct's leading edge [m].
    nose_length, cylinder_length, tail_length : float
        Lengths of the three parts, nose and tail > 0, cylinder >= 0 [m].
    """

    radius: float
    nose_x: float
    nose_length: float
    cylinder_length: float
    tail_length: float
