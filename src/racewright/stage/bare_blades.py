"""The blades of an open rotor, given as such rotors are published."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from racewright.errors import InputError
from racewright.stage.row_model import Slice

Floats = NDArray[np.float64]

_RANGES = {
    "chord": (1e-12, 100.0, "m"),
    "pitch": (-0.7, 1.55, "rad"),
    "thickness": (0.0, 0.5, ""),
    "zero_lift": (-0.26, 0.26, "rad"),
}


@dataclass(frozen=True)
class BareBlades:
    """Blades by radius, shape (n,) each, n >= 3, from the root at the hub to the tip.

    Attributes
    ----------
    count : int
        Blades, 1 or more.
    radius : ndarray
        Growing, > 0 [m].
    chord : ndarray
        > 0 [m].
    pitch : ndarray
        Angle of the chord line from the plane of rotation, -0.7 to 1.55 [rad].
    thickness : ndarray
        Thickness over chord, 0 to 0.5 [-].
    zero_lift : ndarray
        Angle of attack at which the section alone has no lift, negative for one that lifts at none, within
        0.26 [rad].

    Raises
    ------
    InputError
        A value is not finite, out of range, or the shapes differ.
    """

    count: int
    radius: Floats
    chord: Floats
    pitch: Floats
    thickness: Floats
    zero_lift: Floats

    def __post_init__(self) -> None:
        if isinstance(self.count, bool) or not isinstance(self.count, int) or self.count < 1:
            raise InputError(f"a rotor has 1 blade or more; found {self.count!r}", key="count")
        r = self.radius
        if r.ndim != 1 or r.size < 3 or not np.all(np.isfinite(r)) or r[0] <= 0.0 or np.any(np.diff(r) <= 0.0):
            raise InputError("must be three or more growing numbers above 0 m", key="radius")
        for key, (low, high, unit) in _RANGES.items():
            values = getattr(self, key)
            if values.shape != r.shape:
                raise InputError(f"has {values.size} values for {r.size} radii; give one for each", key=key)
            if not np.all((values >= low) & (values <= high)):
                raise InputError(f"must lie between {low:g} and {high:g} {unit}".rstrip(), key=key)

    def at(self, radius: Floats) -> BareBlades:
        """The blades at other radii between root and tip, by monotone cubics."""
        table = np.stack([self.chord, self.pitch, self.thickness, self.zero_lift], axis=1)
        chord, pitch, thickness, zero_lift = PchipInterpolator(self.radius, table)(radius).T
        return BareBlades(self.count, radius, chord, pitch, thickness, zero_lift)

    def sections(self, roughness: float) -> Slice:
        """Each section alone, chord along the axis; the arc whose zero-lift angle is the section's.

        A circular arc alone has no lift at the attack angle -camber/4 (exactly), so camber = -4 zero_lift.
        """
        nothing = np.zeros(self.radius.shape)
        return Slice(nothing, nothing, -4.0 * self.zero_lift, self.thickness, roughness / self.chord, nothing)
