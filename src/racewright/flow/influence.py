"""What unit strengths do at targets, and how that changes when the target or a panel's ends move."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.kernels import ALL_RATES, cylinder_rows, panel_sums

Floats = NDArray[np.float64]

PSI, AXIAL, RADIAL = 0, 1, 2


@dataclass(frozen=True)
class Influence:
    """Kernel rows of sources at targets; columns are PSI, AXIAL, RADIAL.

    Attributes
    ----------
    rows : ndarray, shape (5 or more, targets, ...)
        In the order of `kernels.ALL_RATES`.
    radius : ndarray, shape (targets, ...)
        Radii of the targets, shaped to go with a row [length].
    """

    rows: Floats
    radius: Floats

    def value(self, column: int) -> Floats:
        """The column itself."""
        return np.asarray(self.rows[column])

    def by_target(self, column: int) -> Floats:
        """Its rate by the target's radius; that of psi is r times the axial speed."""
        return np.asarray(self.radius * self.rows[AXIAL] if column == PSI else self.rows[2 + column])


@dataclass(frozen=True)
class SheetInfluence(Influence):
    """Panels of constant strength whose ends move.

    Attributes
    ----------
    weighted : ndarray, shape (8, targets, panels)
        `rows` weighted by the place along the panel.
    turn : ndarray, shape (panels,)
        Rate of a panel's length by its second end's radius, over the length [1/length].
    """

    weighted: Floats
    turn: Floats

    def by_ends(self, column: int) -> tuple[Floats, Floats]:
        """Rates by the radii of the first and of the second end."""
        stretch = self.rows[column] * self.turn
        second = self.weighted[5 + column] + stretch
        return self.rows[5 + column] - self.weighted[5 + column] - stretch, second


def sheet_influence(x: Floats, r: Floats, sheet_x: Floats, sheet_r: Floats) -> SheetInfluence:
    """Influence at the targets of a sheet given by its nodes."""
    ends = np.column_stack([sheet_x[:-1], sheet_r[:-1], sheet_x[1:], sheet_r[1:]])
    sums = panel_sums(x, r, ends, ALL_RATES)
    step_x, step_r = np.diff(sheet_x), np.diff(sheet_r)
    return SheetInfluence(sums[0], r[:, None], sums[1], step_r / (step_x**2 + step_r**2))


@dataclass(frozen=True)
class CylinderInfluence(Influence):
    """A semi-infinite cylinder of unit strength; rows of shape (8, targets)."""

    def by_radius(self, column: int) -> Floats:
        """Rate by the cylinder's own radius."""
        return np.asarray(self.rows[5 + column])


def cylinder_influence(x: Floats, r: Floats, x0: float, radius: float) -> CylinderInfluence:
    """Influence at targets ahead of x0 of the cylinder that goes on from there; nothing for a radius of 0."""
    rows = np.zeros((8, x.size)) if radius == 0.0 else cylinder_rows(x, r, x0, radius, ALL_RATES)
    return CylinderInfluence(rows, r)
