"""Results of the statics: one equilibrium with its lines, reasons and stability."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.holding.checked import Floats
from racewright.holding.line_strum import Strum
from racewright.remark import Remark
from racewright.safety import SafetyBasis

ReasonCode = Literal[
    "line too short",
    "capsizes",
    "sinks",
    "surfaced",
    "anchor lifts",
    "line parts",
    "unstable",
    "adrift",
    "not converged",
]
PRECEDENCE: tuple[ReasonCode, ...] = (
    "adrift",
    "line too short",
    "capsizes",
    "sinks",
    "surfaced",
    "anchor lifts",
    "line parts",
    "unstable",
    "not converged",
)
"""Order in which reasons are given. The first explains most: when a line cannot reach, when the body overturns or
lies on the bed or at the surface, what follows from the computed pose means little."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a layout does not hold in one state and stream.

    Attributes
    ----------
    code : ReasonCode
    about : str
        Line or motion concerned, '' for the body as a whole.
    value, limit : float
        What was found and what it should not pass [unit].
    unit : str
    text : str
        The same in one sentence.
    """

    code: ReasonCode
    about: str
    value: float
    limit: float
    unit: str
    text: str


@dataclass(frozen=True, slots=True)
class LineLoad:
    """One line at equilibrium. All tensions are slow ones, see `safety`.

    Attributes
    ----------
    name, purpose : str
        As in the layout.
    form : {'taut', 'suspended', 'grounded', 'slack'}
        Taut: at least its unstretched length apart. Grounded: part of it lies on the bed. Slack: carries no more than
        itself.
    tension : float
        Greatest along line and legs [N].
    fairlead_tension, anchor_tension : float
        At the upper end of the main line and at the fixed point [N].
    leg_tensions : tuple of float
        Greatest of each leg of a bridle, empty without one [N].
    fairlead_angle, anchor_angle : float
        Of the main line below the horizontal at its upper end, above it at its fixed point [rad].
    uplift, uplift_limit : float
        Upward load on the fixed point, and what it bears [N].
    grounded_length : float
        On the bed [m].
    strength : float
        Breaking strength of the segment nearest to it [N].
    segment : str
        That segment's material.
    utilisation : float
        Tension over strength there, no factor in it [-].
    shape : ndarray, shape (k, 3)
        Places along the main line from its fixed point up [m].
    pull_on_body : tuple of float
        Force on the body, earth axes [N].
    drag : {'on its shape', 'on its chord'}
        How the current's drag on the line was taken: on a slack line whose shape was not found, on the straight line.
    strum : Strum
        Whether it may vibrate in the current.
    safety : SafetyBasis
        Caution, basis and edition of tension and strength.
    """

    name: str
    purpose: str
    form: Literal["taut", "suspended", "grounded", "slack"]
    tension: float
    fairlead_tension: float
    anchor_tension: float
    leg_tensions: tuple[float, ...]
    fairlead_angle: float
    anchor_angle: float
    uplift: float
    uplift_limit: float
    grounded_length: float
    strength: float
    segment: str
    utilisation: float
    shape: Floats
    pull_on_body: tuple[float, float, float]
    drag: Literal["on its shape", "on its chord"]
    strum: Strum
    safety: SafetyBasis


def swung(point: Equilibrium) -> str:
    """', stream 10° to the left' of a stream that does not run along x, '' of one that does."""
    if point.heading == 0.0:
        return ""
    side = "left" if point.heading > 0.0 else "right"
    return f", stream {math.degrees(abs(point.heading)):.0f}° to the {side}"


@dataclass(frozen=True, slots=True)
class Mode:
    """One small motion of the body.

    Attributes
    ----------
    name : str
        The motion that moves most: surge, sway, heave, roll, pitch, yaw.
    growth_rate : float
        Negative when it dies away [1/s].
    period : float
        Infinite when it does not swing [s].
    shape : tuple of float
        Sizes of the six motions, turns times the body's size, greatest 1, in phase with the greatest [-].
    """

    name: str
    growth_rate: float
    period: float
    shape: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Stability:
    """Small motions about an equilibrium.

    Attributes
    ----------
    holds_still : bool
        Every small displacement is answered by a push back (no divergence).
    stable : bool
        No mode grows.
    modes : tuple of Mode
        Fastest growing first.
    sway_from_yaw, yaw_from_sway, heave_from_pitch, pitch_from_heave : float
        Couplings of the stiffness about the body's origin, in its own axes: force per turn [N/rad], moment per shift
        [N]. They differ where loads follow the body.
    size : float
        Length that makes turns and shifts comparable in `Mode.shape` [m].
    safety : SafetyBasis
    """

    holds_still: bool
    stable: bool
    modes: tuple[Mode, ...]
    sway_from_yaw: float
    yaw_from_sway: float
    heave_from_pitch: float
    pitch_from_heave: float
    size: float
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class Equilibrium:
    """A layout in one state and stream.

    Attributes
    ----------
    state : str
        Name of the load state.
    stream_speed, heading, depth : float
        As the stream has them [m/s], [rad], [m].
    settled : bool
        The balance was found to the stated residual; figures of a pose that is not are where the search ended.
    feasible : bool
        Settled, and no reason against it.
    reasons : tuple of Reason
        In the order of `PRECEDENCE`.
    position : tuple of float
        Of the body's origin [m].
    offset : float
        Horizontal distance from the intended place [m].
    roll, pitch, yaw : float
        Roll right-handed about the way from inlet to exit, pitch positive nose up, yaw from x towards y [rad].
    cover : float
        Water over the outline's highest point, negative when it is out [m].
    bed_clearance : float
        Under the outline's lowest point [m].
    local_speed : float
        Of the stream at the thrust's centre [m/s].
    stream_force : tuple of float
        Of the stream on the body, earth axes [N].
    lines : tuple of LineLoad
        In the layout's order.
    residual : float
        Greatest force left, moments over the body's size, over the load [-].
    load : float
        Greatest of line pull, stream force and net buoyancy [N].
    steps : int
        Of the search.
    stiffness : ndarray, shape (6, 6)
        -d force/d pose about the origin, earth axes, following loads in it [N/m], [N], [N m/rad].
    stability : Stability or None
        None when not settled.
    remarks : tuple of Remark
    safety : SafetyBasis
        Of pose and clearance.
    """

    state: str
    stream_speed: float
    heading: float
    depth: float
    settled: bool
    feasible: bool
    reasons: tuple[Reason, ...]
    position: tuple[float, float, float]
    offset: float
    roll: float
    pitch: float
    yaw: float
    cover: float
    bed_clearance: float
    local_speed: float
    stream_force: tuple[float, float, float]
    lines: tuple[LineLoad, ...]
    residual: float
    load: float
    steps: int
    stiffness: Floats
    stability: Stability | None
    remarks: tuple[Remark, ...]
    safety: SafetyBasis

    @property
    def reason(self) -> Reason | None:
        """The first of the reasons, None when there is none."""
        return self.reasons[0] if self.reasons else None
