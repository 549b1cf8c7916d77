"""One line between two points: tension, shape, stiffness, what lies on the bed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError, NoAnswerError
from racewright.holding.checked import Floats, vector
from racewright.holding.line_elements import elements_of
from racewright.holding.line_held import HeldLine
from racewright.holding.line_load import form_of, grounded_length, strum_of, tension_safety
from racewright.holding.line_march import DRAG, LENGTH, STIFFNESS
from racewright.holding.line_segment import Segment
from racewright.holding.line_strum import Strum
from racewright.holding.stream import Stream
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis

LINE_ELEMENTS = 96
"""Elements of a line computed by itself. Own choice: error of tension some 1e-4 where it hangs [-]."""
_BELOW = 0.01
"""Dip below the bed, over the length, from which it is told [-]."""


@dataclass(frozen=True, slots=True)
class LineShape:
    """A line between two fixed points. Tensions are slow ones, see `safety`.

    Attributes
    ----------
    form : {'taut', 'suspended', 'grounded', 'slack'}
        As `LineLoad.form`.
    method : {'closed form', 'elements'}
    points : ndarray, shape (n + 1, 3)
        From the lower end up [m].
    tension : ndarray, shape (n,)
        Between them [N].
    lower_force, upper_force : tuple of float
        Of the line on its ends [N].
    horizontal, vertical : float
        Horizontal and downward pull at the upper end [N].
    uplift : float
        Upward pull at the lower end [N].
    grounded_length : float
        [m]
    length, chord : float
        Unstretched length, distance of the ends [m].
    stiffness : ndarray, shape (3, 3)
        -d force/d place of the upper end [N/m].
    stored_energy : float
        Elastic, sum of tension^2 length/(2 EA) [J].
    utilisation : float
        Greatest tension over strength, no factor in it [-].
    strum : Strum
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    form: Literal["taut", "suspended", "grounded", "slack"]
    method: Literal["closed form", "elements"]
    points: Floats
    tension: Floats
    lower_force: tuple[float, float, float]
    upper_force: tuple[float, float, float]
    horizontal: float
    vertical: float
    uplift: float
    grounded_length: float
    length: float
    chord: float
    stiffness: Floats
    stored_energy: float
    utilisation: float
    strum: Strum
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def line(
    segments: tuple[Segment, ...],
    lower: ArrayLike,
    upper: ArrayLike,
    stream: Stream | None = None,
    *,
    on: Literal["bed", "bank", "bridge", "free"] = "bed",
    drag_factor: float = 1.0,
    elements: int = LINE_ELEMENTS,
    method: Literal["auto", "elements"] = "auto",
) -> LineShape:
    """Tension and shape of a line between two points.

    A uniform line under water without current has a closed form; everything else is marched in elements, with the
    current's drag (speed square to the line, squared), weight in air above the surface, and a bed without friction.

    Parameters
    ----------
    segments : tuple of Segment
        From the lower end up.
    lower, upper : array_like, shape (3,)
        Ends; z counts from the bed under the machine [m].
    stream : Stream, optional
        Default: still fresh water over both ends.
    on : {'bed', 'bank', 'bridge', 'free'}
        What the lower end stands on. From a bed the line may lie at its own height.
    drag_factor : float
        On the drag, for a line that strums, 1 to 6 [-].
    elements : int
        6 to 2000, all segments together.
    method : {'auto', 'elements'}
        'elements' leaves the closed form out.

    Raises
    ------
    InputError
        Values out of range.
    NoAnswerError
        No shape was found.

    Examples
    --------
    >>> from racewright.holding import Segment, line
    >>> chain = Segment("chain", 100.0, 0.05, 97.0, 97.0 / 7850.0, 1e12, 1e9, 2.4)
    >>> found = line((chain,), (0.0, 0.0, 0.0), (94.7959, 0.0, 25.0))
    >>> found.form, round(found.horizontal / 1e3, 1)
    ('grounded', 100.2)
    """
    if not segments:
        raise InputError("A line wants one segment or more.")
    if on not in ("bed", "bank", "bridge", "free") or method not in ("auto", "elements"):
        raise InputError(
            f"A line stands on 'bed', 'bank', 'bridge' or 'free', by 'auto' or 'elements'; found {on, method}."
        )
    number("The number of elements", elements, 6, 2000)
    number("The drag factor", drag_factor, 1.0, 6.0)
    low, high = np.array(vector("The lower end", lower)), np.array(vector("The upper end", upper))
    deep = float(max(low[2], high[2])) + 1.0
    if deep <= 0.01 and stream is None:
        raise InputError("Both ends lie below the bed; heights count from the bed upward.")
    water = stream if stream is not None else Stream(0.0, deep, deep)
    cut = elements_of(segments, water, drag_factor=drag_factor, from_bed=on == "bed", count=elements)
    held = HeldLine(cut, water)
    if method == "elements":
        held.closed_form = False
    if not held.reach(low, high):
        raise NoAnswerError("No shape of the line was found between its ends; check lengths, weights and places.")
    return _told(held, segments, low, high, water)


def _told(held: HeldLine, segments: tuple[Segment, ...], low: Floats, high: Floats, water: Stream) -> LineShape:
    rows, pull = held.elements.rows, held.peaks()
    share = pull / held.elements.strength
    nearest = segments[int(held.elements.segment[int(np.argmax(share))])]
    points = held.points(low, high)
    upper, lower = held.force[1], held.force[0]
    exact = held.closed_form and max(low[2], high[2]) <= water.depth
    return LineShape(
        form=form_of(held, low, high),
        method="closed form" if exact else "elements",
        points=points,
        tension=pull[::-1].copy(),
        lower_force=(float(lower[0]), float(lower[1]), float(lower[2])),
        upper_force=(float(upper[0]), float(upper[1]), float(upper[2])),
        horizontal=float(np.hypot(upper[0], upper[1])),
        vertical=-float(upper[2]),
        uplift=float(lower[2]),
        grounded_length=grounded_length(held),
        length=held.elements.length,
        chord=float(np.linalg.norm(high - low)),
        stiffness=held.stiff[1, 1].copy(),
        stored_energy=float(np.sum(pull**2 * rows[:, LENGTH] / (2.0 * rows[:, STIFFNESS]))),
        utilisation=float(share.max()),
        strum=strum_of(held, segments, low, high, water),
        remarks=_remarks(held, points, low, water),
        safety=tension_safety(nearest),
    )


def _remarks(held: HeldLine, points: Floats, low: Floats, water: Stream) -> tuple[Remark, ...]:
    found = []
    bed = float(low[2]) if held.elements.from_bed else 0.0
    dip = bed - float(points[:, 2].min())
    if dip > _BELOW * held.elements.length:
        text = f"The line dips {dip:.2g} m below the bed away from its lower end; contact there is left out."
        found.append(Remark("warning", text, "bed"))
    floats = float(points[1:-1, 2].max()) - water.depth if len(points) > 2 else 0.0
    if floats > _BELOW * held.elements.length and max(points[0, 2], points[-1, 2]) < water.depth:
        text = f"The line rises {floats:.2g} m out of the water between its ends; floating on it is left out."
        found.append(Remark("warning", text, "surface"))
    if not held.shaped and bool(np.any(held.elements.rows[:, DRAG] > 0.0)):
        found.append(
            Remark("note", "The shape in the current was not found; drag as on a straight line.", "line drag")
        )
    return tuple(found)
