"""What is wished of a layout as a whole, and the first wish that one of its poses does not meet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.statics_problem import Pose
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_sweep import Statics, at_rest, over_speeds
from racewright.holding.stream import Stream
from racewright.machine.drive_checks import number

Waters = tuple[tuple[Stream, Floats], ...]


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
    lost : bool
        With a tether gone, whatever holds in the layout as it is goes on holding.
    """

    bed_clearance: float = -np.inf
    cover: float = -np.inf
    roll: float = np.pi
    line_use: float = np.inf
    lost: bool = True

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
    is taut in the layout as it is.

    Parameters
    ----------
    layout : Layout
        As it is now.
    waters : tuple of (Stream, ndarray)
        Each with its growing speeds, shape (u,) [m/s]; a tether is lost in the first, at its last speed.
    states : tuple of LoadState
    wishes : Wishes
    lost : tuple of Statics
        Where it is already known how the layout does with each tether lost in the first water; asked here when empty.
    """

    def __init__(
        self,
        layout: Layout,
        waters: Waters,
        states: tuple[LoadState, ...],
        wishes: Wishes,
        lost: tuple[Statics, ...] = (),
    ) -> None:
        self.layout, self.waters, self.states = layout, waters, states
        self._wishes = wishes
        tethers = [t.name for t in layout.tethers if t.purpose == "tether"]
        gone = tethers if wishes.lost and len(tethers) > 1 else []
        self._order = [("", place, state) for place in range(len(waters)) for state in states]
        self._now = {(lost, at, state.name): self._points(layout, lost, at, state) for lost, at, state in self._order}
        known = {
            (table.lost, name): bool(table.feasible[s, -1]) for table in lost for s, name in enumerate(table.states)
        }
        for name in gone:
            for state in states:
                holds = known.get((name, state.name))
                if holds is None:
                    holds = all(point.feasible for point in self._points(layout, name, 0, state))
                if holds:
                    self._order.append((name, 0, state))

    def unmet(self, layout: Layout) -> str:
        """The first wish that fails with where it does, '' when all are met."""
        rests: dict[tuple[str, int], Pose | None] = {}
        for turn, (lost, place, state) in enumerate(self._order):
            used = layout.without(lost) if lost else layout
            if (lost, place) not in rests:
                rests[lost, place] = at_rest(used, self.waters[place][0])[1]
            before = iter(self._now.get((lost, place, state.name), ()))
            for point in self._each(used, lost, place, state, rests[lost, place]):
                why = self._after_loss(point) if lost else self._intact(point, next(before))
                if why:
                    self._order.insert(0, self._order.pop(turn))
                    where = f"in {state.name} at {point.stream_speed:.2f} m/s, {point.depth:.2f} m of water"
                    return f"{why} {where}" + (f", '{lost}' lost" if lost else "")
        return ""

    def _points(self, layout: Layout, lost: str, place: int, state: LoadState) -> tuple[Equilibrium, ...]:
        used = layout.without(lost) if lost else layout
        return tuple(self._each(used, lost, place, state, at_rest(used, self.waters[place][0])[1]))

    def _each(
        self, used: Layout, lost: str, place: int, state: LoadState, rest: Pose | None
    ) -> Iterator[Equilibrium]:
        stream, speeds = self.waters[place]
        return over_speeds(used, stream, state, speeds[-1:] if lost else speeds, rest)

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
