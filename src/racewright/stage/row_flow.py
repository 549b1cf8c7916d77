"""Flow through one row at many radii: mean angle, forces, turning."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.stage.root import rising_root
from racewright.stage.row_model import FittedRow, Inflow, Response, Slice
from racewright.stage.tip_loss import clearance_drag

Floats = NDArray[np.float64]

STREAM_TURBULENCE = 0.10
"""Turbulence that reaches the rows: rivers have 8 to 15 % (common practice, no source) [-]."""
_TOLERANCE = 2e-14


@dataclass(frozen=True)
class ReadyRow:
    """One row made ready at n radii: sections, fitted model, chord [m], blade or vane length [m]."""

    sections: Slice
    fitted: FittedRow
    chord: Floats
    span: float


@dataclass(frozen=True)
class RowFlow:
    """Flow through a row, shape (n,) each; forces are on the row, per annulus area and density.

    Attributes
    ----------
    tangent_out : ndarray
        Tangent of the relative flow angle behind the row [-].
    tangential_force, axial_force : ndarray
        [m2/s2]
    profile_loss, clearance_loss : ndarray
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
    reynolds: Floats
    response: Response


def turning(row: ReadyRow, axial_speed: Floats, tangent_mean: Floats, viscosity: float) -> Floats:
    """Change of the relative angle's tangent that lift and drag make at a given mean tangent [-]."""
    found, drag, clearance, _ = _coefficients(row, axial_speed, tangent_mean, viscosity)
    length = np.sqrt(1.0 + tangent_mean**2)
    change: Floats = (
        row.sections.chord_over_pitch * length * (found.circulation - 0.5 * (drag + clearance) * tangent_mean)
    )
    return change


def through_row(row: ReadyRow, axial_speed: Floats, tangent_in: Floats, viscosity: float) -> RowFlow:
    """Solve each section's mean angle and return its flow.

    The mean tangent t solves t - t_in - turning(t)/2 = 0, which rises through one root: lift falls as the
    mean angle passes the chord line, and drag only adds to the rise.

    Parameters
    ----------
    row : ReadyRow
    axial_speed : ndarray, shape (n,)
        [m/s]
    tangent_in : ndarray, shape (n,)
        Tangent of the relative angle before the row [-].
    viscosity : float
        [m2/s]
    """
    scale = 1.0 + np.abs(tangent_in)

    def mismatch(t: Floats) -> Floats:
        return (t - tangent_in - 0.5 * turning(row, axial_speed, t, viscosity)) / scale

    solidity = row.sections.chord_over_pitch
    t = rising_root(mismatch, tangent_in, scale / (1.0 + 1.3 * solidity), tolerance=_TOLERANCE)
    found, drag, clearance, reynolds = _coefficients(row, axial_speed, t, viscosity)
    length = np.sqrt(1.0 + t**2)
    dynamic = (axial_speed * length) ** 2 * solidity
    lift, total = dynamic * found.circulation, 0.5 * dynamic * (drag + clearance)
    cos_m, sin_m = 1.0 / length, t / length
    return RowFlow(
        2.0 * t - tangent_in,
        total * sin_m - lift * cos_m,
        total * cos_m + lift * sin_m,
        0.5 * dynamic * drag * length,
        0.5 * dynamic * clearance * length,
        reynolds,
        found,
    )


def _coefficients(
    row: ReadyRow, axial_speed: Floats, tangent_mean: Floats, viscosity: float
) -> tuple[Response, Floats, Floats, Floats]:
    reynolds = axial_speed * np.sqrt(1.0 + tangent_mean**2) * row.chord / viscosity
    found = row.fitted.response(Inflow(np.arctan(tangent_mean), reynolds, STREAM_TURBULENCE))
    clearance = clearance_drag(
        found.circulation, row.sections.chord_over_pitch, row.span / row.chord, row.sections.gap
    )
    return found, found.profile_drag, clearance, reynolds
