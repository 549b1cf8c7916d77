"""What is wished of a layout as a whole, and the first wish that one of its poses does not meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from racewright.holding.body import Point
from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.statics_problem import Pose
from racewright.holding.statics_result import Equilibrium, swung
from racewright.holding.statics_sweep import Followed, Statics, at_rest, over_speeds, table_of
from racewright.holding.stream import Stream
from racewright.machine.drive_checks import number

Waters = tuple[tuple[Stream, Floats], ...]
Key = tuple[str, int, str]
"""Tether that is lost or '', place of the water, name of the state."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """Limits that a layout keeps in every state and stream, all at once.

    Attributes
    ----------
    bed_clearance, cover : float
        Under the lowest and over the highest point, at least; -inf wishes nothing [m].
    roll : float
        At most, > 0 [rad].
    line_use : float
        Greatest slow tension over strength of any line, no factor in it; inf wishes nothing [-].
    """

    bed_clearance: float = -np.inf
    cover: float = -np.inf
    roll: float = np.pi
    line_use: float = np.inf

    def __post_init__(self) -> None:
        for name, value in (("bed clearance", self.bed_clearance), ("cover", self.cover)):
            if value != -np.inf:
                number(f"The wanted {name}", value, 0.0, 1e3, "m")
        number("The limit of roll", self.roll, 1e-4, np.pi, "rad")
        if self.line_use != np.inf:
            number("The most use of a line", self.line_use, 1e-6, 10.0)


class Wished:
    """Asks other sizes of a layout whether they meet the wishes, the point that failed last first.

    Beside the wishes themselves a size must settle, hold by the statics' own reasons, and leave every line taut that
    is taut in the layout as it is; with a tether lost whatever holds in the layout as it is goes on holding.

    Parameters
    ----------
    layout : Layout
        As it is now.
    waters : tuple of (Stream, ndarray)
        Each with its growing speeds, shape (u,) [m/s].
    states : tuple of LoadState
    wishes : Wishes
    centres : mapping of Point
        Where the drag of a state acts on the body, by the state's name; the body's own point where it is not told.
    lost_in : int
        A tether is lost in so many of the first waters, at their last speed; 0 asks none.
    lost : tuple of Statics
        Where it is already known how the layout does with a tether lost; asked here for all others.
    """

    def __init__(
        self,
        layout: Layout,
        waters: Waters,
        states: tuple[LoadState, ...],
        wishes: Wishes,
        *,
        centres: Mapping[str, Point] | None = None,
        lost_in: int = 1,
        lost: tuple[Statics, ...] = (),
    ) -> None:
        self.layout, self.waters, self.states = layout, waters, states
        self._wishes, self._centres = wishes, centres or {}
        tethers = [t.name for t in layout.tethers if t.purpose == "tether"]
        gone = tethers if len(tethers) > 1 else []
        self._poses: dict[Key, list[Pose | None]] = {}
        self._now: dict[Key, list[Equilibrium]] = {}
        self._order: list[tuple[str, int, LoadState]] = []
        for place in range(len(waters)):
            for state in states:
                self._ask_now("", place, state)
        known = {
            (t.lost, t.points[s][-1].heading, name): bool(t.feasible[s, -1])
            for t in lost
            for s, name in enumerate(t.states)
        }
        for name in gone:
            for place, (stream, _speeds) in enumerate(waters[:lost_in]):
                for state in states:
                    if known.get((name, stream.heading, state.name), True):
                        self._ask_now(name, place, state)

    def _ask_now(self, lost: str, place: int, state: LoadState) -> None:
        """The layout as it is; a case with a tether lost that does not hold now is not asked again."""
        key = (lost, place, state.name)
        ahead = self._poses.get((lost, 0, state.name))
        speeds = self._speeds(lost, place)
        starts = [ahead[-1] if ahead else None] * speeds.size
        found = list(self._each(self.layout, key, state, starts))
        if not lost or all(point.feasible for point, _pose in found):
            self._now[key] = [point for point, _pose in found]
            self._poses[key] = [pose for _point, pose in found]
            self._order.append((lost, place, state))

    def unmet(self, layout: Layout) -> str:
        """The first wish that fails with where it does, '' when all are met.

        Every search starts from the pose of the last size that met all, or of the layout as it is: a size whose pose
        is not found from there counts as one that does not hold.
        """
        met: dict[Key, list[Pose | None]] = {}
        for turn, (lost, place, state) in enumerate(self._order):
            key = (lost, place, state.name)
            poses = met.setdefault(key, [])
            before = iter(self._now[key])
            for point, pose in self._each(layout, key, state, self._poses[key], close=True):
                now = next(before)
                why = self._after_loss(point) if lost else self._intact(point, now)
                if why:
                    self._order.insert(0, self._order.pop(turn))
                    water = f"{point.stream_speed:.2f} m/s, {point.depth:.2f} m of water{swung(point)}"
                    return f"{why} in {state.name} at {water}" + (f", '{lost}' lost" if lost else "")
                poses.append(pose)
        self._poses.update(met)
        return ""

    def table(self, layout: Layout) -> Statics:
        """Statics of a size that met all wishes, in the first water."""
        stream, speeds = self.waters[0]
        points = []
        for state in self.states:
            key = ("", 0, state.name)
            points.append(tuple(point for point, _pose in self._each(layout, key, state, self._poses[key])))
        names, lines = tuple(s.name for s in self.states), tuple(t.name for t in layout.tethers)
        return table_of("", names, lines, speeds, at_rest(layout, stream)[0], tuple(points))

    def _speeds(self, lost: str, place: int) -> Floats:
        speeds = self.waters[place][1]
        return speeds[-1:] if lost else speeds

    def _each(
        self, layout: Layout, key: Key, state: LoadState, starts: Sequence[Pose | None], *, close: bool = False
    ) -> Iterator[Followed]:
        lost, place, _name = key
        used = layout.without(lost) if lost else layout
        if state.name in self._centres:
            used = replace(used, body=replace(used.body, drag_centre=self._centres[state.name]))
        stream, speeds = self.waters[place][0], self._speeds(lost, place)
        return over_speeds(used, stream, state, speeds, None, starts=starts, close=close)

    def _intact(self, point: Equilibrium, now: Equilibrium) -> str:
        wishes = self._wishes
        if not point.feasible:
            return f"it does not hold ({point.reasons[0].code})"
        if point.bed_clearance < wishes.bed_clearance:
            return f"only {point.bed_clearance:.2f} m over the bed"
        if point.cover < wishes.cover:
            return f"only {point.cover:.2f} m of cover"
        if abs(point.roll) > wishes.roll:
            return f"a roll of {np.degrees(abs(point.roll)):.1f} degrees"
        for line, was in zip(point.lines, now.lines or point.lines, strict=True):
            if was.form == "taut" and line.form != "taut":
                return f"'{line.name}' no longer taut"
            if line.utilisation > wishes.line_use:
                return f"'{line.name}' at {100 * line.utilisation:.0f} % of its strength"
        return ""

    @staticmethod
    def _after_loss(point: Equilibrium) -> str:
        return "" if point.feasible else f"it no longer holds ({point.reasons[0].code})"
