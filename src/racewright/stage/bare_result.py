"""What an open rotor does over tip-speed ratio."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class BareRotor:
    """An open rotor at m tip-speed ratios and n radii; coefficients are on the full circle of the tip.

    Attributes
    ----------
    tip_speed_ratio : ndarray, shape (m,)
        Omega R/U [-].
    power_coefficient, thrust_coefficient, torque_coefficient : ndarray, shape (m,)
        CP, CT, and CQ = CP/TSR, from the forces on the blades; the hub's drag is not in CT [-].
    power_low, power_high : ndarray, shape (m,)
        CP at the ends of its band: the row model's bands of drag and angle, each solved again, added as squares [-].
    thrust_low, thrust_high : ndarray, shape (m,)
        The same of CT [-].
    drag_loss, swirl_loss, mixing_loss : ndarray, shape (m,)
        Powers lost to section drag, left in the wake's swirl, and lost as the wake mixes with the stream, over
        rho A U^3/2; with CP they make up CT [-].
    energy_gap, moment_gap, thrust_gap : ndarray, shape (m,)
        Wake against blades, over rho A U^3/2, rho A R U^2/2, rho A U^2/2: stream power taken out less its
        parts; rotor torque less the wake's angular momentum; thrust less the wake's momentum [-].
    radius : ndarray, shape (n,)
        Where the blade is computed, between hub and tip, crowded towards both [m].
    chord : ndarray, shape (n,)
        [m]
    inflow_angle, attack_angle : ndarray, shape (m, n)
        Flow at the blade from the plane of rotation; from the chord line [rad].
    axial_induction, swirl_induction : ndarray, shape (m, n)
        a and a' at the blade: axial speed U(1 - a), tangential Omega r (1 + a') [-].
    loss_factor : ndarray, shape (m, n)
        Prandtl's F [-].
    axial_load, tangential_load : ndarray, shape (m, n)
        Force on one blade per length, along the stream and in the direction of rotation [N/m].
    reynolds : ndarray, shape (m, n)
        Chord Reynolds number [-].
    stalled : ndarray of bool, shape (m, n)
        The row model says stalled.
    turbulent_wake : ndarray of bool, shape (m, n)
        Axial induction above 0.4: the empirical relation answers instead of momentum theory.
    beyond_reach : ndarray of bool, shape (m,)
        Over a tenth of the annulus is loaded past the data behind that relation (a above 0.8).
    remarks : tuple of Remark
    """

    tip_speed_ratio: Floats
    power_coefficient: Floats
    thrust_coefficient: Floats
    torque_coefficient: Floats
    power_low: Floats
    power_high: Floats
    thrust_low: Floats
    thrust_high: Floats
    drag_loss: Floats
    swirl_loss: Floats
    mixing_loss: Floats
    energy_gap: Floats
    moment_gap: Floats
    thrust_gap: Floats
    radius: Floats
    chord: Floats
    inflow_angle: Floats
    attack_angle: Floats
    axial_induction: Floats
    swirl_induction: Floats
    loss_factor: Floats
    axial_load: Floats
    tangential_load: Floats
    reynolds: Floats
    stalled: Flags
    turbulent_wake: Flags
    beyond_reach: Flags
    remarks: tuple[Remark, ...]
