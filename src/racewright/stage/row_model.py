"""The row-model seam: what a row of sections does to the flow, and the named models that answer it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, runtime_checkable

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.result import SectionState

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Slice:
    """Sections of one row, shape (n,) each. Angles from axial, positive in the direction of rotation.

    Attributes
    ----------
    chord_over_pitch : ndarray
        0 (the section alone) to 5 [-].
    stagger, camber : ndarray
        Angle of the chord line and turning of the circular-arc camber line [rad].
    thickness : ndarray
        Thickness over chord [-].
    roughness : ndarray
        Equivalent sand roughness over chord, 0 = smooth [-].
    gap : ndarray
        Tip clearance of the row over the chord here; for the end-wall and tip loss [-].
    """

    chord_over_pitch: Floats
    stagger: Floats
    camber: Floats
    thickness: Floats
    roughness: Floats
    gap: Floats

    def __post_init__(self) -> None:
        for name in ("chord_over_pitch", "stagger", "camber", "thickness", "roughness", "gap"):
            if not np.all(np.isfinite(getattr(self, name))):
                raise InputError(f"A slice's {name} must be numbers.")
        for name in ("chord_over_pitch", "thickness", "roughness", "gap"):
            if np.any(getattr(self, name) < 0.0):
                raise InputError(f"A slice's {name} is not negative.")


@dataclass(frozen=True)
class Inflow:
    """What reaches the sections, shape (n,) each or scalar.

    Attributes
    ----------
    mean_angle : ndarray
        Relative flow angle of the vector-mean velocity, tan = mean of the tangents before and behind [rad].
    reynolds : ndarray
        Mean relative speed x chord / kinematic viscosity [-].
    turbulence : float
        Root-mean-square fluctuation over mean speed, 0 to 0.3 [-].
    axial_velocity_ratio : float
        Axial speed behind over before the row [-].
    """

    mean_angle: Floats
    reynolds: Floats
    turbulence: float
    axial_velocity_ratio: float = 1.0


@dataclass(frozen=True)
class Response:
    """What the sections do, shape (n,) each. Deviation follows from circulation and is not given beside it.

    Attributes
    ----------
    circulation : ndarray
        Circulation / (W c), W the vector-mean relative speed; positive turns towards positive angles [-].
    profile_drag : ndarray
        Drag / (rho W^2 c/2), along W [-].
    cp_min : ndarray or None
        Lowest pressure coefficient over rho W^2/2, None where the model cannot say [-].
    cp_min_reason : str
        Why `cp_min` is None, else empty.
    stalled, extrapolated : ndarray of bool
        Beyond the stated lift limit; outside the model's stated range.
    drag_band : ndarray
        Relative half-width of the believed range of `profile_drag` [-].
    angle_band : ndarray
        Half-width of the believed range of the outlet angle [rad].
    """

    circulation: Floats
    profile_drag: Floats
    cp_min: Floats | None
    cp_min_reason: str
    stalled: Flags
    extrapolated: Flags
    drag_band: Floats
    angle_band: Floats

    @property
    def state(self) -> tuple[SectionState, ...]:
        """State of each section; stalled goes before extrapolated."""
        return tuple(
            "stalled" if s else "extrapolated" if e else "attached"
            for s, e in zip(self.stalled.tolist(), self.extrapolated.tolist(), strict=True)
        )


class FittedRow(Protocol):
    """A model made ready for given sections."""

    def response(self, inflow: Inflow) -> Response:
        """Response of the fitted sections; continuous in angle, never NaN."""
        ...


@runtime_checkable
class CompiledRow(FittedRow, Protocol):
    """A fitted row that the kernel of the thin row can answer for."""

    def numbers(self) -> Floats | None:
        """Columns of `thin_row_kernel`, end losses left at 0, shape (n, COLUMNS); None where it cannot after all."""
        ...


class RowModel(Protocol):
    """A way to find what sections in a row do."""

    def fit(self, sections: Slice) -> FittedRow:
        """Do once what depends on the sections alone."""
        ...


def response(model: RowModel, sections: Slice, inflow: Inflow) -> Response:
    """Response of `sections` to `inflow` by `model`; arguments and answer as in their classes."""
    return model.fit(sections).response(inflow)
