"""Loss by the leak through the gap at the tips."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

PLAIN_TIP = 0.47
"""B of a plain tip, Dunham & Came, J. Eng. Power 92 (1970) 252; from memory. A band makes it 0.37 [-]."""


def clearance_drag(circulation: Floats, chord_over_pitch: Floats, span_over_chord: Floats, gap: Floats) -> Floats:
    """Drag coefficient, spread over the span, that loses the head of Dunham & Came's clearance loss.

    Their Y = B (c/h)(k/c)^0.78 Z over the outlet's relative dynamic head, Z = (CL c/s)^2 cos^2 a2/cos^3 am,
    is the head lost by the drag CD = B (c/h)(k/c)^0.78 CL^2 (c/s) along the vector-mean velocity: the two
    angles cancel. Ainley & Mathieson's older form, B k/h with B 0.5, gives about half as much: the scatter
    is a factor of two.

    Parameters
    ----------
    circulation : ndarray
        Circulation / (W c); the lift coefficient is twice its size [-].
    chord_over_pitch, span_over_chord, gap : ndarray
        c/s, h/c and k/c [-].
    """
    lift = 2.0 * circulation
    drag: Floats = PLAIN_TIP / span_over_chord * gap**0.78 * lift**2 * chord_over_pitch
    return drag
