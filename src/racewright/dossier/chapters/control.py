"""Drive and control: how rated power is held, start, runaway, loss of load, braking, mass, cautions."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import DEFER, facts, remark_table
from racewright.dossier.document import Block, Column, Picture, Points, Table, Text
from racewright.dossier.text import sentence, signs
from racewright.ledger.drive_findings import DriveControl, DriveFindings, DriveParts, FreeRunning, LettingGo
from racewright.stage.control_limits import TORQUE_MARGIN
from racewright.stage.control_summary import WayToHold
from racewright.stage.drive_start import StartUp
from racewright.stage.drive_transient import NEAR_RUNAWAY

_TIME = (fmt.Scale("s", 1.0), fmt.Scale("min", 60.0))
_HEAT = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6), fmt.Scale("GJ", 1e9))
_MASS = (fmt.Scale("kg", 1.0), fmt.Scale("t", 1e3))
_INERTIA = (fmt.Scale("kg m²", 1.0),)
_VOLTAGE = (fmt.Scale("V", 1.0),)
_WAYS = {"slow": "slow the rotor", "speed up": "let it speed up", "dump": "dump the rest"}
_LAWS = {
    "tip-speed ratio": "Below rated power the drive takes a torque that grows with the square of rotor speed and so"
    " keeps the design's tip-speed ratio.",
    "fixed speed": "Below rated power the drive keeps the rotor at one fixed speed.",
    "battery": "The generator works straight onto the battery, which sets the rotor's speed.",
}


def write(found: DriveFindings) -> tuple[Block, ...]:
    """Everything on the drive that a reader of the machine chapter needs."""
    control = found.control
    blocks: list[Block] = [
        Text(_LAWS[control.law]),
        Text(signs(control.summary.reason)),
        *_asked(control),
        _ways(control),
        *_failing(control),
        Picture(
            "control",
            "From standing water to the fastest, for the way of control that is taken. Strike speed: the blade tip "
            "against water that comes along the axis.",
            _alt(control),
        ),
        _start(found.start, found.letting_go, control.slowest_answered),
        *_start_words(found.start),
        _letting_go(found.letting_go),
        Text(
            "Loss of load and braking are reckoned in steady water, with what the rotor carries along as given; the "
            "time that the duct's flow needs to follow is left out. Bearings, blades and generator must bear runaway "
            f"in the fastest water whatever the brake does. {DEFER}",
            "safety",
        ),
        *_masses(found.parts),
        remark_table(found.parts.remarks, "Cautions of the drive"),
    ]
    return tuple(blocks)


def _asked(control: DriveControl) -> tuple[Block, ...]:
    said = []
    if control.asked not in ("recommended", control.summary.recommended) and control.summary.recommended != "any":
        said.append(f"The scheme asks for another way, to {_WAYS[control.how]}; it is the one that is reckoned with.")
    elif control.summary.recommended == "none":
        said.append(f"What follows is reckoned with the way that lasts longest: to {_WAYS[control.how]}.")
    said += [signs(remark.text) for remark in control.remarks]
    return (Text(" ".join(said), "safety"),) if said else ()


def _ways(control: DriveControl) -> Table:
    columns = (
        Column("above rated power", share=1.7),
        *(Column(n, "end", 1.1) for n in ("torque", "thrust", "roll moment", "tip speed", "strike speed")),
        Column("holds", share=1.4),
    )
    rows = tuple(_way(way, taken=way.how == control.how) for way in control.summary.ways)
    curve = control.way.curve
    span = f"Largest values of each way in water up to {fmt.fixed(float(curve.stream_speed[-1]), fmt.SPEED, 2)}."
    return Table(sentence(span, _limits(control)), columns, rows)


def _way(way: WayToHold, *, taken: bool) -> tuple[str, ...]:
    holds = "yes" if way.holds else f"not from {fmt.fixed(way.fails_from or 0.0, fmt.SPEED, 2)}"
    return (
        f"{_WAYS[way.how]} (taken)" if taken else _WAYS[way.how],
        fmt.quantity(way.torque, fmt.TORQUE),
        fmt.quantity(way.thrust, fmt.FORCE),
        fmt.quantity(way.roll_moment, fmt.TORQUE),
        fmt.fixed(float(way.curve.tip_speed.max()), fmt.SPEED, 1),
        fmt.fixed(way.strike_speed, fmt.SPEED, 1),
        holds,
    )


def _limits(control: DriveControl) -> str:
    if control.torque_limit is None:
        torque = "No limit of torque applies."
    else:
        whence = "as given"
        if not control.torque_limit_given:
            whence = f"{fmt.number(TORQUE_MARGIN, 2)} times the torque where rated power begins; no source"
        torque = f"Torque limit {fmt.quantity(control.torque_limit, fmt.TORQUE)} ({whence})."
    if control.rotor_speed_limit is None:
        return f"{torque} Rotor speed has no limit but runaway."
    return f"{torque} Rotor-speed limit {fmt.quantity(control.rotor_speed_limit, fmt.ROTATION)}, as given."


def _failing(control: DriveControl) -> tuple[Block, ...]:
    told = []
    for way in control.summary.ways:
        if not way.holds:
            told.append(f"To {_WAYS[way.how]}: {signs(way.reason).rstrip('.')}.")
        if way.on_closure:
            told.append(f"To {_WAYS[way.how]}: above rated its figures rest in part on a stated closure of the flow.")
    return (Points(tuple(told)),) if told else ()


def _start(start: StartUp, going: LettingGo, slowest: float) -> Table:
    rows = [
        (
            "breakaway torque",
            fmt.quantity(start.breakaway_torque, fmt.TORQUE),
            "gear friction and cogging, at the rotor shaft",
        ),
        (
            "starts from",
            _speed(start.starting_speed, slowest) if start.breakaway_torque > 0.0 else fmt.UNKNOWN,
            "stream speed that sets the standing rotor turning"
            + ("" if start.breakaway_torque > 0.0 else "; no friction and no cogging are given"),
        ),
        (
            "runs up from",
            _speed(start.running_speed, slowest) if start.breakaway_torque > 0.0 else fmt.UNKNOWN,
            "stream speed from which on nothing holds it half-way",
        ),
    ]
    if going.free is not None:
        rows += _free(going.free)
    elif going.stream_speed > 0.0:
        where = fmt.fixed(going.stream_speed, fmt.SPEED, 2)
        rows.append(("runaway", fmt.UNKNOWN, f"at {where} it lies beyond what the rotor map answers"))
    return facts("Start and runaway", rows)


def _free(free: FreeRunning) -> list[tuple[str, str, str]]:
    where = f"without load at {fmt.fixed(free.stream_speed, fmt.SPEED, 2)}, the drive's own drag counted"
    closed = "; rests on a stated closure of the flow" if free.on_closure else ""
    rows = [
        ("runaway", fmt.quantity(free.rotor_speed, fmt.ROTATION), where + closed),
        ("tip speed", fmt.fixed(free.tip_speed, fmt.SPEED, 1), "of the blades at runaway"),
        (
            "strike speed",
            fmt.fixed(free.strike_speed, fmt.SPEED, 1),
            "of the blade tip against axial water at runaway",
        ),
        ("roll moment", fmt.quantity(free.roll_moment, fmt.TORQUE), "on the body at runaway"),
    ]
    if free.open_voltage is not None:
        told = "direct, of the unloaded generator at runaway"
        rows.append(("voltage", fmt.quantity(free.open_voltage, _VOLTAGE), told))
    return rows


def _speed(value: float | None, slowest: float) -> str:
    if value is None:
        return "not by itself"
    told = fmt.fixed(value, fmt.SPEED, 2)
    return f"{told} or less" if value <= slowest else told


def _start_words(start: StartUp) -> tuple[Block, ...]:
    told = tuple(signs(r.text) for r in start.remarks if r.severity != "note")
    return (Points(told),) if told else ()


def _letting_go(going: LettingGo) -> Table:
    rows = []
    if going.inertia is not None:
        rows.append(("inertia", fmt.quantity(going.inertia, _INERTIA), "at the rotor shaft, gear ratio counted"))
    if going.loss is None:
        rows.append(("loss of load", "not reckoned", _plain(going.why_no_loss)))
    else:
        loss = going.loss
        begin = fmt.quantity(going.rotor_speed, fmt.ROTATION)
        over = f"from {begin} to {fmt.quantity(loss.overspeed, fmt.ROTATION)} after the load is lost"
        away = f"until {fmt.quantity(NEAR_RUNAWAY, fmt.SHARE, 1)} of the runaway speed is missing"
        if loss.time_to_overspeed is None:
            over = signs(loss.remark)
        if loss.time_to_runaway is None:
            away = signs(loss.remark)
        rows += [
            ("to overspeed", _time(loss.time_to_overspeed), over),
            ("to runaway", _time(loss.time_to_runaway), away),
        ]
    rows += _stop(going)
    where = (
        f" in the fastest water, {fmt.fixed(going.stream_speed, fmt.SPEED, 2)}" if going.stream_speed > 0.0 else ""
    )
    return facts(f"Loss of load and braking{where}", rows)


def _stop(going: LettingGo) -> list[tuple[str, str, str]]:
    stop = going.stop
    if stop is None or going.braked_from is None:
        return [("braking", "not reckoned", _plain(going.why_no_stop))]
    if not stop.stops:
        return [("braking", "does not stop", signs(stop.remark))]
    begin = fmt.quantity(going.braked_from, fmt.ROTATION)
    heat = "within what the brake may take" if stop.bears else signs(stop.remark)
    return [
        ("braking", _time(stop.time), f"from {begin} to standstill, {fmt.number(stop.turns or 0.0, 1)} turns"),
        ("heat of the stop", fmt.quantity(stop.energy or 0.0, _HEAT), heat),
    ]


def _time(value: float | None) -> str:
    return "not reached" if value is None else fmt.quantity(value, _TIME, 2)


def _plain(why: str) -> str:
    return signs(why).rstrip(".") + "."


def _masses(parts: DriveParts) -> tuple[Block, ...]:
    if not parts.masses:
        return (Text(f"Mass and cost of the drive are not told: {_plain(parts.why_no_mass)}"),)
    columns = (Column("build", share=2.2), Column("mass", "end", 1.6), Column("cost", "end", 2.2))
    rows = []
    for one in parts.masses:
        geared = one.ratio > 1.0
        example = "" if parts.ratio_given or not geared else ", for comparison"
        name = (
            f"{one.name}, ratio {fmt.number(one.ratio, 0 if one.ratio.is_integer() else 1)}{example}"
            if geared
            else one.name
        )
        rows.append(
            (
                name,
                _range(one.mass.low, one.mass.high, _MASS),
                _range(one.cost.low, one.cost.high, fmt.money(one.currency)),
            )
        )
    caption = (
        f"What {fmt.quantity(parts.torque, fmt.TORQUE)} weigh and cost: wide ranges from memory, without a source, "
        "for a first sizing only; a maker's figure replaces them. Generator and gear, not sealed for water."
    )
    return (Table(caption, columns, tuple(rows)),)


def _range(low: float, high: float, scales: tuple[fmt.Scale, ...]) -> str:
    scale = fmt.pick(scales, high)
    a, b = (value / scale.factor for value in (low, high))
    return fmt.join(f"{_two(a)} to {_two(b)}", scale)


def _two(value: float) -> str:
    """Two significant digits, no more: the ranges are no better."""
    places = fmt.decimals_for(value, 2)
    if places == 0 and value >= 100.0:
        places = 2 - len(f"{value:.0f}")
    return fmt.number(value, places)


def _alt(control: DriveControl) -> str:
    way, rated = control.way, control.summary.rated_speed
    held = "" if rated is None else f" Rated power begins at {fmt.fixed(rated, fmt.SPEED, 2)}."
    return (
        f"Rotor speed, rotor torque and strike speed over stream speed.{held} The largest are "
        f"{fmt.quantity(way.rotor_speed, fmt.ROTATION)}, {fmt.quantity(way.torque, fmt.TORQUE)} and "
        f"{fmt.fixed(way.strike_speed, fmt.SPEED, 1)}."
    )
