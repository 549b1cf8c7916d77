"""Row model "thin row": circular-arc theory in a row, friction-line drag, a stated stall.

Attached: circulation/(W c) = pi K sin(a + z camber)/cos(camber/4), a = stagger - mean angle; K the
flat-plate row factor and z the camber factor, both from the row's exact map. Alone (K = 1, z = 1/4) this is
the exact circular arc.

Stall (common practice, no source): the lift bends off from |a| = 8 degrees and holds the lift of 12
degrees; further out it falls with the cosine to zero at 90 degrees. Sections count as stalled from 10
degrees. Drag: friction of both sides x form factor x (1 + (a/10 deg)^2, a held as the lift is) plus 1.8 x
(sin^2 a - sin^2 8 deg), entered smoothly; 1.8 at 90 degrees is a plate across the stream (from memory,
Hoerner 1965 gives 1.98 for an endless plate, 1.2 for a square one).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.stage.camber_factor import camber_factor
from racewright.stage.friction import form_factor, rough_friction, smooth_friction, transition_reynolds
from racewright.stage.row_factor import row_factor
from racewright.stage.row_model import FittedRow, Inflow, Response, RowModel, Slice

Floats = NDArray[np.float64]

BEND = float(np.radians(8.0))
STALL = float(np.radians(10.0))
HOLD = float(np.radians(12.0))
PLATE_DRAG = 1.8
LOW_REYNOLDS = 2.0e5
"""Chord Reynolds number below which bands widen to +-30 % drag and +-2 degrees outlet angle [-]."""
GUIDED = 6
"""Power of (1 - A) that is the guided share of a stalled row. Own choice, no source."""
_ROUNDING = 0.03
_NO_CP = "thin-section theory has no thickness, so its leading-edge suction is infinite"


class ThinRow:
    """Sections made ready: `FittedRow` of the thin row."""

    def __init__(self, sections: Slice) -> None:
        self._sections = sections
        row = row_factor(sections.chord_over_pitch, sections.stagger)
        zero_lift = camber_factor(row.map_y, sections.stagger)
        self._slope = np.pi * row.factor / np.cos(0.25 * sections.camber)
        self._camber = zero_lift * sections.camber
        self._guided = (1.0 - row.transmission) ** GUIDED
        self._rough = rough_friction(sections.roughness)
        self._form = 2.0 * form_factor(sections.thickness)
        self._outside = (
            (np.abs(sections.camber) > np.radians(60.0))
            | (sections.thickness > 0.25)
            | (np.cosh(np.minimum(row.map_y, 50.0)) > 20.0)
            | (sections.roughness > 0.01)
        )

    def response(self, inflow: Inflow) -> Response:
        """Response as `FittedRow.response`."""
        angle = self._sections.stagger - inflow.mean_angle
        size = np.abs(angle)
        bent = np.where(size <= BEND, size, BEND + (HOLD - BEND) * np.tanh((size - BEND) / (HOLD - BEND)))
        fall = np.cos(0.5 * np.pi * np.maximum(size - HOLD, 0.0) / (0.5 * np.pi - HOLD))
        free = np.sin(np.sign(angle) * bent + self._camber) * fall
        guided = np.sin(angle + self._camber)
        circulation = self._slope * (self._guided * guided + (1.0 - self._guided) * free)
        friction = np.maximum(smooth_friction(inflow.reynolds, transition_reynolds(inflow.turbulence)), self._rough)
        apart = np.maximum(np.sin(np.minimum(size, 0.5 * np.pi)) ** 2 - np.sin(BEND) ** 2, 0.0)
        drag = self._form * friction * (1.0 + (bent / STALL) ** 2) + PLATE_DRAG * apart**2 / (apart + _ROUNDING)
        low = np.broadcast_to(np.asarray(inflow.reynolds) < LOW_REYNOLDS, size.shape)
        stalled = size > STALL
        extrapolated = (
            self._outside
            | np.broadcast_to(np.asarray(inflow.reynolds) < 1.0e4, size.shape)
            | (abs(inflow.axial_velocity_ratio - 1.0) > 0.1)
        )
        wide = low | stalled | extrapolated
        return Response(
            circulation,
            drag,
            None,
            _NO_CP,
            stalled,
            extrapolated,
            np.where(wide, 0.3, 0.15),
            np.radians(np.where(wide, 2.0, 1.0)),
        )

    def numbers(self) -> Floats:
        """Columns as `CompiledRow.numbers`; the chord is left to the row."""
        from racewright.stage import thin_row_kernel as kernel

        table = np.zeros((self._camber.size, kernel.COLUMNS))
        for column, values in (
            (kernel.SOLIDITY, self._sections.chord_over_pitch),
            (kernel.STAGGER, self._sections.stagger),
            (kernel.SLOPE, self._slope),
            (kernel.CAMBER, self._camber),
            (kernel.GUIDED, self._guided),
            (kernel.ROUGH, self._rough),
            (kernel.FORM, self._form),
            (kernel.OUTSIDE, self._outside),
        ):
            table[:, column] = values
        return table


class ThinRowModel:
    """`RowModel` of the thin row."""

    def fit(self, sections: Slice) -> FittedRow:
        """Row and camber factors of the sections."""
        return ThinRow(sections)


ROW_MODELS: dict[str, RowModel] = {"thin row": ThinRowModel()}
"""The named implementations of the row-model seam."""
