"""The drive as `report --json` prints it: every figure of the three ways, the curve of the one that is taken."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.ledger.drive_findings import DriveFindings, DriveParts, LettingGo
from racewright.stage.control import ControlCurve
from racewright.stage.control_summary import WayToHold
from racewright.stage.drive_start import StartUp


@dataclass(frozen=True)
class WayFigures:
    """One way of holding rated power, without its curve.

    Attributes
    ----------
    how : str
        'slow', 'speed up' or 'dump'.
    holds : bool
        True when rated power is held within the limits at every stream speed where it must be.
    fails_from : float or None
        Least stream speed where it is not held [m/s].
    reason : str
        Why not there, or ''.
    torque : float
        Largest rotor torque [N m].
    thrust : float
        Largest axial force [N].
    roll_moment : float
        Largest absolute roll moment on the body [N m].
    rotor_speed : float
        Largest rotor speed [rad/s].
    tip_speed : float
        Largest speed of the blade tip [m/s].
    strike_speed : float
        Largest speed of the blade tip against water that comes along the axis [m/s].
    dumped_power : float
        Largest power to be dumped [W].
    jump : float
        Change of rotor speed where rated power is just reached, over the rotor speed there [-].
    on_closure : bool
        True when a point above rated rests on a stated closure of the flow.
    """

    how: str
    holds: bool
    fails_from: float | None
    reason: str
    torque: float
    thrust: float
    roll_moment: float
    rotor_speed: float
    tip_speed: float
    strike_speed: float
    dumped_power: float
    jump: float
    on_closure: bool


@dataclass(frozen=True)
class ControlFigures:
    """The drive and its control.

    Attributes
    ----------
    law : str
        What sets the rotor's speed below rated power.
    asked : str
        The way of holding rated power that the scheme asks for, or 'recommended'.
    how : str
        The way that is taken.
    recommended : str
        'slow', 'speed up', 'dump', 'any' (rated power is not reached) or 'none'.
    reason : str
        Why that is recommended, in plain words.
    rated_speed : float or None
        Stream speed where the law makes rated power; null when it does not [m/s].
    torque_limit : float or None
        Largest torque at the rotor shaft [N m].
    torque_limit_given : bool
        False for the usual margin over the torque where rated power begins.
    rotor_speed_limit : float or None
        Largest rotor speed [rad/s].
    ways : tuple of WayFigures
        The three ways of holding rated power.
    curve : ControlCurve
        Of the way taken.
    start : StartUp
        What starting takes.
    letting_go : LettingGo
        Loss of load in the fastest water, and one stop by the brake.
    parts : DriveParts
        Mass and cost of what bears the torque; cautions.
    """

    law: str
    asked: str
    how: str
    recommended: str
    reason: str
    rated_speed: float | None
    torque_limit: float | None
    torque_limit_given: bool
    rotor_speed_limit: float | None
    ways: tuple[WayFigures, ...]
    curve: ControlCurve
    start: StartUp
    letting_go: LettingGo
    parts: DriveParts


def control_figures(found: DriveFindings) -> ControlFigures:
    """The drive's findings without the curves of the ways that are not taken."""
    control = found.control
    summary = control.summary
    return ControlFigures(
        control.law,
        control.asked,
        control.how,
        summary.recommended,
        summary.reason,
        summary.rated_speed,
        control.torque_limit,
        control.torque_limit_given,
        control.rotor_speed_limit,
        tuple(_way(way) for way in summary.ways),
        control.way.curve,
        found.start,
        found.letting_go,
        found.parts,
    )


def _way(way: WayToHold) -> WayFigures:
    return WayFigures(
        way.how,
        way.holds,
        way.fails_from,
        way.reason,
        way.torque,
        way.thrust,
        way.roll_moment,
        way.rotor_speed,
        float(way.curve.tip_speed.max()),
        way.strike_speed,
        way.dumped_power,
        way.jump,
        way.on_closure,
    )
