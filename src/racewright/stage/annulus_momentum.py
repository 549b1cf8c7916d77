"""Annuli of an open rotor: axial and angular momentum against the blades' forces, by the inflow angle.

At an inflow angle phi (from the plane of rotation) blade forces are known, so both induced speeds follow in
closed form and one equation in phi is left. With s = chord/pitch, cn and ct the force coefficients along the
axis and in the direction of rotation, F the loss factor, x = Omega r/U, a and a' the inductions at the blade:

    axial    F f(a) = s cn (1 - a)^2/sin^2 phi,   f = 4a(1 - a), above a = 0.4 the turbulent wake's parabola
    angular  4 F a'(1 - a) x = s ct (1 - a)^2/sin^2 phi
    angle    x sin phi/(1 - a) = cos phi/(1 + a')

With k = s cn/(4 F sin^2 phi), 1/(1 - a) = 1 + k up to k = 2/3 and 2/3 + sqrt(2k - 1/3) above, the inverse of
`flow.closure.open_speed`; 1/(1 + a') = 1 - s ct/(4 F sin phi cos phi). The angle's equation falls without bound
as phi falls to 0 (drag) and is positive at 90 degrees, so a root between is certain (as Ning, Wind Energy 17
(2014) 1327, shows for the momentum range; from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.stage.root import bracketed_root
from racewright.stage.row_model import FittedRow, Inflow, Response

Floats = NDArray[np.float64]

_FLATTEST = 1e-7
"""Least inflow angle looked at [rad]."""
_JOIN = 2.0 / 3.0
"""k at axial induction 0.4, where the two parts of f meet in value and slope."""


@dataclass(frozen=True)
class Annuli:
    """Solved annuli, shape (m, n) each: m tip-speed ratios, n radii.

    Attributes
    ----------
    inflow : ndarray
        Angle of the flow at the blade from the plane of rotation [rad].
    loss : ndarray
        Prandtl's factor F [-].
    slowing : ndarray
        1/(1 - a), > 0 [-].
    turning : ndarray
        1/(1 + a'), >= 0 [-].
    relative_speed : ndarray
        At the blade, over the stream speed [-].
    axial_force, tangential_force : ndarray
        cn and ct, over rho W^2 c/2 [-].
    response : Response
        Arrays of shape (m, n).
    """

    inflow: Floats
    loss: Floats
    slowing: Floats
    turning: Floats
    relative_speed: Floats
    axial_force: Floats
    tangential_force: Floats
    response: Response


def slowing(load: Floats) -> Floats:
    """1/(1 - a) at k = s cn/(4 F sin^2 phi); 0 where the blades would push the water faster than any speed."""
    heavy = 2.0 / 3.0 + np.sqrt(2.0 * np.maximum(load, _JOIN) - 1.0 / 3.0)
    return np.where(load <= _JOIN, np.maximum(1.0 + load, 0.0), heavy)


def disc_load(induction: Floats) -> Floats:
    """f(a), the thrust coefficient of an open disc at axial induction a below 1 [-]."""
    heavy = 8.0 / 9.0 - 4.0 / 9.0 * induction + 14.0 / 9.0 * induction**2
    return np.where(induction <= 0.4, 4.0 * induction * (1.0 - induction), heavy)


def solve_annuli(
    fitted: FittedRow,
    pitch: Floats,
    chord_over_pitch: Floats,
    speed_ratio: Floats,
    reynolds_scale: Floats,
    turbulence: float,
    loss_at: Callable[[Floats], Floats],
) -> Annuli:
    """Inflow angle of every annulus.

    Parameters
    ----------
    fitted : FittedRow
        Row model of the n sections alone, chord lines along the axis.
    pitch : ndarray, shape (n,)
        Angle of the chord lines from the plane of rotation [rad].
    chord_over_pitch : ndarray, shape (n,)
        [-]
    speed_ratio : ndarray, shape (m, n)
        x = Omega r/U, > 0 [-].
    reynolds_scale : ndarray, shape (n,)
        Stream speed x chord / viscosity [-].
    turbulence : float
        [-]
    loss_at : callable
        Loss factor at the sine of the inflow angle, shape (m, n).

    Raises
    ------
    NoAnswerError
        Blades without drag that stop the stream, or blades set so far back that they turn the other way.
    """

    def forces(inflow: Floats, speed: Floats) -> tuple[Response, Floats, Floats, Floats]:
        # A flow angle of minus the attack angle on a chord line along the axis: alone, only the difference counts.
        found = fitted.response(Inflow(pitch - inflow, speed * reynolds_scale, turbulence))
        lift, sine, cosine = 2.0 * found.circulation, np.sin(inflow), np.cos(inflow)
        axial = lift * cosine + found.profile_drag * sine
        return found, axial, lift * sine - found.profile_drag * cosine, loss_at(sine)

    def parts(inflow: Floats, speed: Floats) -> tuple[Floats, Floats]:
        _, axial, tangential, loss = forces(inflow, speed)
        sine, cosine = np.sin(inflow), np.cos(inflow)
        slow = slowing(chord_over_pitch * axial / (4.0 * loss * sine**2))
        return slow, cosine - chord_over_pitch * tangential / (4.0 * loss * sine)

    speed = np.sqrt(1.0 + speed_ratio**2)
    low, high = np.full(speed_ratio.shape, _FLATTEST), np.full(speed_ratio.shape, 0.5 * np.pi)
    for _ in range(40):
        held = speed

        def mismatch(inflow: Floats, held: Floats = held) -> Floats:
            slow, turn = parts(inflow, held)
            return speed_ratio * np.sin(inflow) * slow - turn

        if np.any(mismatch(low) >= 0.0) or np.any(mismatch(high) <= 0.0):
            raise NoAnswerError(
                "The blades stop the stream or turn the other way: no flow through the rotor was found."
            )
        inflow = bracketed_root(mismatch, low, high, tolerance=1e-15)
        slow, turn = parts(inflow, held)
        speed = 1.0 / (slow * np.sin(inflow))
        if np.max(np.abs(speed / held - 1.0)) < 1e-12:
            break
    else:
        raise NoAnswerError("Reynolds numbers and flow of the open rotor did not settle together.")
    found, axial, tangential, loss = forces(inflow, held)
    return Annuli(inflow, loss, slow, turn / np.cos(inflow), speed, axial, tangential, found)
