"""Flow through one row at many radii: mean angle, forces, turning."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.stage.end_wall import END_WALLS, EndWall, angle_ratio
from racewright.stage.friction import transition_reynolds
from racewright.stage.root import rising_root
from racewright.stage.row_model import CompiledRow, FittedRow, Inflow, Response, Slice

Floats = NDArray[np.float64]

STREAM_TURBULENCE = 0.10
"""Turbulence that reaches the rows: rivers have 8 to 15 % (common practice, no source) [-]."""
_TOLERANCE = 2e-14
_TRANSITION = float(transition_reynolds(STREAM_TURBULENCE))


@dataclass(frozen=True)
class ReadyRow:
    """One row made ready at n radii: sections, fitted model, chord [m], blade or vane length [m], end losses.

    Attributes
    ----------
    sections : Slice
    fitted : FittedRow
    chord : ndarray, shape (n,)
        [m]
    span : float
        Hub to tip [m].
    end_wall : EndWall or None
        Losses at the ends; None leaves them out (a tip in open water).
    """

    sections: Slice
    fitted: FittedRow
    chord: Floats
    span: float
    end_wall: EndWall | None = None

    @cached_property
    def numbers(self) -> Floats | None:
        """Columns of `thin_row_kernel`, shape (n, COLUMNS); None where the model or the form of loss is another."""
        found = self.fitted.numbers() if isinstance(self.fitted, CompiledRow) else None
        if found is None or self.end_wall not in (None, *END_WALLS.values()):
            return None
        from racewright.stage import thin_row_kernel as kernel

        found[:, kernel.CHORD] = self.chord
        if self.end_wall is not None:
            one, sections = np.ones_like(self.chord), self.sections
            ends = self.end_wall(one, sections.chord_over_pitch, self.span / self.chord, sections.gap, one)
            found[:, kernel.TIP], found[:, kernel.SECONDARY] = ends.tip, ends.secondary
        return found


@dataclass(frozen=True)
class RowFlow:
    """Flow through a row, shape (n,) or (p, n) each; forces are on the row, per annulus area and density.

    Attributes
    ----------
    tangent_out : ndarray
        Tangent of the relative flow angle behind the row [-].
    tangential_force, axial_force : ndarray
        [m2/s2]
    profile_loss, clearance_loss, end_wall_loss : ndarray
        Relative total head lost, by the drag along the mean velocity [J/kg].
    reynolds : ndarray
        [-]
    response : Response
    """

    tangent_out: Floats
    tangential_force: Floats
    axial_force: Floats
    profile_loss: Floats
    clearance_loss: Floats
    end_wall_loss: Floats
    reynolds: Floats
    response: Response


def turning(
    row: ReadyRow, axial_speed: Floats, tangent_mean: Floats, viscosity: float, tangent_in: Floats | None = None
) -> Floats:
    """Change of the relative angle's tangent that lift and drag make at a given mean tangent [-].

    Without `tangent_in` the flow before the row is taken to be as steep as that behind it (end losses alone use it).
    """
    before = tangent_mean if tangent_in is None else tangent_in
    found, tip, secondary, _ = _coefficients(row, axial_speed, before, tangent_mean, viscosity)
    drag = found.profile_drag + tip + secondary
    length = np.sqrt(1.0 + tangent_mean**2)
    change: Floats = row.sections.chord_over_pitch * length * (found.circulation - 0.5 * drag * tangent_mean)
    return change


def through_row(
    row: ReadyRow, axial_speed: Floats, tangent_in: Floats, viscosity: float, guess: Floats | None = None
) -> RowFlow:
    """Solve each section's mean angle and return its flow.

    The mean tangent t solves t - t_in - turning(t)/2 = 0, which rises through one root: lift falls as the
    mean angle passes the chord line, and drag only adds to the rise.

    Parameters
    ----------
    row : ReadyRow
    axial_speed : ndarray, shape (n,) or (p, n)
        [m/s]
    tangent_in : ndarray, same shape
        Tangent of the relative angle before the row [-].
    viscosity : float
        [m2/s]
    guess : ndarray, same shape, optional
        Mean tangent to start from [-].
    """
    t = mean_tangent(row, axial_speed, tangent_in, viscosity, tangent_in if guess is None else guess)
    solidity = row.sections.chord_over_pitch
    found, tip, secondary, reynolds = _coefficients(row, axial_speed, tangent_in, t, viscosity)
    length = np.sqrt(1.0 + t**2)
    dynamic = (axial_speed * length) ** 2 * solidity
    lift, total = dynamic * found.circulation, 0.5 * dynamic * (found.profile_drag + tip + secondary)
    cos_m, sin_m = 1.0 / length, t / length
    return RowFlow(
        2.0 * t - tangent_in,
        total * sin_m - lift * cos_m,
        total * cos_m + lift * sin_m,
        0.5 * dynamic * found.profile_drag * length,
        0.5 * dynamic * tip * length,
        0.5 * dynamic * secondary * length,
        reynolds,
        found,
    )


def mean_tangent(row: ReadyRow, axial_speed: Floats, tangent_in: Floats, viscosity: float, guess: Floats) -> Floats:
    """Mean tangent of each section, by the kernel where the row has numbers for it; arguments as `through_row`."""
    if row.numbers is None:
        return mean_tangent_of_any(row, axial_speed, tangent_in, viscosity, guess)
    from racewright.stage.thin_row_kernel import mean_tangents

    shape = tangent_in.shape
    speed, before, start = (np.atleast_2d(np.ascontiguousarray(v)) for v in (axial_speed, tangent_in, guess))
    found: Floats = mean_tangents(row.numbers, speed, before, start, viscosity, _TRANSITION, _TOLERANCE)
    found = found.reshape(shape)
    if not np.all(np.isfinite(found)):
        raise NoAnswerError("The mean angle of a section did not change sign within a wide bracket.")
    return found


def mean_tangent_of_any(
    row: ReadyRow, axial_speed: Floats, tangent_in: Floats, viscosity: float, guess: Floats
) -> Floats:
    """The same by the model's own `response`."""
    scale = 1.0 + np.abs(tangent_in)

    def mismatch(t: Floats) -> Floats:
        return (t - tangent_in - 0.5 * turning(row, axial_speed, t, viscosity, tangent_in)) / scale

    step = scale / (1.0 + 1.3 * row.sections.chord_over_pitch)
    return rising_root(mismatch, guess, step, tolerance=_TOLERANCE)


def _coefficients(
    row: ReadyRow, axial_speed: Floats, tangent_in: Floats, tangent_mean: Floats, viscosity: float
) -> tuple[Response, Floats, Floats, Floats]:
    reynolds = axial_speed * np.sqrt(1.0 + tangent_mean**2) * row.chord / viscosity
    found = row.fitted.response(Inflow(np.arctan(tangent_mean), reynolds, STREAM_TURBULENCE))
    if row.end_wall is None:
        nothing = np.zeros_like(found.circulation)
        return found, nothing, nothing, reynolds
    ratio = angle_ratio(tangent_in, 2.0 * tangent_mean - tangent_in)
    ends = row.end_wall(
        2.0 * found.circulation, row.sections.chord_over_pitch, row.span / row.chord, row.sections.gap, ratio
    )
    return found, ends.tip, ends.secondary, reynolds
