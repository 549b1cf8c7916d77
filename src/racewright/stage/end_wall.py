"""The end-wall and tip-loss seam: what a row loses at its ends, and the named forms that answer it.

Every form is a drag coefficient spread over the span. The published losses Y over the outlet's relative dynamic
head, with Z = (CL s^-1 c)^2 cos^2 a2/cos^3 am, are the head lost by the drag Y-factor x CL^2 c/s along the
vector-mean velocity: the two angles cancel.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

PLAIN_TIP = 0.47
"""B of a plain tip in Dunham & Came's form; a shroud band makes it 0.37 [-]."""
OLDER_PLAIN_TIP = 0.5
"""B of a plain tip in Ainley & Mathieson's form; a shroud band makes it 0.25 [-]."""
SECONDARY = 0.0334
"""Coefficient of Dunham & Came's secondary loss [-]."""
_WIDEST = 2.0


@dataclass(frozen=True)
class EndDrag:
    """Drag coefficients over rho W^2 c/2, spread over the span [-]: secondary flow at the end walls, tip leak."""

    secondary: Floats
    tip: Floats


class EndWall(Protocol):
    """A form of the losses at a row's ends."""

    def __call__(
        self, lift: Floats, chord_over_pitch: Floats, span_over_chord: Floats, gap: Floats, angle_ratio: Floats
    ) -> EndDrag:
        """Drag of both kinds.

        Parameters
        ----------
        lift : ndarray
            CL at the vector mean [-].
        chord_over_pitch, span_over_chord, gap : ndarray
            c/s, h/c and k/c [-].
        angle_ratio : ndarray
            cos(outlet angle) / cos(inlet angle), relative angles [-].
        """
        ...


def dunham_came(
    lift: Floats, chord_over_pitch: Floats, span_over_chord: Floats, gap: Floats, angle_ratio: Floats
) -> EndDrag:
    """Dunham & Came, J. Eng. Power 92 (1970) 252; from memory. Scatter: secondary 30 %, tip a factor of 2.

    Ys = 0.0334 (c/h)(cos a2/cos b1) Z; Yk = B (c/h)(k/c)^0.78 Z.
    """
    loading = lift**2 * chord_over_pitch / span_over_chord
    return EndDrag(SECONDARY * angle_ratio * loading, PLAIN_TIP * gap**0.78 * loading)


def ainley_mathieson(
    lift: Floats, chord_over_pitch: Floats, span_over_chord: Floats, gap: Floats, angle_ratio: Floats
) -> EndDrag:
    """Tip leak of Ainley & Mathieson, ARC R&M 2974 (1951), Yk = B (k/h) Z; from memory. No secondary loss."""
    loading = lift**2 * chord_over_pitch / span_over_chord
    return EndDrag(np.zeros_like(loading * angle_ratio), OLDER_PLAIN_TIP * gap * loading)


END_WALLS: dict[str, EndWall] = {"Dunham & Came": dunham_came, "Ainley & Mathieson": ainley_mathieson}
"""The named forms; the first is the default."""
DEFAULT_END_WALL = "Dunham & Came"


def angle_ratio(tangent_in: Floats, tangent_out: Floats) -> Floats:
    """cos(outlet)/cos(inlet) from the tangents, bent off from 2 towards 3, beyond which the form was not fitted."""
    ratio = np.sqrt((1.0 + tangent_in**2) / (1.0 + tangent_out**2))
    return np.where(ratio <= _WIDEST, ratio, _WIDEST + np.tanh(np.maximum(ratio, _WIDEST) - _WIDEST))
