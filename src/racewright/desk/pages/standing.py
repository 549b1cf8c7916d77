"""Where this scheme stands: the machine in its stream, power, energy, cost, warnings, what is missing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.seam import Asked, Drawing, Page
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


def data(asked: Asked) -> dict[str, Any]:
    """The first page of the dossier in numbers; paths are those of `report --json`."""
    from dataclasses import asdict

    from racewright.dossier.compose import compose

    found = asked.findings()
    machine = found.machine
    answers = compose(found).answers
    return {
        "title": found.title,
        "case": found.case,
        "count": found.count,
        "invented": list(found.invented),
        "machine": None if machine is None else {"name": machine.name, "design_point": machine.design_point},
        "energy": found.energy,
        "community": found.community,
        "answers": [
            {"question": a.question, "headlines": [list(h) for h in a.headlines], "lines": list(a.lines)}
            for a in answers
        ],
        "missing": [asdict(m) for m in found.missing],
        "left_out": list(found.left_out),
        "remarks": [asdict(r) for r in found.remarks],
    }


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """The machine in its stream, to scale; nothing without a machine."""
    from racewright.dossier.figures import stream
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.figures.save import svg

    found = asked.findings()
    if found.machine is None:
        return {}
    wide, narrow = (svg(stream.draw(found.machine, found.place, width)) for width in (WIDE, NARROW))
    return {"stream": Drawing(wide, narrow)}


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    if data["invented"]:
        look.cautions(data["invented"])
    if data["machine"] is None and data["energy"] is None and not screen.table("place"):
        look.empty(
            "Nothing is computed yet: the case joins no place and no machine.",
            "Add a [place.NAME] table with a record and a [machine.NAME] table, and name both in a [case.NAME] table."
            " The example 'racewright new demo' shows how.",
        )
    with look.columns("wide first"):
        with look.section("The machine in its stream"):
            _machine(screen, data)
        with look.section("What it gives, what it costs"):
            _figures(data)
    with look.columns():
        with look.section("Warnings"):
            look.warnings(data["remarks"], none="The computation left no remarks.")
        with look.section("What is missing next"):
            _missing(data)


def _machine(screen: Screen, data: dict[str, Any]) -> None:
    if data["machine"] is None:
        look.empty("No machine in this case yet.", "Run 'racewright size' to propose one, and paste its table.")
        return
    look.drawing(
        screen,
        "stream",
        "Side view of the machine in the water at median flow, streamlines left to right, to scale.",
    )
    for line in _answer(data, "What machine")["lines"]:
        look.note(line)


def _figures(data: dict[str, Any]) -> None:
    machine, energy, community = data["machine"], data["energy"], data["community"]
    with look.figures():
        if machine is not None:
            point = machine["design_point"]
            power = look.banded(point["band_W"], fmt.POWER)
            speed = fmt.fixed(point["stream_speed_m_per_s"], fmt.SPEED, 2)
            look.figure(f"Shaft power at {speed}", power.value, power.range)
        if energy is not None:
            total = look.banded(energy["total_J"], fmt.ENERGY)
            look.figure("Energy in a year", total.value, total.range, say="delivered at the place by one machine")
        if community is not None:
            _cost(community["comparison"])
    if energy is None:
        look.note("No yearly energy yet: that needs a place and a machine.", "soft")
    for line in (*_answer(data, "What power, what energy")["lines"], *_answer(data, "What it costs")["lines"]):
        look.note(line, "soft")


def _cost(comparison: dict[str, Any]) -> None:
    currency = comparison["currency"]
    per = fmt.per_energy(currency)
    ours = look.banded(next(v for k, v in comparison.items() if k.startswith("machine_cost")), per)
    worth = next(v for k, v in comparison.items() if k.startswith("fuel_worth_set_on"))
    diesel = next(v for k, v in comparison["diesel"].items() if k.startswith("cost"))
    look.figure("Cost of its energy", ours.value, ours.range)
    look.figure("Fuel it saves, set stays on", fmt.quantity(worth, per, 2), say="per kWh of the machine")
    look.figure("Diesel's whole cost", fmt.quantity(diesel, per, 2), say="no band computed")


def _missing(data: dict[str, Any]) -> None:
    missing = data["missing"]
    if missing:
        rows = [[m["chapter"], m["needs"]] for m in missing]
        look.table("Tables that the scheme has not yet", [look.Column("chapter"), look.Column("needs")], rows)
    else:
        look.note("The scheme has every table that this version computes from.")
    if data["left_out"]:
        look.note("Not computed by this version: " + "; ".join(data["left_out"]) + ".", "soft")
    look.note(
        "Not a basis for building, anchoring or switching on: local codes, permits and licensed practice decide.",
        "safety",
    )


def _answer(data: dict[str, Any], question: str) -> dict[str, Any]:
    """The dossier's answer to a question, by its first words."""
    empty: dict[str, Any] = {"lines": []}
    return next((a for a in data["answers"] if a["question"].startswith(question)), empty)


PAGE = Page("standing", "Where this scheme stands", "Standing", 0, data, view, drawings)
