"""Invented findings for the dossier's tests: plausible analytic stand-ins, a test double and nothing else."""

from __future__ import annotations

from racewright.dossier.document import Document
from racewright.ledger.findings import Assumption, Duty, Findings, InputRow, Missing
from racewright.remark import Remark
from tests.dossier.machine_sample import machine
from tests.dossier.machine_shapes import RH, RT
from tests.dossier.site_sample import community, energy, place


def told_on_page_one(document: Document) -> str:
    """Every line of the answers."""
    return " ".join(" ".join(answer.lines) for answer in document.answers)


__all__ = [
    "ASSUMPTIONS",
    "DUTIES",
    "INPUTS",
    "MISSING",
    "REMARKS",
    "RH",
    "RT",
    "community",
    "empty",
    "energy",
    "full",
    "machine",
    "place",
    "told_on_page_one",
]

REMARKS = (
    Remark(
        "warning",
        "At low water (Q95) the duct stands 0.18 m above the bed; floating wood will not pass beneath.",
        "clearance",
    ),
    Remark(
        "caution",
        "Ducted power carries the prior band of 25 % either way until a test of this machine calibrates it.",
        "ducted power",
    ),
    Remark("caution", "The record is 2.0 years long; a dry or wet year may move the yield by 15 %.", "record"),
    Remark("caution", "The diesel runs at 30 % load, where its fuel use is least certain.", "diesel load"),
    Remark("note", "Availability of 92 % is assumed, not measured.", "availability"),
)
DUTIES = (
    Duty("Hydrologist", "Check the rating curve above the highest gauging, and low water against a dry year."),
    Duty(
        "Licensed structural engineer",
        "Check duct, rows and every part that holds the machine under the local code.",
    ),
    Duty("Licensed electrician", "Check generator, cable and protection before anything is switched on."),
    Duty("Permit authority", "Decide on navigation, fish passage and works in the river."),
)
INPUTS = (
    InputRow(
        "machine.river_unit.duct.throat_diameter",
        "1000 mm",
        "smallest inner diameter of the duct",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.duct.exit_area_ratio",
        "1.5",
        "exit area over throat area, full circles",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.drive.rated_power",
        "5 kW",
        "electrical power that is not passed",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.drive.gear_efficiency",
        "96 %",
        "share of shaft power that the gear passes on",
        "default: common practice",
    ),
    InputRow("place.reach.record", "discharge.csv", "file of daily discharge", "invented for the tests"),
    InputRow(
        "place.reach.hub_depth",
        "1.4 m",
        "depth of the axis below the surface at median flow",
        "invented for the tests",
    ),
    InputRow("community.village.diesel.price", "2.1 EUR/L", "fuel price at the village", "invented for the tests"),
)
ASSUMPTIONS = (
    Assumption("The flow through duct and rows is axisymmetric and free of friction outside the rows.", "method"),
    Assumption("The prior band on every ducted power is 25 % either way.", "common practice, no source"),
    Assumption("The year has 8760 hours.", "convention"),
)
MISSING = (
    Missing("holding", "a [machine.river_unit.tethers] table and the anchors' places"),
    Missing("passage", "the fish that live in the reach, by length and season"),
)


def full(**change: object) -> Findings:
    """Everything known; keyword arguments replace fields."""
    fields: dict[str, object] = {
        "title": "River unit at the ferry reach",
        "case": "river",
        "version": "0.1.0",
        "scheme_hash": "5e94a8e0c1b2d3f4a5b6c7d8e9f00112233445566778899aabbccddeeff00112",
        "invented": (
            "The reach, its record and the village are invented for the demonstration.",
            "No figure here was measured.",
        ),
        "machine": machine(),
        "place": place(),
        "energy": energy(),
        "community": community(),
        "inputs": INPUTS,
        "assumptions": ASSUMPTIONS,
        "missing": MISSING,
        "duties": DUTIES,
        "remarks": REMARKS,
        "count": 1,
        "left_out": ("Cavitation", "Tethers, anchors, debris"),
    }
    return Findings(**{**fields, **change})  # type: ignore[arg-type]


def empty() -> Findings:
    """Nothing known."""
    return full(
        title="Untitled",
        invented=(),
        machine=None,
        place=None,
        energy=None,
        community=None,
        inputs=(),
        assumptions=(),
        duties=(),
        remarks=(),
        missing=(
            Missing("place", "a [place.x] table with a record or a histogram of speed"),
            Missing("machine", "a [machine.x] table with duct, hub, rows and drive"),
            Missing("energy", "a place and a machine joined by a [case.x] table"),
            Missing("cost", "a [community.x] table with its diesel set"),
        ),
    )
