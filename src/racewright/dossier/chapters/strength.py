"""Chapter on what must be strong: stresses, duct, shaft, frequencies, fatigue."""

from __future__ import annotations

from dataclasses import replace

from racewright.cautions import caution
from racewright.dossier import format as fmt
from racewright.dossier.chapters import strength_tables
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Points, Table, Text
from racewright.dossier.strength_view import YEAR, drawn_places, shares
from racewright.dossier.text import clean, sentence, signs
from racewright.ledger.strength_findings import DuctStress, RootStress, ShaftCase, StrengthFindings
from racewright.ledger.strength_parts import strength_remarks

_HERTZ = (fmt.Scale("Hz", 1.0),)
_MASS_ALONG = (fmt.Scale("kg/m", 1.0),)
_NOTE = Column("read with", share=0.9)
NOTES_TOGETHER = 2
"""Notes that stay on one page. Own choice."""
_SAID = {
    caution("structure").sentence: "at the head of this chapter",
    caution("fatigue").sentence: "under Fatigue",
}
"""Where the chapter tells the cautions that its notes carry."""


def write(found: StrengthFindings) -> Chapter:
    """Every check with its factors, and what to think of it; captions say so where the machine is invented."""
    notes = SafetyNotes()
    numbers = (
        strength_tables.stresses(found.checks, notes),
        *_roots(found, notes),
        *_duct(found.stresses.duct, notes),
        *_shaft(found.stresses.shaft, notes),
        *_frequencies(found, notes),
        *_fatigue(found, notes),
    )
    cautions, told = notes.apart(_SAID)
    blocks: list[Block] = [
        Text(_lead(found), "lead"),
        Text(caution("structure").sentence, "safety"),
        Picture(
            "stress_use",
            "The worst check of each part: stress with its factor over strength with its factor.",
            "Bars of use of the design strength by part, the limit at 100 %.",
        ),
        *numbers,
        Heading("What stands beside these numbers"),
        Text(cautions, "safety"),
        *_parted(told),
        remark_table(strength_remarks(found), "Remarks on strength, worst first."),
    ]
    if found.invented:
        blocks = [replace(b, caption=f"{b.caption} Invented data.") if isinstance(b, Picture) else b for b in blocks]
    return Chapter("strength", "What must be strong", tuple(blocks))


def _lead(found: StrengthFindings) -> str:
    checks = found.checks
    weak = [name for name, check in checks.items() if not check.passes]
    name, worst = max(checks.items(), key=lambda row: row[1].use)
    use = fmt.quantity(worst.use, fmt.SHARE, 2)
    near = sum(meeting.direct and not meeting.apart for meeting in found.frequencies.resonance.meetings)
    if weak:
        said = f"Too weak under the factors asked for: {'; '.join(weak)}. The worst uses {use} of its strength."
    else:
        said = f"Every part holds under the factors asked for; {name} uses most of its strength, {use}."
    if near:
        pairs = "one pair" if near == 1 else f"{near} pairs"
        return f"{said} {pairs[0].upper()}{pairs[1:]} of natural and exciting frequencies stand too near each other."
    return f"{said} No natural frequency comes near what shakes it."


def _parted(points: Points) -> tuple[Points, ...]:
    """The notes in small lists, which break over pages."""
    return tuple(Points(points.items[k : k + NOTES_TOGETHER]) for k in range(0, len(points.items), NOTES_TOGETHER))


def _roots(found: StrengthFindings, notes: SafetyNotes) -> tuple[Block, ...]:
    columns = (
        Column("part, end", share=1.3),
        Column("state", share=2.1),
        Column("force along the axis", "end", 1.2),
        Column("force around it", "end", 1.2),
        Column("bending along", "end", 1.1),
        Column("bending around", "end", 1.1),
        Column("pull of its mass", "end", 1.1),
        Column("tension", "end", 1.1),
        Column("compression", "end", 1.2),
        _NOTE,
    )
    rows = tuple(_root(root, notes) for root in found.stresses.roots)
    said = (
        "Forces and moments at the held ends come from the velocity triangles and the row's own axial force in each "
        "state; a blade is held at the hub, a vane as the scheme says. The notch is in the stress, no factor is."
    )
    table = Table("Vanes and blades at their held ends, steady flow.", columns, rows)
    return Heading("Vanes and blades"), Text(said), table


def _root(root: RootStress, notes: SafetyNotes) -> tuple[str, ...]:
    forces = (root.axial_force, root.tangential_force)
    moments = (root.axial_bending, root.tangential_bending)
    return (
        f"{root.part}, {root.end}",
        root.state,
        *(fmt.quantity(value, fmt.FORCE) for value in forces),
        *(fmt.quantity(value, fmt.TORQUE) for value in moments),
        fmt.quantity(root.pull, fmt.FORCE),
        *(fmt.quantity(value, fmt.PRESSURE) for value in (root.highest_stress, root.lowest_stress)),
        notes.mark(root.safety),
    )


def _duct(duct: DuctStress, notes: SafetyNotes) -> tuple[Block, ...]:
    built = "a solid section" if duct.wall is None else f"a skin of {fmt.quantity(duct.wall, fmt.SMALL_LENGTH)}"
    said = [
        f"The duct is taken as a ring of radius {fmt.quantity(duct.radius, fmt.LENGTH)}, "
        f"{fmt.quantity(duct.width, fmt.LENGTH)} wide, with {built}, "
        f"{fmt.quantity(duct.mass_per_length, _MASS_ALONG)} along its round.",
        "The through-flow lowers the pressure inside by up to "
        f"{fmt.quantity(duct.pressure_difference, fmt.PRESSURE)} ({duct.state}), "
        f"{fmt.quantity(duct.pressure.buckling_use, fmt.SHARE, 2)} of what folds a round, "
        f"even ring ({notes.mark((duct.safety, duct.pressure.safety))}).",
    ]
    if duct.point is None or duct.point_load is None:
        said.append(sentence(duct.point_from))
    else:
        said.append(
            f"A push of {fmt.quantity(duct.point_load, fmt.FORCE)} on one place ({clean(duct.point_from)}) dents the "
            f"ring by {fmt.quantity(duct.point.inward_at_load, fmt.SMALL_LENGTH)} there "
            f"({notes.mark((duct.safety, duct.point.safety))}). A blow of milliseconds is taken as if it stood "
            "still, with an equal push opposite: on the safe side for the ring, silent about the crushed place."
        )
    return Heading("Duct"), Text(signs(" ".join(said)))


def _shaft(cases: tuple[ShaftCase, ...], notes: SafetyNotes) -> tuple[Block, ...]:
    if not cases:
        return ()
    columns = (
        Column("case", share=1.8),
        Column("torque", "end"),
        Column("thrust", "end"),
        Column("bending", "end"),
        Column("shaft, von Mises", "end", 1.2),
        Column("its use", "end", 0.8),
        Column("bolt, von Mises", "end", 1.2),
        Column("their use", "end", 0.9),
        Column("read with", share=1.5),
    )
    rows = tuple(_shaft_row(case, notes) for case in cases)
    return Heading("Shaft and flange"), Table(
        "Shaft and bolts by case; use with the factors. Braked: by the brake after loss of load.", columns, rows
    )


def _shaft_row(case: ShaftCase, notes: SafetyNotes) -> tuple[str, ...]:
    bases = [case.safety]
    cells = []
    for stress, found, check in (
        (None if case.stress is None else case.stress.von_mises, case.stress, case.check),
        (None if case.bolts is None else case.bolts.largest_stress, case.bolts, case.bolt_check),
    ):
        if stress is None or found is None or check is None:
            cells += ["not given", ""]
            continue
        cells += [fmt.quantity(stress, fmt.PRESSURE), fmt.quantity(check.use, fmt.SHARE, 2)]
        bases += [found.safety, check.safety]
    return (
        case.case,
        fmt.quantity(case.torque, fmt.TORQUE),
        fmt.quantity(case.thrust, fmt.FORCE),
        fmt.quantity(case.bending, fmt.TORQUE),
        *cells,
        notes.mark(tuple(bases)),
    )


def _frequencies(found: StrengthFindings, notes: SafetyNotes) -> tuple[Block, ...]:
    shaken = found.frequencies
    columns = (
        Column("part", share=1.2),
        *(Column(f"mode {k}, {where}", "end") for k in (1, 2, 3) for where in ("air", "water")),
        _NOTE,
    )
    rows = tuple(
        (
            name,
            *(
                fmt.quantity(float(value), _HERTZ)
                for pair in zip(m.in_air, m.in_water, strict=True)
                for value in pair
            ),
            notes.mark(m.safety),
        )
        for name, m in (("vane", shaken.vane), ("blade", shaken.blade), ("duct", shaken.duct))
    )
    low, high = (fmt.quantity(speed, fmt.ROTATION) for speed in (shaken.slowest, shaken.fastest))
    share = fmt.quantity(shaken.resonance.margin, fmt.SHARE, 2)
    said = (
        f"Rotor, blades and vanes shake the parts at their own pace and at twice it, between {low} and {high}: from "
        f"the slowest on load to runaway in the fastest water. Wanted is a distance of {share} "
        f"({notes.mark(shaken.resonance.safety)})."
    )
    picture = Picture(
        "shaken",
        "Sloping: what shakes; level: what would answer in water, with the distance asked for.",
        "Natural frequencies of vane, blade and duct over rotor speed against rotor, blade and vane passing.",
    )
    return (
        Heading("What shakes and what answers"),
        Text(signs(said)),
        picture,
        Table("Natural frequencies, lowest first.", columns, rows),
        *_close(found),
    )


def _close(found: StrengthFindings) -> tuple[Block, ...]:
    """Which rotor speeds not to stay at."""
    close = [meeting for meeting in found.frequencies.resonance.meetings if not meeting.apart]
    if not close:
        return ()
    columns = (
        Column("part"),
        Column("mode", "end", 0.6),
        Column("frequency", "end"),
        Column("shaken by", share=1.6),
        Column("they meet at", "end"),
        Column("distance", "end"),
    )
    rows = tuple(
        (
            meeting.part,
            str(meeting.mode),
            fmt.quantity(meeting.natural, _HERTZ),
            f"{meeting.multiple} × {meeting.shaken_by}{'' if meeting.direct else ', by the water alone'}",
            fmt.quantity(meeting.critical_speed, fmt.ROTATION),
            fmt.quantity(meeting.separation, fmt.SHARE, 2),
        )
        for meeting in close
    )
    return (Table("Too near each other: do not let the rotor stay at these speeds.", columns, rows),)


def _fatigue(found: StrengthFindings, notes: SafetyNotes) -> tuple[Block, ...]:
    heading = Heading("Fatigue")
    if not found.fatigue:
        needs = (
            "Nothing counted: no series of stress is given. Fatigue ends most turning machines; measure or compute a "
            "series at each notch and weld, and give it in [machine.NAME.strength.series.PLACE]."
        )
        return heading, Text(needs), Text(caution("fatigue").sentence, "safety")
    blocks: list[Block] = [heading, Text(caution("fatigue").sentence, "safety")]
    for number, place in enumerate(found.fatigue, start=1):
        if place in drawn_places(found):
            blocks.append(
                Picture(
                    f"damage_{number}",
                    f"{clean(place.place)}: damage a year with its factor, on a logarithmic scale.",
                    "Yearly fatigue damage as a bar, what lasts the wanted life as a dashed line.",
                )
            )
        blocks.append(strength_tables.damage(shares(place), _years(place.wanted_life), notes))
    return tuple(blocks)


def _years(seconds: float | None) -> float:
    """A life in years; 20 where no cost tells one, as is usual (own choice) [yr]."""
    return 20.0 if seconds is None else seconds / YEAR
