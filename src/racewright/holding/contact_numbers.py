"""The plain numbers that the plane's kernel works on."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


class LogNumbers(NamedTuple):
    """Axis half-length without the round ends [m], radius [m], inverse masses along, across [1/kg], inverse moment of
    inertia [1/(kg m2)], drag factors: along [kg/m], across per length [kg/m2], upright [kg/m]."""

    half: float
    radius: float
    along: float
    across: float
    spin: float
    drag_along: float
    drag_across: float
    drag_upright: float


class MachineNumbers(NamedTuple):
    """Corners, anticlockwise (n, 2) [m]; inverse masses surge, sway [1/kg], yaw [1/(kg m2)]; drag factors surge, sway
    [kg/m], yaw [kg m2]; linear tether stiffness (3, 3); law of the force along the stream: displacement, force."""

    corner: Floats
    inverse: Floats
    drag: Floats
    stiffness: Floats
    law_x: Floats
    law_force: Floats


class Contact(NamedTuple):
    """Spring stiffness [N/m], restitution [-], friction [-], stream speed [m/s]."""

    stiffness: float
    restitution: float
    friction: float
    stream: float


class Plane(NamedTuple):
    """All of one strike."""

    log: LogNumbers
    machine: MachineNumbers
    contact: Contact


class Steps(NamedTuple):
    """Fine and coarse step, longest time [s]; whether the run ends when the machine has swung back; stiffness [N/m]
    and fine step [s] of all touches after the first, 0 where they are as the first."""

    fine: float
    coarse: float
    until: float
    swing: bool
    later: float
    later_fine: float
