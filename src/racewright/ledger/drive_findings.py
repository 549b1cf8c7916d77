"""What is found out about the drive: control, start, letting go, mass and cost."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.machine.drive_mass import DriveMass
from racewright.remark import Remark
from racewright.stage.control_hold import Hold
from racewright.stage.control_summary import ControlSummary, WayToHold
from racewright.stage.drive_start import StartUp
from racewright.stage.drive_transient import BrakeStop, LossOfLoad


@dataclass(frozen=True)
class DriveControl:
    """The ways of holding rated power, and the one that is taken.

    Attributes
    ----------
    law : str
        What sets the rotor's speed below rated power, as the scheme says it.
    asked : str
        The way that the scheme asks for, or 'recommended'.
    how : {'slow', 'speed up', 'dump'}
        The way that is taken; where none holds and none is asked for, the one that lasts longest.
    torque_limit : float or None
        Largest torque at the rotor shaft; None without a limit [N m].
    torque_limit_given : bool
        False for the usual margin over the torque where rated power begins.
    rotor_speed_limit : float or None
        Largest rotor speed; None without a limit [rad/s].
    slowest_answered : float
        Slowest stream speed that the rotor map answers [m/s].
    summary : ControlSummary
    remarks : tuple of Remark
        Where power is counted that is not held, or where control has no answer.
    """

    law: str
    asked: str
    how: Hold
    torque_limit: float | None
    torque_limit_given: bool
    rotor_speed_limit: float | None
    slowest_answered: float
    summary: ControlSummary
    remarks: tuple[Remark, ...]

    @property
    def way(self) -> WayToHold:
        """The way that is taken."""
        return next(way for way in self.summary.ways if way.how == self.how)


@dataclass(frozen=True)
class FreeRunning:
    """The rotor with nothing but the drive's own drag on it.

    Attributes
    ----------
    stream_speed : float
        Stream speed that it runs free in [m/s].
    rotor_speed : float
        Steady rotor speed [rad/s].
    tip_speed : float
        Speed of the blade tip [m/s].
    strike_speed : float
        Speed of the blade tip against water that comes along the axis [m/s].
    thrust : float
        Total axial force [N].
    roll_moment : float
        Moment on the body [N m].
    open_voltage : float or None
        Direct voltage of the unloaded generator; None where nothing is known of it [V].
    on_closure : bool
        True when the flow there rests on a stated closure.
    """

    stream_speed: float
    rotor_speed: float
    tip_speed: float
    strike_speed: float
    thrust: float
    roll_moment: float
    open_voltage: float | None
    on_closure: bool


@dataclass(frozen=True)
class LettingGo:
    """What the rotor does in the fastest water when its load is lost, and one stop by the brake after that.

    Attributes
    ----------
    stream_speed : float
        At the loss [m/s].
    rotor_speed : float
        At the loss [rad/s].
    free : FreeRunning or None
        Where it ends; None when that lies beyond the rotor map.
    inertia : float or None
        Of all that turns, at the rotor shaft; None when not given [kg m2].
    loss : LossOfLoad or None
    why_no_loss : str
        Why the loss of load is not reckoned, or ''.
    braked_from : float or None
        Rotor speed when the brake bites: the overspeed asked for, or runaway where that is lower [rad/s].
    stop : BrakeStop or None
    why_no_stop : str
        Why braking is not reckoned, or ''.
    """

    stream_speed: float
    rotor_speed: float
    free: FreeRunning | None
    inertia: float | None
    loss: LossOfLoad | None
    why_no_loss: str
    braked_from: float | None
    stop: BrakeStop | None
    why_no_stop: str


@dataclass(frozen=True)
class DriveParts:
    """What torque weighs and costs, and the cautions of the drive.

    Attributes
    ----------
    torque : float
        Largest torque of the chosen way of control, taken as continuous [N m].
    masses : tuple of DriveMass
        Direct drive, and gear with generator.
    ratio_given : bool
        False when the gear ratio is an example for comparison.
    why_no_mass : str
        Why there are none, or ''.
    remarks : tuple of Remark
        Electrical and of the brake.
    """

    torque: float
    masses: tuple[DriveMass, ...]
    ratio_given: bool
    why_no_mass: str
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class DriveFindings:
    """The drive and its control, of one machine."""

    control: DriveControl
    start: StartUp
    letting_go: LettingGo
    parts: DriveParts
