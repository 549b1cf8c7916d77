"""The drive's nodes: rotor map, drive, control, power curve, start, loss of load and braking, mass and cautions."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from racewright.ledger.drive_findings import DriveControl, DriveParts, FreeRunning, LettingGo
from racewright.ledger.drive_things import brake_of, chain_of, dump_of, law_of
from racewright.ledger.fastest import fastest_water
from racewright.ledger.map_grid import SPEED_STEP
from racewright.ledger.node import Given, Node
from racewright.machine.drive_cautions import electrical_remarks
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_generator import ConstantGenerator
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.machine.drive_mass import DriveMass, direct_drive_mass, geared_mass, mass_line
from racewright.machine.drive_table import GeneratorTable
from racewright.place.result import Site
from racewright.remark import Remark
from racewright.stage.bands import relative_ends
from racewright.stage.control import power_curve_of, rated_stream_speed
from racewright.stage.control_hold import Hold, Limits
from racewright.stage.control_limits import limits_from_rated
from racewright.stage.control_summary import ControlSummary, control_summary
from racewright.stage.drive_equilibrium import equilibria
from racewright.stage.drive_start import StartUp, start_up
from racewright.stage.drive_transient import BrakeStop, LossOfLoad, brake_stop, loss_of_load
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import PowerCurve
from racewright.stage.rotor_map import RotorMap, rotor_loads
from racewright.tick import Tick

LONG_DUMP = 14.0 * 86400.0
"""A dump load that bears its power so long is taken to bear any flood. Own rule [s]."""
COMPARED_RATIO = 10.0
"""Gear ratio that a direct drive is compared with. Own choice [-]."""


def _rotor_map(given: Given, _tick: Tick) -> RotorMap:
    """The machine's map as its drive sees it."""
    found: PerformanceMap = given.nodes["map"]
    _vanes, blades = given.nodes["rows"]
    return RotorMap(
        found.stream_speed,
        found.tip_speed_ratio,
        float(blades.radius[-1]),
        found.torque,
        found.thrust,
        found.roll_moment,
        found.flow_rate,
        given.nodes["flow"].annulus_area,
        found.answered,
        found.closure,
    )


def _drive_chain(given: Given, _tick: Tick) -> DriveChain:
    return chain_of(given.keys["machine.drive"], given.files.get("machine.drive.table.file"))


def _control(given: Given, tick: Tick) -> DriveControl:
    drive, design = given.keys["machine.drive"], given.keys["machine.design"]
    rotor, chain = given.nodes["rotor_map"], given.nodes["drive_chain"]
    law = law_of(drive, design, rotor, chain)
    rated, cut_in = drive["rated_power"], drive["cut_in_speed"]
    top = float(rotor.stream_speed[-1])
    speeds = np.union1d(np.arange(0.0, top - 0.2 * SPEED_STEP, SPEED_STEP), [cut_in, top])
    running = speeds[speeds >= cut_in]
    begins = rated_stream_speed(rotor, chain, law, rated, running)
    speeds = speeds if begins is None else np.union1d(speeds, [begins])
    usual = limits_from_rated(rotor, chain, law, rated, running)
    limits = Limits(rated, drive["torque_limit"] or usual.torque, drive["rotor_speed_limit"] or math.inf)
    summary = control_summary(
        rotor, chain, law, speeds, limits=limits, cut_in_speed=cut_in, dump_load=dump_of(drive), tick=tick
    )
    how = _taken(drive["hold"], summary)
    return DriveControl(
        drive["law"],
        drive["hold"],
        how,
        limits.torque if math.isfinite(limits.torque) else None,
        drive["torque_limit"] is not None,
        drive["rotor_speed_limit"],
        float(rotor.stream_speed[0]),
        summary,
        _control_remarks(how, cut_in, summary),
    )


def _taken(asked: str, summary: ControlSummary) -> Hold:
    wanted = summary.recommended if asked == "recommended" else asked
    named = [way.how for way in summary.ways if way.how == wanted]
    if named:
        return named[0]
    return max(summary.ways, key=lambda way: math.inf if way.fails_from is None else way.fails_from).how


def _control_remarks(how: Hold, cut_in: float, summary: ControlSummary) -> tuple[Remark, ...]:
    way = next(w for w in summary.ways if w.how == how)
    found = []
    if not way.holds and way.fails_from is not None:
        found.append(
            Remark(
                "warning",
                f"Rated power is not held from {way.fails_from:.2f} m/s on ({how}: {way.reason}). No power and no"
                " energy are counted there: stop or lift the machine in such water, or choose another drive.",
                "control",
            )
        )
    curve = way.curve
    silent = [
        i
        for i, s in enumerate(curve.status)
        if s == "no answer" and curve.stream_speed[i] >= cut_in and curve.reason[i]
    ]
    if silent:
        first, last = float(curve.stream_speed[silent[0]]), float(curve.stream_speed[silent[-1]])
        told = (
            f"Control has no answer at {len(silent)} stream speeds between {first:.2f} and {last:.2f} m/s, and no"
            f" power is counted there: {curve.reason[silent[0]].rstrip('.')}."
        )
        found.append(Remark("warning", told, "control"))
    return tuple(found)


def _power_curve(given: Given, _tick: Tick) -> PowerCurve:
    """Of the way of control that is taken, with the design point's band in proportion at every speed."""
    curve, rated = given.nodes["control"].way.curve, given.keys["machine.drive.rated_power"]
    return power_curve_of(curve, rated, ends=relative_ends(given.nodes["bands"]))


def _start_up(given: Given, _tick: Tick) -> StartUp:
    return start_up(given.nodes["rotor_map"], given.nodes["drive_chain"])


def _letting_go(given: Given, _tick: Tick) -> LettingGo:
    """In the fastest water of the place, whatever the drive can do there; else in the fastest of the map."""
    drive, rotor, chain = given.keys["machine.drive"], given.nodes["rotor_map"], given.nodes["drive_chain"]
    curve, site = given.nodes["control"].way.curve, given.nodes["site"]
    top = float(rotor.stream_speed[-1])
    stream = top if site is None else min(fastest_water(site), top)
    free = _free(rotor, chain, stream)
    at = int(np.argmin(np.abs(curve.stream_speed - stream)))
    inertia = chain.inertia if chain.rotor_inertia else None
    if curve.status[at] in ("no answer", "not computed") or not curve.rotor_speed[at] > 0.0:
        speed, why = (
            0.0 if free is None else free.rotor_speed,
            "the drive does not hold the rotor there: it runs free",
        )
        return _without_loss(given, stream, speed, free, inertia, why)
    speed = float(np.interp(stream, curve.stream_speed, curve.rotor_speed))
    if curve.status[at] == "below cut-in":
        idle = "the water of the place stays below cut-in, where the rotor turns free anyway"
        return LettingGo(stream, speed, free, inertia, None, idle, None, None, idle)
    if inertia is None:
        missing = "rotor_inertia is not given"
        return LettingGo(stream, speed, free, None, None, missing, None, None, missing)
    loss, why = _loss(drive, rotor, chain, stream, speed)
    wanted = speed * drive["overspeed_ratio"]
    bites = wanted if free is None else max(min(wanted, free.rotor_speed), speed)
    stop, why_no_stop = _stop(drive, rotor, chain, stream, bites)
    return LettingGo(stream, speed, free, inertia, loss, why, None if stop is None else bites, stop, why_no_stop)


def _without_loss(
    given: Given, stream: float, speed: float, free: FreeRunning | None, inertia: float | None, why: str
) -> LettingGo:
    """No load to lose: the brake, if there is one, is asked from runaway."""
    if inertia is None or free is None:
        missing = "rotor_inertia is not given" if inertia is None else "runaway lies beyond the rotor map"
        return LettingGo(stream, speed, free, inertia, None, why, None, None, missing)
    drive, rotor, chain = given.keys["machine.drive"], given.nodes["rotor_map"], given.nodes["drive_chain"]
    stop, why_no_stop = _stop(drive, rotor, chain, stream, speed)
    return LettingGo(stream, speed, free, inertia, None, why, None if stop is None else speed, stop, why_no_stop)


def _loss(
    drive: Any, rotor: RotorMap, chain: DriveChain, stream: float, speed: float
) -> tuple[LossOfLoad | None, str]:
    at = np.array([speed])
    if not float((rotor.torque_at(stream, at) - chain.idle_torque(at))[0]) > 0.0:
        return None, "the water does not drive the rotor there, so it does not speed up"
    ratio = max(drive["overspeed_ratio"], 1.0 + 1e-9)
    return (
        loss_of_load(rotor, stream, speed, chain.inertia, overspeed_ratio=ratio, drag=chain.idle_torque),
        "",
    )


def _stop(
    drive: Any, rotor: RotorMap, chain: DriveChain, stream: float, speed: float
) -> tuple[BrakeStop | None, str]:
    brake = brake_of(drive)
    if brake is None:
        return None, "no brake is given"
    return brake_stop(rotor, stream, speed, chain.inertia, brake, drag=chain.idle_torque), ""


def _free(rotor: RotorMap, chain: DriveChain, stream: float) -> FreeRunning | None:
    steady = equilibria(rotor, stream, chain.idle_torque)
    stable = steady.rotor_speed[steady.stable]
    if not stable.size:
        return None
    loads = rotor_loads(rotor, stream, float(stable[-1]))
    voltage = None
    if isinstance(chain.generator, PermanentMagnet | GeneratorTable):
        voltage = float(chain.generator.open_voltage(chain.gear.ratio * stable[-1:])[0])
    return FreeRunning(
        stream,
        float(stable[-1]),
        float(loads.tip_speed[0]),
        float(loads.strike_speed[0]),
        float(loads.thrust[0]),
        float(loads.roll_moment[0]),
        voltage,
        bool(rotor.on_closure(loads.stream_speed, loads.rotor_speed)[0]),
    )


def _drive_parts(given: Given, _tick: Tick) -> DriveParts:
    drive, chain, free = given.keys["machine.drive"], given.nodes["drive_chain"], given.nodes["letting_go"].free
    torque, ratio = given.nodes["control"].way.torque, drive["gear"]["ratio"]
    masses, why = _masses(torque, ratio if ratio > 1.0 else COMPARED_RATIO)
    battery = drive["battery"] if drive["law"] == "battery" else None
    known = not isinstance(chain.generator, ConstantGenerator)
    remarks = electrical_remarks(
        open_voltage=None if free is None else free.open_voltage,
        battery_voltage=None if battery is None else battery["voltage"],
        magnets=known,
        brake=drive["brake"] is not None,
        dump_load=drive["dump"] is not None,
        on_a_network=drive["on_a_network"],
    )
    if not known:
        told = (
            "The kind of generator is not given. With permanent magnets its terminals are live while the rotor turns,"
            " cable cut or not: give [machine.NAME.drive.magnets] or a table for its voltage at runaway."
        )
        remarks = (Remark("caution", told, "generator"), *remarks)
    remarks = (*_brake_remarks(given.nodes["letting_go"]), *_dump_remarks(given), *_unsure(given), *remarks)
    return DriveParts(torque, masses, ratio > 1.0, why, remarks)


def _brake_remarks(going: LettingGo) -> tuple[Remark, ...]:
    """A brake that does not stop the rotor, or does not bear it, is no brake."""
    if going.stop is None or going.stop.bears:
        return ()
    return (Remark("warning", f"In the fastest water, {going.stream_speed:.2f} m/s: {going.stop.remark}", "brake"),)


def _dump_remarks(given: Given) -> tuple[Remark, ...]:
    """A dump load must bear floods, which last for days."""
    control, dump, site = given.nodes["control"], given.keys["machine.drive"]["dump"], given.nodes["site"]
    curve = control.way.curve
    if control.how != "dump" or dump is None or not curve.limited.any():
        return ()
    begins = float(curve.stream_speed[int(np.argmax(curve.limited))])
    hours = "" if site is None else f", {8760.0 * _share_above(site, begins):.0f} h a year here"
    if dump["duration"] >= LONG_DUMP:
        return ()
    told = (
        f"The dump load bears its power for {dump['duration'] / 60.0:.0f} min; water above {begins:.2f} m/s{hours},"
        " comes in floods of days. Rated power is not held for so long: the longest flood is not compared here."
    )
    return (Remark("warning", told, "dump load"),)


def _share_above(site: Site, speed: float) -> float:
    """Share of the time with faster water, speeds in a bin equally likely [-]."""
    edge, share = site.climate.edge, site.climate.share
    part = np.clip((edge[1:] - speed) / np.diff(edge), 0.0, 1.0)
    return float(np.sum(share * part))


def _unsure(given: Given) -> tuple[Remark, ...]:
    """What the drive's answers rest on without being given."""
    control, drive, found = given.nodes["control"], given.keys["machine.drive"], []
    if any(way.curve.limited.any() for way in control.summary.ways) and (
        drive["torque_limit"] is None or drive["rotor_speed_limit"] is None
    ):
        told = "How rated power is held rests on limits that nobody has given"
        told += "" if drive["torque_limit"] else ": a usual torque limit without a source"
        told += "" if drive["rotor_speed_limit"] else ", and none of rotor speed but runaway"
        found.append(Remark("caution", f"{told}. Give torque_limit and rotor_speed_limit of the machine.", "control"))
    if drive["gear"]["ratio"] == 1.0 and drive["gear_efficiency"] < 1.0:
        told = (
            "gear_efficiency is below 1 but the gear's ratio is 1: a direct drive has no gear. Give one or the other."
        )
        found.append(Remark("caution", told, "gear"))
    return tuple(found)


def _masses(torque: float, ratio: float) -> tuple[tuple[DriveMass, ...], str]:
    lines = ((mass_line("direct_drive"), 1.0), (mass_line("gear"), 1.0), (mass_line("fast_generator"), ratio))
    if not all(line.torque[0] <= torque / over <= line.torque[-1] for line, over in lines):
        return (), f"a torque of {torque:.3g} N m lies outside what the mass lines tell"
    return (direct_drive_mass(torque), geared_mass(torque, ratio)), ""


DRIVE_NODES = (
    Node("rotor_map", 1, _rotor_map, nodes=("map", "rows", "flow"), needs=("machine",)),
    Node(
        "drive_chain",
        1,
        _drive_chain,
        keys=("machine.drive",),
        files=("machine.drive.table.file",),
        needs=("machine",),
    ),
    Node(
        "control",
        2,
        _control,
        keys=("machine.design", "machine.drive"),
        nodes=("rotor_map", "drive_chain"),
        needs=("machine",),
    ),
    Node(
        "power_curve",
        4,
        _power_curve,
        keys=("machine.drive.rated_power",),
        nodes=("control", "bands"),
        needs=("machine",),
    ),
    Node("start_up", 1, _start_up, nodes=("rotor_map", "drive_chain"), needs=("machine",)),
    Node(
        "letting_go",
        2,
        _letting_go,
        keys=("machine.drive",),
        nodes=("rotor_map", "drive_chain", "control", "site"),
        needs=("machine",),
    ),
    Node(
        "drive_parts",
        2,
        _drive_parts,
        keys=("machine.drive",),
        nodes=("drive_chain", "control", "letting_go", "site"),
        needs=("machine",),
    ),
)
