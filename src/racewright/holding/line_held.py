"""A line between two points that move: forces and stiffness at both ends, from the last answer on."""

from __future__ import annotations

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.line_catenary import STRAIGHT, end_forces
from racewright.holding.line_elements import AT_ONCE, FROM_CHORD, SHAPED, Elements, first_tension, flow_of
from racewright.holding.line_march import DRAG, IN_WATER, STIFFNESS, hold
from racewright.holding.line_points import catenary_points
from racewright.holding.stream import Stream

_CHORD_ONCE = np.array([(1.0, 0.0)])
_CHORD_BLUNT = np.array([(times, 0.0) for times in (1e5, 1e4, 1e3, 1e2, 10.0)])
_TAUT = 0.97
"""Chord over length above which a line whose shape was not found is tried again [-]."""


class HeldLine:
    """One line of a search for equilibrium; keeps its last answer as the next start.

    Attributes
    ----------
    force : ndarray, shape (2, 3)
        Of the line on its lower and upper end [N].
    stiff : ndarray, shape (2, 2, 3, 3)
        -d force/d end [N/m].
    nodes : ndarray, shape (n + 1, 3)
        From the upper end down [m].
    pull : ndarray, shape (n,)
        Tension of the elements [N].
    shaped : bool
        The drag follows the line's own shape; False: it is that of the straight line between the ends.
    """

    def __init__(self, elements: Elements, stream: Stream) -> None:
        count = len(elements.rows)
        self.elements = elements
        self.force, self.stiff = np.zeros((2, 3)), np.zeros((2, 2, 3, 3))
        self.nodes, self.pull = np.zeros((count + 1, 3)), np.zeros(count)
        self.shaped = True
        self._form = STRAIGHT
        self._rows = elements.rows
        self._start: Floats | None = None
        self.meet(stream)

    def soften(self, stiffness: float) -> None:
        """Put a spring of this EA in series with every element, for the search; infinite takes it out again [N]."""
        self._rows = self.elements.rows.copy()
        self._rows[:, STIFFNESS] = 1.0 / (1.0 / self._rows[:, STIFFNESS] + 1.0 / stiffness)

    def meet(self, stream: Stream) -> None:
        """Take another stream; the last answer stays as the start."""
        rows = self.elements.rows
        self.stream, self._flow = stream, flow_of(stream)
        uniform = bool(np.all(rows == rows[0]))
        drifts = stream.speed > 0.0 and bool(np.any(rows[:, DRAG] > 0.0))
        self.closed_form = uniform and not drifts
        self._direction = np.array([*stream.direction, 0.0])
        self._fresh = True

    def reach(self, lower: Floats, upper: Floats) -> bool:
        """Fill force and stiffness for these ends; False when no answer was found.

        An upper end below the bed of its line (the body would lie there) takes that bed down with it; nothing pulls
        upright then.
        """
        if self.elements.from_bed and upper[2] <= lower[2]:
            found = self._reach(np.array([lower[0], lower[1], upper[2]]), upper)
            self.stiff[..., 2, :], self.stiff[..., :, 2] = 0.0, 0.0
            return found
        return self._reach(lower, upper)

    def _reach(self, lower: Floats, upper: Floats) -> bool:
        if self.closed_form and max(lower[2], upper[2]) <= self.stream.depth:
            return self._catenary(lower, upper)
        chord = upper - lower
        wind = self._wind(lower, upper)
        again = not self.shaped and self._fresh and float(np.sqrt(chord @ chord)) > _TAUT * self.elements.length
        self._fresh = False
        if self._start is not None and not again:
            held = self._search(lower, upper, self._start.copy(), wind, AT_ONCE if self.shaped else _CHORD_ONCE)
            if held:
                return True
        return self._from_nowhere(lower, upper, wind)

    def reshaped(self, lower: Floats, upper: Floats) -> bool:
        """Whether a line with drag on its chord takes its own shape here after all."""
        if self.shaped:
            return False
        self._from_nowhere(lower, upper, self._wind(lower, upper))
        return self.shaped

    def _wind(self, lower: Floats, upper: Floats) -> Floats:
        """Speed times speed square to the chord, at mid-height [m2/s2]."""
        chord = upper - lower
        wind = self._direction * self.stream.speed_at(0.5 * float(lower[2] + upper[2]))
        wind = wind - float(wind @ chord) / max(float(chord @ chord), 1e-18) * chord
        return np.asarray(wind * np.sqrt(wind @ wind))

    def _from_nowhere(self, lower: Floats, upper: Floats, wind: Floats) -> bool:
        guess = first_tension(lower, upper, self.elements, self.stream)
        self.shaped = False
        if not self._search(lower, upper, guess.copy(), wind, FROM_CHORD):
            return self._search(lower, upper, guess, wind, _CHORD_BLUNT)
        assert self._start is not None
        on_chord = self._start.copy()
        if self._search(lower, upper, on_chord.copy(), wind, SHAPED):
            self.shaped = True
            return True
        return self._search(lower, upper, on_chord, wind, _CHORD_ONCE)

    def _search(self, lower: Floats, upper: Floats, start: Floats, wind: Floats, stages: Floats) -> bool:
        """One search; its answer becomes the next start when it ends well."""
        found, *_ = hold(
            lower, upper, start, self._rows, self._flow, wind, stages, self.nodes, self.pull, self.force, self.stiff
        )
        if found:
            self._start = start
        return bool(found)

    def _catenary(self, lower: Floats, upper: Floats) -> bool:
        rows = self._rows
        chord = upper - lower
        apart = float(np.hypot(chord[0], chord[1]))
        run = max(apart, 1e-7 * self.elements.length)
        side = chord[:2] / run if apart > 0.0 else np.array([1.0, 0.0])
        weight, stiffness = float(rows[0, IN_WATER]), float(rows[0, STIFFNESS])
        h, v, xx, xz, zz, self._form, found = end_forces(
            run, float(chord[2]), self.elements.length, weight, stiffness, self.elements.from_bed
        )
        own = weight * self.elements.length
        low = max(v - own, 0.0) if self.elements.from_bed and weight > 0.0 else v - own
        if h == 0.0 and v == 0.0:
            low = 0.0
        # an almost upright line: its pull aside goes with the distance, `side` is shorter than 1 there
        self.force[1] = -h * side[0], -h * side[1], -v
        self.force[0] = h * side[0], h * side[1], low
        across = h / run
        self.stiff[1, 1] = _turned(side, xx, xz, zz, across) if apart == run else np.diag([across, across, zz])
        self.stiff[0, 0], self.stiff[0, 1], self.stiff[1, 0] = self.stiff[1, 1], -self.stiff[1, 1], -self.stiff[1, 1]
        share = (np.arange(len(rows)) + 0.5) / len(rows)
        upright = v - own * share
        if self.elements.from_bed and weight > 0.0:
            upright = np.maximum(upright, 0.0)
        self.pull[:] = np.hypot(h, upright)
        self.shaped = True
        self._start = np.array([h * side[0], h * side[1], v])
        return bool(found)

    def peaks(self) -> Floats:
        """Greatest tension of each element, from the upper end down: at its middle, or at an end of the line [N]."""
        found = self.pull.copy()
        found[0] = max(found[0], float(np.linalg.norm(self.force[1])))
        found[-1] = max(found[-1], float(np.linalg.norm(self.force[0])))
        return found

    def points(self, lower: Floats, upper: Floats) -> Floats:
        """Places along the line from its lower end up, shape (n + 1, 3) [m]."""
        if not self.closed_form or max(lower[2], upper[2]) > self.stream.depth:
            return self.nodes[::-1].copy()
        return catenary_points(lower, upper, self.elements, self._form, self.force[1])


def _turned(side: Floats, xx: float, xz: float, zz: float, across: float) -> Floats:
    """Stiffness in the plane of the line, turned to earth axes."""
    c, s = float(side[0]), float(side[1])
    return np.array(
        [
            [xx * c * c + across * s * s, (xx - across) * c * s, xz * c],
            [(xx - across) * c * s, xx * s * s + across * c * c, xz * s],
            [xz * c, xz * s, zz],
        ]
    )
