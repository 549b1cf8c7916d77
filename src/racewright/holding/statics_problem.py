"""A layout in a stream as a set of equations: pose and joints in, forces left over out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.holding.body_forces import body_numbers, forces, slopes, turned
from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.line_elements import elements_of
from racewright.holding.line_held import HeldLine
from racewright.holding.load_state import LoadState
from racewright.holding.statics_assembly import BODY, JOINT, LAND, gather
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle

_LEG_ELEMENTS = 6
"""Elements of a bridle's leg. Own choice [-]."""


@dataclass(slots=True)
class Pose:
    """Where everything stands: the body's origin and rotation (columns are body axes), the bridles' joints."""

    place: Floats
    turn: Floats
    joints: Floats

    def moved(self, step: Floats) -> Pose:
        """After a motion (6 + 3 joints): shift, small turn, shifts of joints."""
        turn = np.empty((3, 3))
        turned(self.turn, step[3], step[4], step[5], turn)
        return Pose(self.place + step[:3], turn, self.joints + step[6:].reshape(-1, 3))


@dataclass(slots=True)
class Balance:
    """What is left over at a pose: forces, their negative derivatives, and the load they are measured against."""

    total: Floats
    matrix: Floats
    load: float
    stream_force: Floats


@dataclass(frozen=True, slots=True)
class End:
    """One end of a piece of line: fixed at a point, at a body point, or at a joint."""

    meets: int
    point: Floats


class Problem:
    """Equations of one layout; stream and load state may be changed, lines keep their last answers.

    Attributes
    ----------
    lines : list of HeldLine
        Main lines in the layout's order, then the bridles' legs.
    owner : list of int
        Which tether each belongs to.
    """

    def __init__(self, layout: Layout, stream: Stream, state: LoadState) -> None:
        self.layout = layout
        self.size = layout.body.size
        self.lines: list[HeldLine] = []
        self.owner: list[int] = []
        self._ends: list[tuple[End, End]] = []
        legs: list[tuple[HeldLine, int, tuple[End, End]]] = []
        self.joint_count = 0
        for place, tether in enumerate(layout.tethers):
            bottom = End(LAND, np.array(tether.fixed.position))
            rows = elements_of(
                tether.segments, stream, drag_factor=tether.drag_factor, from_bed=tether.fixed.on == "bed"
            )
            top = End(BODY, np.zeros(3))
            if isinstance(tether.fairlead, Bridle):
                top = End(JOINT + self.joint_count, np.zeros(3))
                self.joint_count += 1
                for point, leg in zip(tether.fairlead.fairleads, tether.fairlead.legs, strict=True):
                    cut = elements_of(
                        leg, stream, drag_factor=tether.drag_factor, from_bed=False, count=_LEG_ELEMENTS
                    )
                    legs.append((HeldLine(cut, stream), place, (top, End(BODY, np.array(point)))))
            else:
                top = End(BODY, np.array(tether.fairlead))
            self._add(HeldLine(rows, stream), place, (bottom, top))
        for leg_line, place, ends in legs:
            self._add(leg_line, place, ends)
        count = len(self.lines)
        self._meets = np.array([[e.meets for e in pair] for pair in self._ends], dtype=np.int64)
        self._arm, self._force = np.zeros((count, 2, 3)), np.zeros((count, 2, 3))
        self._stiff = np.zeros((count, 2, 2, 3, 3))
        self._outline = np.ascontiguousarray(layout.body.outline)
        self.meet(stream, state)

    def _add(self, line: HeldLine, owner: int, ends: tuple[End, End]) -> None:
        self.lines.append(line)
        self.owner.append(owner)
        self._ends.append(ends)

    def meet(self, stream: Stream, state: LoadState) -> None:
        """Take another stream (of the same density and gravity) and load state."""
        self.stream, self.state = stream, state
        self._numbers = body_numbers(self.layout.body, stream)
        east, north = stream.direction
        self._flow = np.array([stream.speed, east, north, stream.reference_height, stream.power, stream.depth])
        self._table = state.coefficients
        for line in self.lines:
            line.meet(stream)

    def soften(self, stiffness: float) -> None:
        """Make every line softer for the search, see `HeldLine.soften`; infinite ends it [N]."""
        for line in self.lines:
            line.soften(stiffness)

    def start(self) -> Pose:
        """The intended pose; joints on the straight way from fixed point to fairleads."""
        yaw = self.layout.yaw
        turn = np.array([[np.cos(yaw), -np.sin(yaw), 0.0], [np.sin(yaw), np.cos(yaw), 0.0], [0.0, 0.0, 1.0]])
        place = np.array(self.layout.position)
        joints = []
        for tether in self.layout.tethers:
            if isinstance(tether.fairlead, Bridle):
                middle = place + turn @ np.mean(np.array(tether.fairlead.fairleads), axis=0)
                chord = np.array(tether.fixed.position) - middle
                leg = float(np.mean([sum(s.length for s in segments) for segments in tether.fairlead.legs]))
                joints.append(middle + chord * leg / max(leg + tether.length, float(np.linalg.norm(chord))))
        return Pose(place, turn, np.array(joints).reshape(-1, 3))

    def ends(self, line: int, pose: Pose) -> tuple[Floats, Floats]:
        """Lower and upper end of a line at a pose [m]."""
        low, high = (self._point(end, pose) for end in self._ends[line])
        return low, high

    def _point(self, end: End, pose: Pose) -> Floats:
        if end.meets == LAND:
            return end.point
        if end.meets == BODY:
            return np.asarray(pose.place + pose.turn @ end.point)
        return np.asarray(pose.joints[end.meets - JOINT])

    def reshaped(self, pose: Pose) -> bool:
        """Whether a line whose drag stood on its chord takes its own shape at this pose."""
        changed = [line.reshaped(*self.ends(i, pose)) for i, line in enumerate(self.lines)]
        return any(changed)

    def balance(self, pose: Pose) -> Balance | None:
        """Forces left over at a pose; None when a line has no answer, or no finite stiffness, there."""
        for i, line in enumerate(self.lines):
            low, high = self.ends(i, pose)
            if not line.reach(low, high):
                return None
            self._arm[i, 0], self._arm[i, 1] = low - pose.place, high - pose.place
            self._force[i], self._stiff[i] = line.force, line.stiff
        body_force, part = np.empty(6), np.empty(3)
        given = (self._numbers, self._outline, self._flow, self._table)
        forces(pose.place, pose.turn, np.zeros(6), *given, body_force, part)
        slope = slopes(pose.place, pose.turn, *given, self.size, False)
        total, matrix = gather(self._meets, self._arm, self._force, self._stiff, body_force, slope, self.joint_count)
        if not np.isfinite(matrix).all() or not np.isfinite(total).all():
            return None
        body = self.layout.body
        tightest = float(np.sqrt(np.max(np.sum(self._force**2, axis=2))))
        floor = 1e-3 * body.weight
        load = max(tightest, float(np.sqrt(part @ part)), abs(body.buoyancy - body.weight), floor)
        return Balance(total, matrix, load, part)

    def damping(self, pose: Pose) -> Floats:
        """-d force/d motion of the body in the stream, lines left out, shape (6, 6) [N s/m] and so on."""
        given = (self._numbers, self._outline, self._flow, self._table)
        return np.asarray(slopes(pose.place, pose.turn, *given, self.size, True))
