"""A line from a fixed point to the body, straight to a fairlead or by a bridle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.holding.checked import label, vector
from racewright.holding.line_segment import Segment
from racewright.machine.drive_checks import number

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class FixedPoint:
    """Where a line ends on land: an anchor on the bed, a bollard on a bank, a beam of a bridge.

    Attributes
    ----------
    position : tuple of float
        z counts from the bed under the machine [m].
    on : {'bed', 'bank', 'bridge'}
        From the bed the line may lie on the bed at the point's own height.
    uplift_limit : float
        Upward load that the point bears, >= 0; 0 for an anchor that wants a flat pull (the default), the weight under
        water for a dead weight, infinite for a pile, a plate or a wall [N].
    """

    position: Point
    on: Literal["bed", "bank", "bridge"] = "bed"
    uplift_limit: float = 0.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "position", vector("A fixed point's position", self.position))
        if self.on not in ("bed", "bank", "bridge"):
            raise InputError(f"A fixed point stands on '{self.on}'; wanted 'bed', 'bank' or 'bridge'.")
        if self.uplift_limit != math.inf:
            number("The uplift limit", self.uplift_limit, 0.0, 1e12, "N")


@dataclass(frozen=True, slots=True)
class Bridle:
    """Legs from the end of a line to fairleads on the body.

    Attributes
    ----------
    fairleads : tuple of tuple of float
        Two or more points, body axes [m].
    legs : tuple of tuple of Segment
        Segments of each leg, from the line's end to the fairlead.
    """

    fairleads: tuple[Point, ...]
    legs: tuple[tuple[Segment, ...], ...]

    def __post_init__(self) -> None:
        if len(self.fairleads) < 2 or len(self.fairleads) != len(self.legs) or not all(self.legs):
            raise InputError("A bridle wants two or more fairleads and segments for each leg.")
        object.__setattr__(self, "fairleads", tuple(vector("A bridle's fairlead", p) for p in self.fairleads))


@dataclass(frozen=True, slots=True)
class Tether:
    """One line: where it is fixed, what it is made of, where it meets the body.

    Attributes
    ----------
    name : str
        E.g. 'port bow'.
    fixed : FixedPoint
    segments : tuple of Segment
        From the fixed point up.
    fairlead : tuple of float or Bridle
        Body axes [m].
    drag_factor : float
        On the segments' drag, for a line that strums, 1 to 6, default 1 (not strumming) [-].
    purpose : {'tether', 'power cable'}
        A power cable is counted as a line but never as the line that is lost.
    """

    name: str
    fixed: FixedPoint
    segments: tuple[Segment, ...]
    fairlead: Point | Bridle
    drag_factor: float = 1.0
    purpose: Literal["tether", "power cable"] = "tether"

    def __post_init__(self) -> None:
        label("A tether's name", self.name)
        if not self.segments:
            raise InputError(f"The tether '{self.name}' has no segment.")
        number("The drag factor", self.drag_factor, 1.0, 6.0)
        if not isinstance(self.fairlead, Bridle):
            object.__setattr__(self, "fairlead", vector(f"The fairlead of '{self.name}'", self.fairlead))

    @property
    def length(self) -> float:
        """Unstretched, without the bridle's legs [m]."""
        return sum(s.length for s in self.segments)
