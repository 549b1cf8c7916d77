"""The tethers as a strike feels them: stiffness, pretension, capacity."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import isfinite

import numpy as np

from racewright.errors import InputError
from racewright.holding.contact_numbers import Floats
from racewright.machine.drive_checks import filled, number

_ROUNDING = 1e-6
"""Coupling of surge with sway or yaw, over their own stiffnesses, that counts as none. Own choice [-]."""


def _none() -> Floats:
    return np.empty((0, 2))


@dataclass(frozen=True, slots=True)
class Tether:
    """Stiffness of all lines together about the machine's rest in the stream, in surge, sway and yaw.

    Parameters
    ----------
    stiffness : float or ndarray, shape (3, 3)
        Along the stream alone, or the whole matrix [N/m, N/rad, N m/rad].
    pretension : float
        Tension along the stream at rest, >= 0. Where surge stands alone, but for rounding, the line goes slack when
        it is used up; a coupled one holds both ways [N].
    capacity : float
        Tension along the stream at which the first link parts, > 0; infinite when not said [N].
    law : ndarray, shape (n, 2), optional
        Displacement downstream [m] and force that holds against it above the rest [N], growing, through (0, 0);
        takes the place of the stiffness along the stream.
    """

    stiffness: float | Floats
    pretension: float = 0.0
    capacity: float = float("inf")
    law: Floats = field(default_factory=_none)

    def __post_init__(self) -> None:
        number("The tether's pretension", self.pretension, 0.0, 1e9, "N")
        if not self.capacity > 0.0:
            raise InputError(f"the tether's capacity is {self.capacity!r} N; it must be above 0, e.g. 20000 N")
        whole = np.array(self.stiffness, dtype=np.float64)
        if whole.ndim == 0:
            whole = np.diag([float(whole), 0.0, 0.0])
        whole = filled("The tether's stiffness", whole, (3, 3))
        if whole[0, 0] <= 0.0 or not np.allclose(whole, whole.T, rtol=1e-6, atol=1e-9 * abs(whole).max()):
            raise InputError("the tether's stiffness must be symmetric, with more than 0 N/m along the stream")
        object.__setattr__(self, "stiffness", whole)
        law = np.array(self.law, dtype=np.float64)
        if law.size and not _is_law(law):
            raise InputError(
                "the tether's law wants rows of growing displacement and not falling force, with 0 at 0 m"
            )
        object.__setattr__(self, "law", law)

    @property
    def along(self) -> float:
        """Stiffness along the stream about the rest [N/m]."""
        x, force = self.law_rows()
        i = int(np.clip(np.searchsorted(x, 0.0, side="right") - 1, 0, x.size - 2))
        return float((force[i + 1] - force[i]) / (x[i + 1] - x[i]))

    def matrix(self) -> Floats:
        """The linear part, surge left out where a law rules it."""
        found = np.array(self.stiffness)
        found[0, 0] = 0.0
        return found

    def _coupled(self) -> bool:
        """Whether surge goes with sway or yaw by more than rounding; a turn is reckoned at an arm of 1 m at least."""
        whole = np.asarray(self.stiffness)
        own = np.sqrt(whole[0, 0] * np.maximum(np.diag(whole)[1:], whole[0, 0]))
        return bool(np.any(np.abs(whole[0, 1:]) > _ROUNDING * own))

    def law_rows(self) -> tuple[Floats, Floats]:
        """Displacement [m] and force above that at rest [N] along the stream."""
        if self.law.size:
            return self.law[:, 0].copy(), self.law[:, 1].copy()
        k = float(np.asarray(self.stiffness)[0, 0])
        if self._coupled():
            return np.array([-1.0, 0.0, 1.0]), np.array([-k, 0.0, k])
        if self.pretension == 0.0:
            return np.array([-1.0, 0.0, 1.0]), np.array([0.0, 0.0, k])
        slack = self.pretension / k
        return np.array([-slack - 1.0, -slack, 0.0, 1.0]), np.array([-self.pretension, -self.pretension, 0.0, k])


def _is_law(law: Floats) -> bool:
    if law.ndim != 2 or law.shape[1] != 2 or law.shape[0] < 2 or not np.all(np.isfinite(law)):
        return False
    growing = bool(np.all(np.diff(law[:, 0]) > 0.0) and np.all(np.diff(law[:, 1]) >= 0.0))
    held = law[0, 0] < 0.0 < law[-1, 0] and abs(float(np.interp(0.0, law[:, 0], law[:, 1]))) < 1e-9
    return growing and bool(held)


def front_tether(
    stiffness: float, pretension: float, length: float, fairlead_ahead: float, capacity: float = float("inf")
) -> Tether:
    """One line upstream: stretch along the stream, the pull's own stiffness across it.

    Parameters
    ----------
    stiffness : float
        Of the line, > 0 [N/m].
    pretension : float
        > 0 [N].
    length : float
        From anchor to fairlead, > 0 [m].
    fairlead_ahead : float
        Distance of the fairlead upstream of the machine's reference, >= 0 [m].
    capacity : float
        [N]
    """
    k = number("The line's stiffness", stiffness, 1.0, 1e9, "N/m")
    pull = number("The line's pretension", pretension, 0.0, 1e9, "N")
    across = pull / number("The line's length", length, 0.1, 1e4, "m")
    a = number("The fairlead's distance ahead", fairlead_ahead, 0.0, 100.0, "m")
    matrix = np.array([[k, 0.0, 0.0], [0.0, across, -a * across], [0.0, -a * across, a * pull + a * a * across]])
    return Tether(matrix, pull, capacity if isfinite(capacity) else float("inf"))
