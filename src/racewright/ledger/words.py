"""What a dossier says in words: what is invented, what is missing, what is assumed, who must check what."""

from __future__ import annotations

from racewright.ledger.findings import Assumption, Duty, Missing
from racewright.scheme.model import CaseTable, Scheme


def invented(scheme: Scheme, case: CaseTable) -> tuple[str, ...]:
    """One sentence for each invented part of a case."""
    said = []
    place = scheme.place.get(case.place or "")
    if place is not None and place.record is not None and place.record.invented:
        said.append(f"The record is invented ([place.{case.place}.record]): nothing in it was measured.")
    if place is not None and place.invented:
        said.append(
            f"The reach, its transect and its rating are invented ([place.{case.place}]); no such place exists."
        )
    machine = scheme.machine.get(case.machine or "")
    if machine is not None and machine.invented:
        said.append(f"The machine is invented ([machine.{case.machine}]); it was not built or tested.")
    community = scheme.community.get(case.community or "")
    if community is not None and community.invented:
        said.append(f"The community, its diesel set and all prices are invented ([community.{case.community}]).")
    return tuple(said)


def missing(case: CaseTable, *, has_cost: bool) -> tuple[Missing, ...]:
    """Chapters that the case has no tables for."""
    found = []
    if case.machine is None:
        found.append(Missing("Machine", "a [machine.NAME] table and 'machine = \"NAME\"' in the case"))
    if case.place is None:
        found.append(Missing("Place", "a [place.NAME] table with a record, and 'place = \"NAME\"' in the case"))
    if case.machine is None or case.place is None:
        found.append(Missing("Energy", "both a machine and a place"))
    if case.community is None:
        found.append(Missing("Cost", "a [community.NAME] table with its diesel set"))
    elif not has_cost:
        found.append(Missing("Cost", "a [machine.NAME.cost] table and yearly energy"))
    return tuple(found)


def duties(case: CaseTable) -> tuple[Duty, ...]:
    """Who must check what before anyone relies on it."""
    found = []
    if case.machine is not None:
        found += [
            Duty(
                "Test engineer",
                "power, thrust and torque of a model in a water channel, with stated uncertainty",
            ),
            Duty("Chartered structural engineer", "strength of duct, vanes, blades, shaft and tether points"),
            Duty(
                "Licensed electrician",
                "generator, cable, earthing and protection under the local wiring code",
            ),
        ]
    if case.place is not None:
        found += [
            Duty(
                "Hydrographer",
                "rating, transect and speed measured at the machine's place, low water included",
            ),
            Duty("River authority", "permits for anchoring, navigation, fish passage and work in the water"),
        ]
    if case.community is not None:
        found.append(Duty("Community and operator", "load, fuel price delivered, set hours and willingness to pay"))
    return tuple(found)


_MACHINE = (
    Assumption(
        "Flow through the duct: inviscid, axisymmetric, uniform load, free wake, unbounded stream. It is neither an"
        " upper nor a lower bound: separation would take power away, mixing of the wake by the outer flow adds some.",
        "ring-vortex method; checked against closed forms, see the theory notes",
    ),
    Assumption(
        "Rows: thin-section theory times the flat-plate row factor, friction-line drag by Reynolds number, radial"
        " equilibrium at half a row's own change, losses of end walls and tip gap by published forms.",
        "sources in the theory notes; several are from memory",
    ),
    Assumption(
        "Friction on duct and hub is a loss of head before the rows; the swirl that leaves and a stated core behind"
        " the hub count in the wake and in the thrust.",
        "plate friction at the solved surface speeds; core radius own choice",
    ),
    Assumption(
        "Every ducted power carries a band by cause, never narrower than 25 % either way until the user's own test"
        " calibrates it.",
        "causes re-solved with their own ranges; the 25 % are common practice, no source",
    ),
)
_PLACE = (
    Assumption(
        "Speed at the machine: discharge to level by the rating curve, area from the transect, local depth-mean speed"
        " by depth (uniform slope and roughness) unless a measured factor is given, power-law vertical profile,"
        " cube mean over the capture area.",
        "Manning per vertical; profile exponent after Neary, Gunawan & Sale 2013",
    ),
    Assumption(
        "The machine does not change the river: one small unit in a wide reach.", "common practice, no source"
    ),
)
_COST = (
    Assumption(
        "Saving lies between two cases: the diesel set keeps running and only its fuel slope is saved, or its hours"
        " fall with the energy and the standing use is saved too. The hourly balance is not computed yet.",
        "fuel curve after Skarstein & Uhlen 1989, from memory",
    ),
    Assumption("Levelised cost in real money with a real interest rate.", "closed form"),
)


def assumptions(case: CaseTable) -> tuple[Assumption, ...]:
    """The stated assumptions of the chapters that a case has."""
    found: tuple[Assumption, ...] = ()
    if case.machine is not None:
        found += _MACHINE
    if case.place is not None:
        found += _PLACE
    if case.community is not None:
        found += _COST
    return found


def left_out(case: CaseTable) -> tuple[str, ...]:
    """What this version does not compute, so that nobody takes silence for safety."""
    found: tuple[str, ...] = ()
    if case.machine is not None:
        found += (
            "Cavitation of the sections themselves, and where the flow leaves the duct's walls",
            "Struts and all else that hangs in the water besides duct, hub and rows",
            "Strength of any part, fatigue, natural frequencies",
            "Gusts, waves and delays in the control; torsion of the shaft; heating of the generator",
        )
    if case.place is not None:
        found += (
            "Tethers, anchors, debris held on the lines, strikes by logs",
            "Blockage of the river by the machine, wakes between machines, effect on levels",
            "Fish, sound and other neighbours; ice and season",
            "The band of the site's speed: it comes on top of the band on power",
        )
    if case.community is not None:
        found += ("The hour-by-hour balance of load, machine and set; battery; cable losses",)
    return found
