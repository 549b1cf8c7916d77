"""Tables of the vane and blade rows: flow angles, shapes, losses."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.document import Column, Table
from racewright.dossier.figures.triangles import PLACES, at, stations
from racewright.ledger.findings import MachineFindings


def angles(machine: MachineFindings) -> Table:
    """Speeds and flow angles at hub, mid and tip, before and behind the rotor."""
    triangles = machine.design_point.triangles
    columns = (
        Column("place", share=2.4),
        *(
            Column(n, "end", 1.1)
            for n in ("radius", "axial", "swirl", "blade", "relative", "flow angle", "relative angle")
        ),
    )
    body = []
    for behind in (False, True):
        for name, index in zip(PLACES, stations(triangles), strict=True):
            t = at(triangles, index, behind=behind)
            body.append(
                (
                    f"{name}, {'behind' if behind else 'before'} the rotor",
                    fmt.fixed(float(triangles.radius[index]), fmt.LENGTH, 3),
                    *(fmt.fixed(v, fmt.SPEED, 2) for v in (t.axial, t.swirl, t.blade, t.relative)),
                    *(fmt.fixed(v, fmt.ANGLE, 1) for v in (t.flow_angle, t.relative_angle)),
                )
            )
    return Table(
        "Velocity triangles; angles from axial, positive in the direction of rotation.", columns, tuple(body)
    )


def shapes(machine: MachineFindings) -> Table:
    """Chord, stagger and camber of both rows at hub, mid and tip."""
    columns = (
        Column("row and place", share=2.0),
        *(
            Column(n, "end", 1.1)
            for n in ("radius", "chord", "stagger", "camber", "thickness", "Reynolds number", "state")
        ),
    )
    point = machine.design_point
    body = []
    for row, reynolds, state in (
        (machine.vanes, point.vane_reynolds, point.vane_state),
        (machine.blades, point.blade_reynolds, point.blade_state),
    ):
        last = len(row.radius) - 1
        for name, k in zip(PLACES, (0, last // 2, last), strict=True):
            known = k < len(state) and len(state) == len(row.radius)
            body.append(
                (
                    f"{row.kind}, {name}",
                    fmt.fixed(float(row.radius[k]), fmt.LENGTH, 3),
                    fmt.quantity(float(row.chord[k]), fmt.SMALL_LENGTH),
                    fmt.fixed(float(row.stagger[k]), fmt.ANGLE, 1),
                    fmt.fixed(float(row.camber[k]), fmt.ANGLE, 1),
                    fmt.quantity(float(row.thickness[k]), fmt.SHARE),
                    fmt.number(float(reynolds[k]), -3) if known else fmt.UNKNOWN,
                    state[k] if known else fmt.UNKNOWN,
                )
            )
    return Table(
        "The rows as turned. Camber is the turning of the camber line; thickness is over chord.",
        columns,
        tuple(body),
    )


def losses(machine: MachineFindings) -> Table:
    """Where the head goes, over half the stream speed squared and as a share of the head drop."""
    point = machine.design_point
    lost = point.losses
    columns = (
        Column("loss", share=2.4),
        Column("head coefficient", "end", 1.2),
        Column("share of the head drop", "end", 1.4),
        Column("paid by", share=2.4),
    )
    body = tuple(
        (
            name,
            fmt.number(value, 4),
            fmt.fixed(value / point.head_coefficient, fmt.SHARE, 1) if point.head_coefficient > 0 else fmt.UNKNOWN,
            payer,
        )
        for name, value, payer in (
            ("vane sections", lost.vane_profile, "the head drop"),
            ("blade sections", lost.blade_profile, "the head drop"),
            ("end walls", lost.end_wall, "the head drop"),
            ("tip clearance", lost.tip_clearance, "the head drop"),
            ("walls of duct and hub", point.friction_load, "the stream's head, besides the head drop"),
            ("swirl that leaves", lost.exit_swirl, "the stream, not the head drop"),
        )
    )
    low, high = (fmt.number(v, 4) for v in (lost.ends_low, lost.ends_high))
    said = f"Losses at the design point. End walls and tip gap by the published forms: {low} to {high}."
    return Table(said, columns, body)
