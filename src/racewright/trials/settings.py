"""Thresholds of the reduction, each with its default."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError


@dataclass(frozen=True)
class Settings:
    """Thresholds of the reduction. Every default is an own choice unless the theory note names a source.

    Attributes
    ----------
    cell : float
        Length of a cell, the time step of all series [s].
    block_cells : int
        Cells that are flagged together; every channel needs a whole number of readings in a block [-].
    window : float
        Length of a steady window; shorter than the 2 to 10 minutes of field tests, since model scale is faster [s].
    hop : float
        How far the search moves on after a refusal, over the window [-].
    speed_drift, rotor_drift, torque_drift : float
        Largest change along a window over its mean, beyond two standard errors of that change [-].
    speed_scatter, rotor_scatter, torque_scatter : float
        Largest standard deviation of cell means over their mean [-].
    halves : float
        Largest ratio of the variances of a window's two halves [-].
    flagged : float
        Largest share of flagged readings in any channel that the coefficients need [-].
    least_speed : float
        Below this the water counts as still [m/s].
    least_rotor : float
        Below this the rotor counts as standing [rad/s].
    follow : tuple of float or None
        Range, lowest and highest, of the share of the probe's turbulence that the machine's power follows. None
        leaves out both correction and uncertainty of the cube mean [-].
    confidence : float
        Of the intervals [-].
    """

    cell: float = 0.5
    block_cells: int = 20
    window: float = 60.0
    hop: float = 0.25
    speed_drift: float = 0.02
    rotor_drift: float = 0.01
    torque_drift: float = 0.05
    speed_scatter: float = 0.20
    rotor_scatter: float = 0.02
    torque_scatter: float = 0.30
    halves: float = 4.0
    flagged: float = 0.05
    least_speed: float = 0.1
    least_rotor: float = 0.1
    follow: tuple[float, float] | None = (0.0, 1.0)
    confidence: float = 0.95

    def __post_init__(self) -> None:
        """Refuse thresholds that cannot be met, or a window too short for a standard error."""
        for name, number in vars(self).items():
            if name != "follow" and not (math.isfinite(number) and number > 0.0):
                raise InputError(f"{name} is {number!r}; wanted a finite number above 0")
        if self.window_cells < 24 or abs(self.window / self.cell - self.window_cells) > 1e-6:
            raise InputError(f"a window of {self.window:g} s must be a whole number of cells, at least 24")
        if not (self.hop <= 1.0 and self.confidence < 1.0):
            raise InputError("hop must not pass 1 and confidence must stay below 1")
        if self.follow is not None and not 0.0 <= self.follow[0] <= self.follow[1] <= 1.0:
            raise InputError(f"follow is {self.follow!r}; wanted two rising fractions, e.g. (0, 1), or None")

    @property
    def window_cells(self) -> int:
        """Cells in a window."""
        return round(self.window / self.cell)
