"""What a dossier says in words: what is invented, what is missing, what is assumed, who must check what."""

from __future__ import annotations

from racewright.ledger.findings import Assumption, Duty, Missing
from racewright.scheme.model import CaseTable, Scheme
from racewright.scheme.place_tables import PlaceTable
from racewright.supply.result import YearlyEnergy


def invented(scheme: Scheme, case: CaseTable) -> tuple[str, ...]:
    """One sentence for each invented part of a case."""
    said = []
    place = scheme.place.get(case.place or "")
    if place is not None and place.record is not None and place.record.invented:
        said.append(f"The record is invented ([place.{case.place}.record]): nothing in it was measured.")
    if place is not None and place.invented:
        said.append(f"{_reach(place)} invented ([place.{case.place}]); no such place exists.")
    machine = scheme.machine.get(case.machine or "")
    if machine is not None and machine.invented:
        said.append(f"The machine is invented ([machine.{case.machine}]); it was not built or tested.")
    holding = scheme.holding.get(case.holding or "")
    if holding is not None and holding.invented:
        said.append(f"The holding is invented ([holding.{case.holding}]): lines, anchors, debris and logs.")
    trials = scheme.trials.get(case.trials or "")
    if trials is not None and trials.invented:
        said.append(f"The trials are invented ([trials.{case.trials}]): no model was built, nothing was measured.")
    neighbours = scheme.neighbours.get(case.neighbours or "")
    if neighbours is not None and neighbours.invented:
        said.append(
            f"The neighbours are invented ([neighbours.{case.neighbours}]): nobody counted fish or debris there."
        )
    growth = scheme.growth.get(case.growth or "")
    if growth is not None and growth.invented:
        said.append(f"The growth, its costs, times and chances are invented ([growth.{case.growth}]).")
    community = scheme.community.get(case.community or "")
    if community is not None and community.invented:
        said.append(f"The community, its diesel set and all prices are invented ([community.{case.community}]).")
    return tuple(said)


def _reach(place: PlaceTable) -> str:
    """'The reach, its transect and its rating are', as far as the place has them."""
    parts = (
        ("its transect", place.transect),
        ("its rating", place.rating),
        ("its gaugings", place.gaugings),
        ("its spot speeds", place.spot),
    )
    named = [name for name, table in parts if table]
    if not named:
        return "The place is"
    return ", ".join(["The reach", *named[:-1]]) + f" and {named[-1]} are"


def missing(
    case: CaseTable,
    *,
    has_cost: bool,
    has_strength: bool,
    energy: YearlyEnergy | None,
    has_supply: bool = False,
    has_money: bool = False,
) -> tuple[Missing, ...]:
    """Chapters that the case has no tables for, or no answer."""
    found = []
    if case.machine is None:
        found.append(Missing("Machine", "a [machine.NAME] table and 'machine = \"NAME\"' in the case"))
    if case.trials is None:
        found.append(Missing("Trials", "a [trials.NAME] table of channel tests, and 'trials = \"NAME\"' in the case"))
    if case.neighbours is None:
        needs = "a [neighbours.NAME] table of fish, debris and sound, and 'neighbours = \"NAME\"' in the case"
        found.append(Missing("Fish, debris and sound", needs))
    if case.machine is not None and not has_strength:
        needs = "a [machine.NAME.strength] table of materials, walls, shaft and flange"
        found.append(Missing("What must be strong", needs))
    if case.growth is None:
        found.append(Missing("Growth", "a [growth.NAME] table of sizes to come, and 'growth = \"NAME\"' in the case"))
    if case.place is None:
        found.append(Missing("Place", "a [place.NAME] table with a record, and 'place = \"NAME\"' in the case"))
    if case.holding is None:
        found.append(Missing("How it is held", "a [holding.NAME] table, and 'holding = \"NAME\"' in the case"))
    if case.machine is None or case.place is None:
        found.append(Missing("Energy", "both a machine and a place"))
    if case.community is None:
        found.append(Missing("Cost", "a [community.NAME] table with its diesel set"))
    elif not has_cost and energy is not None and energy.total.low == 0.0 < energy.total.value:
        text = "a speed known better: the low end of the energy's band is 0, so no cost has an upper end"
        found.append(Missing("Cost", text))
    elif not has_cost:
        found.append(Missing("Cost", "a [machine.NAME.cost] table and yearly energy"))
    if case.community is not None and not has_supply:
        needs = "a [community.NAME.supply] table with its load, and a record of the place with dates"
        found.append(Missing("Supply by the hour", needs))
    elif case.community is not None and not has_money:
        found.append(
            Missing("Money over the life", "a [community.NAME.money] table, and a [machine.NAME.cost] table")
        )
    return tuple(found)


def duties(scheme: Scheme, case: CaseTable) -> tuple[Duty, ...]:
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
    if case.holding is not None:
        what = (
            "lines, anchors and their pull tests, weak link, debris and strikes; the sizes before anything is bought"
        )
        found.append(Duty("Engineer licensed for moorings", what))
    place = scheme.place.get(case.place or "")
    if place is not None:
        found += [
            Duty("Hydrographer", _hydrography(place)),
            Duty("River authority", "permits for anchoring, navigation, fish passage and work in the water"),
        ]
    if case.neighbours is not None:
        found.append(Duty("Fish biologist", "which fish pass, how long, when and how they lie; what a strike does"))
        found.append(Duty("Acoustician", "sound of the machine and of the water without it, measured at the place"))
    if case.community is not None:
        found.append(Duty("Community and operator", "load, fuel price delivered, set hours and willingness to pay"))
    return tuple(found)


def _hydrography(place: PlaceTable) -> str:
    if place.spot:
        return "a record of speed or discharge over a year or more; spot speeds only scale an assumed distribution"
    if place.record is not None and place.record.kind != "discharge":
        return "speed over the capture area, depth and bed at the machine's place, low water included"
    if place.gaugings is not None:
        return "gaugings above and below those given, transect and speed at the machine's place, low water included"
    return "rating, transect and speed measured at the machine's place, low water included"


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
_TRANSECT = (
    Assumption(
        "Speed at the machine: discharge to level by the rating curve, area from the transect, local depth-mean speed"
        " by depth (uniform slope and roughness) unless a measured factor is given, power-law vertical profile,"
        " cube mean over the capture area.",
        "Manning per vertical; profile exponent after Neary, Gunawan & Sale 2013",
    ),
)
_SPEED = (
    Assumption(
        "Speed at the machine: the record or histogram is taken as the cube mean over the capture area.",
        "as given; nothing is corrected",
    ),
)
_SPOTS = (
    Assumption(
        "Speed at the machine: estimated. Spot speeds scale a stated distribution over the year; low, middle and high"
        " flow stand for 70 to 99 %, 30 to 70 % and 2 to 30 % of exceedance.",
        "rules of this program, no source",
    ),
)
_RIVER = (
    Assumption(
        "The machine does not change the river, and lost time falls evenly on all speeds but for the season.",
        "common practice, no source",
    ),
)
_SEASON = Assumption(
    "The season repeats every year on the same days (UTC); the climate counts no speed while the machine is out.",
    "as given",
)
_BAND = (
    Assumption(
        "The energy's band joins, by root of squares, the site's speed (all speeds wrong by one factor), the power"
        " curve and the spread of years; each about 95 %.",
        "method of this program; uncertainties as given or by default",
    ),
)
_COST = (
    Assumption(
        "Saving lies between two cases: the diesel set keeps running and only its fuel slope is saved, or its hours"
        " fall with the energy and the standing use is saved too. The supply by the hour, where given, counts both.",
        "fuel curve after Skarstein & Uhlen 1989, from memory",
    ),
    Assumption("Levelised cost in real money with a real interest rate.", "closed form"),
)
_SUPPLY = (
    Assumption(
        "Supply by the hour: every power is its hour's mean, nobody looks ahead, and sets, battery and dump load"
        " are run by fixed rules. Days hold one speed where the record has one value a day.",
        "rules in docs/dispatch_rules.md; own choice",
    ),
    Assumption(
        "Stops come by chance and independently, at all speeds alike; drawn years take the water of one recorded year"
        " each and a load that differs by one factor.",
        "common practice, no source",
    ),
)

_NEIGHBOURS = (
    Assumption(
        "Fish and debris drift evenly with the water and neither steer nor turn; blows in vanes and rotor, pressure"
        " and shear are independent. No fish keeps out unless the scheme says so and names who watched.",
        "closed form, tested against moving blades; harm from published laboratory rows, most from memory",
    ),
    Assumption(
        "Sound: the turbulence that vanes and blades cut, as compact dipoles, unless a measurement is given to scale;"
        " one law of spreading, ambient noise from curves of the open sea.",
        "closed form on stated turbulence; drive, bearings and cavitation are not in it",
    ),
)


def assumptions(scheme: Scheme, case: CaseTable) -> tuple[Assumption, ...]:
    """The stated assumptions of the chapters that a case has."""
    place = scheme.place.get(case.place or "")
    found: tuple[Assumption, ...] = ()
    if case.machine is not None:
        found += _MACHINE
    if place is not None:
        discharge = place.record is not None and place.record.kind == "discharge"
        found += (_SPOTS if place.spot else _TRANSECT if discharge else _SPEED) + _RIVER
        found += (_SEASON,) if place.season.closed else ()
        found += _BAND if case.machine is not None else ()
    if case.neighbours is not None:
        found += _NEIGHBOURS
    community = scheme.community.get(case.community or "")
    if community is not None:
        found += _COST
        found += _SUPPLY if community.supply is not None else ()
    return found


def _not_strong(scheme: Scheme, case: CaseTable) -> tuple[str, ...]:
    """What is not looked at of the strength of the machine's parts."""
    machine = scheme.machine.get(case.machine or "")
    if machine is None or machine.strength is None:
        return ("Strength of any part, fatigue, natural frequencies",)
    found: tuple[str, ...] = (
        "Strength of hub, bearings, seals, struts and tether points; blows on vanes and blades; stress of gusts",
    )
    return found if machine.strength.series else (*found, "Fatigue: no series of stress is given")


def left_out(scheme: Scheme, case: CaseTable) -> tuple[str, ...]:
    """What this version does not compute, so that nobody takes silence for safety."""
    place = scheme.place.get(case.place or "")
    found: tuple[str, ...] = ()
    if case.machine is not None:
        found += (
            "Cavitation of the sections themselves, and where the flow leaves the duct's walls",
            "Struts and all else that hangs in the water besides duct, hub and rows",
            *_not_strong(scheme, case),
            "Gusts, waves and delays in the control; torsion of the shaft; heating of the generator",
        )
    if place is not None:
        if case.holding is None:
            found += ("Tethers, anchors, debris held on the lines, strikes by logs",)
        else:
            found += ("Motion of the machine on its lines in gusts and waves, galloping, and fatigue of the lines",)
        found += (
            "What blockage of the river, wakes between machines and turbulence do to energy: told, not counted",
            "Effect on levels",
            *(() if case.neighbours else ("Fish, debris that drifts through, sound",)),
        )
        closed = place.season
        if not closed.closed and closed.least_speed is closed.least_depth is closed.greatest_speed is None:
            found += ("Ice and season: none is given, so the machine counts as in the water all year",)
    community = scheme.community.get(case.community or "")
    if community is not None and community.supply is None:
        found += ("The hour-by-hour balance of load, machine and set; battery; cable losses",)
    elif community is not None:
        found += ("Peaks and dips within the hour; voltage and frequency; wear and ageing of sets and battery",)
    return found
