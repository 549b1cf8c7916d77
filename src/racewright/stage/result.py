"""What the stage returns: triangles, losses, an operating point, curves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.stage.parts import Forces, HubCore, OutsideBook
from racewright.uncertainty import Band

Floats = NDArray[np.float64]
SectionState = Literal["attached", "stalled", "extrapolated"]


@dataclass(frozen=True)
class Triangles:
    """Velocity triangles at `n` radii, hub to tip. Angles from axial, positive in the direction of rotation.

    Attributes
    ----------
    radius, blade_speed, axial_speed : ndarray, shape (n,)
        Radius [m], blade speed Omega r [m/s], axial speed [m/s].
    swirl_in, swirl_out : ndarray, shape (n,)
        Swirl speed between vanes and rotor, and behind the rotor [m/s].
    vane_exit_angle, relative_angle_in, relative_angle_out : ndarray, shape (n,)
        Flow angles [rad].
    """

    radius: Floats
    blade_speed: Floats
    axial_speed: Floats
    swirl_in: Floats
    swirl_out: Floats
    vane_exit_angle: Floats
    relative_angle_in: Floats
    relative_angle_out: Floats


@dataclass(frozen=True)
class Losses:
    """Where the stage's head goes, each a flow-averaged head over half the stream speed squared [-]."""

    vane_profile: float
    blade_profile: float
    tip_clearance: float
    exit_swirl: float
    """Kinetic energy of the swirl that leaves: paid by the stream, not part of the head drop."""
    end_wall: float
    """Secondary flow at the end walls of both rows."""
    ends_low: float
    """End walls and tips together by the most lenient of the named forms, at the same state."""
    ends_high: float
    """End walls and tips together by the severest."""


@dataclass(frozen=True)
class OperatingPoint:
    """One operating point of the machine.

    Attributes
    ----------
    stream_speed, rotor_speed : float
        U [m/s], Omega [rad/s].
    tip_speed_ratio, head_coefficient, speed_ratio : float
        Omega R/U, CH that the rows take (the flow itself sees `load`), u [-].
    flow_rate : float
        Q through the rotor [m3/s].
    head_drop : float
        Flow-averaged total-head drop across the stage per unit mass [J/kg].
    torque, shaft_power, thrust : float
        Rotor torque [N m], shaft power before gear and generator [W], total axial force on rotor, vanes,
        duct and hub [N].
    power_coefficient, thrust_coefficient : float
        Shaft power and total thrust over rho A U^3/2 and rho A U^2/2 on the rotor annulus area [-].
    exit_power_coefficient : float
        Shaft power coefficient on the duct's exit area [-].
    hydraulic_efficiency : float
        Shaft power / (rho dh Q) [-].
    roll_moment : float
        rho Q K_exit, flow-averaged: the moment that the body must bear [N m].
    swirl_exit : float
        Flow-averaged K = r Cth behind the rotor [m2/s].
    triangles : Triangles
    losses : Losses
    blade_reynolds, vane_reynolds : ndarray, shape (n,)
        Chord Reynolds numbers [-].
    vane_state, blade_state : tuple of {'attached', 'stalled', 'extrapolated'}
        State of the sections.
    band : Band
        Shaft power with its prior band [W].
    converged : bool
        True when head drop and flow agree.
    residual : float
        Mismatch of the load at the end [-].
    remarks : tuple of Remark
    load : float
        L, what the free sheet sees: CH of the rows + `friction_load` + `swirl_load` + `debris_load` [-].
    friction_load : float
        Head lost along the duct's inner wall and the hub over half the stream speed squared [-].
    swirl_load : float
        (K/(r_s U))^2, K = r Cth along the hub behind the rotor, r_s the radius of the duct's trailing edge [-].
    debris_load : float
        Head lost in debris ahead of the rows over half the stream speed squared [-].
    flow_state : {'solved', 'closure'}
        Whether the load lies where the flow was solved or above, where a stated closure answers.
    forces : Forces
        Axial force on each part; they add up to `thrust`.
    hub_core : HubCore
    lowest_pressure : float
        Least static pressure of the through-flow relative to the undisturbed one at the same depth, the sections'
        own suction left out [Pa].
    book : OutsideBook
        Where the drag's power goes.
    """

    stream_speed: float
    rotor_speed: float
    tip_speed_ratio: float
    head_coefficient: float
    speed_ratio: float
    flow_rate: float
    head_drop: float
    torque: float
    shaft_power: float
    thrust: float
    power_coefficient: float
    thrust_coefficient: float
    exit_power_coefficient: float
    hydraulic_efficiency: float
    roll_moment: float
    swirl_exit: float
    triangles: Triangles
    losses: Losses
    blade_reynolds: Floats
    vane_reynolds: Floats
    vane_state: tuple[SectionState, ...]
    blade_state: tuple[SectionState, ...]
    band: Band
    converged: bool
    residual: float
    remarks: tuple[Remark, ...]
    load: float
    friction_load: float
    swirl_load: float
    debris_load: float
    flow_state: Literal["solved", "closure"]
    forces: Forces
    hub_core: HubCore
    lowest_pressure: float
    book: OutsideBook


@dataclass(frozen=True)
class State:
    """The machine in one state at one stream speed.

    Attributes
    ----------
    name : str
        'on load' (the design tip-speed ratio), 'runaway' (turning free, without torque), 'held' (stopped by
        something), 'parked' (stopped by its brake), 'clogged 25 %' and so on (share of the passage closed by debris).
    stream_speed : float
        Stream speed of the state [m/s].
    rotor_speed : float
        Angular speed of the rotor [rad/s].
    shaft_power, torque, thrust, roll_moment : float
        Shaft power, rotor torque, total axial force and moment on the body, as in `OperatingPoint`
        [W], [N m], [N], [N m].
    head_coefficient : float
        CH [-].
    solved : bool
        False when the state lies beyond the flow solver's reach and the figures come from a stated closure.
    remark : str
        What the reader must know of this row, or ''.
    swirl_exit : float
        K behind the rotor [m2/s].
    flow_rate : float
        [m3/s]
    lowest_pressure : float
        Of the through-flow, relative to the undisturbed water at the same depth, as in `OperatingPoint` [Pa].
    speed_ratio : float
        u [-].
    """

    name: str
    stream_speed: float
    rotor_speed: float
    shaft_power: float
    torque: float
    thrust: float
    roll_moment: float
    head_coefficient: float
    solved: bool
    remark: str
    swirl_exit: float
    flow_rate: float
    lowest_pressure: float
    speed_ratio: float


@dataclass(frozen=True)
class SpeedRatioCurve:
    """CP and CT over tip-speed ratio at one stream speed, shape (n,) each; points without answer left out."""

    stream_speed: float
    tip_speed_ratio: Floats
    power_coefficient: Floats
    thrust_coefficient: Floats
    head_coefficient: Floats


@dataclass(frozen=True)
class PowerCurve:
    """Power over stream speed, shape (n,) each.

    Attributes
    ----------
    stream_speed : ndarray
        Cube-mean stream speed over the capture area, growing from 0 [m/s].
    rotor_speed, shaft_power, electrical_power, thrust : ndarray
        [rad/s], [W], [W], [N].
    limited : ndarray of bool
        True where rated power is held.
    band_low, band_high : ndarray
        Electrical power with its prior band, capped at rated power [W].
    """

    stream_speed: Floats
    rotor_speed: Floats
    shaft_power: Floats
    electrical_power: Floats
    thrust: Floats
    limited: NDArray[np.bool_]
    band_low: Floats
    band_high: Floats
