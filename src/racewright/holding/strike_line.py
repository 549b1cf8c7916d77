"""The line itself as the thing struck, and logs that come to lie across lines."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, sin, sqrt
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from racewright.holding.contact_numbers import Floats
from racewright.holding.strike_figure import SLOW, STRUCK_LINE, SafetyFigure
from racewright.machine.drive_checks import finite, number
from racewright.safety import SafetyBasis

Lying = Literal["clear of the lines", "swings off one line", "slides off the lines", "caught across lines"]


@dataclass(frozen=True, slots=True)
class LineStrike:
    """A log against a taut line.

    Attributes
    ----------
    first_force : float
        Across the line while the kink runs out along it, 2 v sqrt(T m'), m' the line's mass per length [N].
    deflection : float
        Greatest, at the place struck [m].
    line_force : float
        Across the line at greatest deflection [N].
    tension : SafetyFigure
        In the line at greatest deflection [N].
    parts : bool
        It passes the capacity.
    slides : bool
        The line's lean passes the angle of friction: the log slides along it.
    safety : SafetyBasis
        Of the forces across the line.
    """

    first_force: float
    deflection: float
    line_force: float
    tension: SafetyFigure
    parts: bool
    slides: bool
    safety: SafetyBasis


def line_strike(
    log_mass: float,
    speed: float,
    angle: float,
    tension: float,
    length: float,
    axial_stiffness: float,
    line_mass: float,
    *,
    place: float = 0.5,
    friction: float = 0.4,
    capacity: float = float("inf"),
) -> LineStrike:
    """A log that drives into a taut straight line between two points that do not give.

    Its energy across the line goes into T0 g y^2/2 + EA g^2 y^4/(8 L), g = 1/a + 1/b, a and b the parts of the line
    either side (own derivation, small angles). That the machine gives way lowers the tension and is left out.

    Parameters
    ----------
    log_mass : float
        With the water that moves with it, > 0 [kg].
    speed : float
        Of the log, > 0 [m/s].
    angle : float
        Between line and stream in plan, 0.01 to pi/2; pi/2 is square across [rad].
    tension : float
        Before, > 0 [N].
    length : float
        > 0 [m].
    axial_stiffness : float
        EA, > 0 [N].
    line_mass : float
        Per length, with added mass, > 0 [kg/m].
    place : float
        Of the blow along the line, 0.01 to 0.99 [-].
    friction : float
        0 to 1 [-].
    capacity : float
        Of the line's weakest link [N].
    """
    m = number("The log's mass", log_mass, 1e-3, 1e7, "kg")
    lean = number("The line's angle to the stream", angle, 0.01, 0.5 * np.pi, "rad")
    across = number("The log's speed", speed, 1e-6, 50.0, "m/s") * sin(lean)
    t0 = number("The line's tension", tension, 1e-3, 1e9, "N")
    span = number("The line's length", length, 0.1, 1e4, "m")
    ea = number("The line's axial stiffness", axial_stiffness, 1.0, 1e12, "N")
    mass = number("The line's mass per length", line_mass, 1e-4, 1e4, "kg/m")
    share = number("The place of the blow", place, 0.01, 0.99)
    g = 1.0 / (span * share * (1.0 - share))
    a, b = ea * g * g / (8.0 * span), 0.5 * t0 * g
    energy = 0.5 * m * across**2
    y = sqrt(2.0 * energy / (b + sqrt(b * b + 4.0 * a * energy)))
    high = t0 + ea * 0.5 * y * y * g / span
    figure = SafetyFigure(
        name="line tension",
        unit="N",
        low=high,
        value=high,
        high=high,
        safety=SafetyBasis("energy of the log across a taut line, ends held", "own formula", "closed form", SLOW),
    )
    across_line = SafetyBasis(
        "kink that runs out along the line, then the log's energy across it, ends held",
        "own formula",
        "closed form",
        STRUCK_LINE,
    )
    turned = 0.5 * np.pi - lean
    slides = turned > atan(number("Friction", friction, 0.0, 1.0))
    return LineStrike(2.0 * across * sqrt(t0 * mass), y, high * g * y, figure, high > capacity, slides, across_line)


@dataclass(frozen=True, slots=True)
class AcrossLines:
    """A lying log among lines.

    Attributes
    ----------
    lying : {'clear of the lines', 'swings off one line', 'slides off the lines', 'caught across lines'}
    met : int
        Lines met at the log's depth.
    lean : float
        Of the log at rest on two lines, from square across the stream; 0 else [rad].
    share : tuple of float
        Of the log's drag on the lower-y and the higher-y line it rests on; zeros unless caught [-].
    """

    lying: Lying
    met: int
    lean: float
    share: tuple[float, float]


def line_points(anchor: ArrayLike, fairlead: ArrayLike, depth: float) -> Floats:
    """Plan points where straight lines pass a depth.

    Parameters
    ----------
    anchor, fairlead : array_like, shape (n, 3)
        x downstream, y across, z up from the surface, so negative [m].
    depth : float
        Below the surface, >= 0 [m].

    Returns
    -------
    ndarray, shape (k, 2)
        One a line that reaches that depth; k <= n [m].
    """
    low, high = finite("The anchors", anchor).reshape(-1, 3), finite("The fairleads", fairlead).reshape(-1, 3)
    z = -number("The depth", depth, 0.0, 1e3, "m")
    rise = high[:, 2] - low[:, 2]
    level = np.abs(rise) < 1e-12
    share = (z - low[:, 2]) / np.where(level, 1.0, rise)
    met = ~level & (share >= 0.0) & (share <= 1.0)
    found: Floats = (low + share[:, None] * (high - low))[met, :2]
    return found


def across_lines(
    points: ArrayLike, length: float, diameter: float, heading: float, offset: float, *, friction: float = 0.4
) -> AcrossLines:
    """Whether a log that drifts down on lines stays there.

    On one line it stays only with its middle within friction times its radius of it, else it swings off. On two it
    stays with its middle between them, unless it rests so slanting that it slides along.

    Parameters
    ----------
    points : array_like, shape (n, 2)
        Of `line_points` at the log's depth [m].
    length, diameter : float
        Of the log, > 0 [m].
    heading, offset : float
        As `Strike` [rad], [m].
    friction : float
        0 to 1 [-].
    """
    half = 0.5 * number("The log's length", length, 0.1, 100.0, "m")
    margin = number("Friction", friction, 0.0, 1.0) * 0.5 * number("The log's diameter", diameter, 0.01, 10.0, "m")
    place = finite("The lines' points", points).reshape(-1, 2)
    reach = half * abs(sin(heading)) + 0.5 * diameter
    met = place[np.abs(place[:, 1] - offset) <= reach]
    if met.shape[0] == 0:
        return AcrossLines("clear of the lines", 0, 0.0, (0.0, 0.0))
    below, above = met[met[:, 1] <= offset], met[met[:, 1] > offset]
    if below.shape[0] and above.shape[0]:
        first, second = below[np.argmax(below[:, 1])], above[np.argmin(above[:, 1])]
        lean = float(np.arctan2(second[0] - first[0], second[1] - first[1]))
        if abs(np.tan(lean)) > friction:
            return AcrossLines("slides off the lines", met.shape[0], lean, (0.0, 0.0))
        share = float((offset - first[1]) / (second[1] - first[1]))
        return AcrossLines("caught across lines", met.shape[0], lean, (1.0 - share, share))
    nearest = float(np.min(np.abs(met[:, 1] - offset)))
    if nearest <= margin:
        return AcrossLines("caught across lines", met.shape[0], 0.0, (1.0, 0.0))
    return AcrossLines("swings off one line", met.shape[0], 0.0, (0.0, 0.0))
