"""What the supply page shows of the year: supply, upkeep and money, cost against diesel, the programme."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from racewright.desk.seam import Asked
from racewright.ledger.inputs import case_of

if TYPE_CHECKING:
    from racewright.scheme.model import CaseTable, Scheme


def year(asked: Asked) -> dict[str, Any]:
    """Of the case: `supply`, `upkeep`, `remarks` are those of `supply --json`, `programme` is that of
    `programme --json`, `comparison` that of `report --json`."""
    from racewright.desk.parts.chapter import told
    from racewright.dossier.chapters import upkeep as upkeep_chapter
    from racewright.ledger.energy_parts import WORST_FIRST
    from racewright.ledger.supply_findings import WANTED, supply_of, supply_remarks, upkeep_of
    from racewright.ledger.words import invented

    name, case = case_of(asked.loaded, asked.options.case)
    scheme = asked.loaded.scheme
    values = asked.values(*WANTED, "comparison", "programme")
    supply, upkeep = supply_of(values), upkeep_of(values)
    community = scheme.community.get(case.community or "")
    ours = case.model_copy(update={"holding": None, "trials": None, "neighbours": None})
    currency = community.diesel.fuel_price.currency if community is not None else ""
    return {
        "case": name,
        "count": case.count,
        "description": community.description if community is not None else "",
        "invented": list(invented(scheme, ours)),
        "missing": [
            {"part": part, "needs": needs} for part, needs in missing(scheme, case, reached=supply is not None)
        ],
        "supply": supply,
        "upkeep": upkeep,
        "remarks": sorted(supply_remarks(values), key=lambda r: WORST_FIRST[r.severity]),
        "comparison": values["comparison"],
        "programme": values["programme"],
        "programme_invented": case.growth is not None and scheme.growth[case.growth].invented,
        "chapters": [] if upkeep is None else [told(upkeep_chapter.write(upkeep, currency))],
    }


def missing(scheme: Scheme, case: CaseTable, *, reached: bool) -> list[tuple[str, str]]:
    """What the page has nothing to show of, and what to add for it.

    Parameters
    ----------
    scheme, case
    reached : bool
        True where there is an hourly year.
    """
    found = []
    community, machine = scheme.community.get(case.community or ""), scheme.machine.get(case.machine or "")
    for role, table in (("place", case.place), ("machine", case.machine), ("community", case.community)):
        if table is None:
            found.append((f"the {role}", f'Add a [{role}.NAME] table, and {role} = "NAME" to the case.'))
    if community is not None:
        at = f"community.{case.community}"
        if community.supply is None:
            found.append(
                ("the hourly year", f"Add a [{at}.supply] table: its year, and its load by meter or by shapes.")
            )
        elif not reached and case.place is not None and case.machine is not None:
            needs = "The place needs a record with dates of which some calendar year is three quarters whole."
            found.append(("the hourly year", needs))
        if machine is not None and machine.cost is None:
            found.append(
                ("what the machine costs", f"Add a [machine.{case.machine}.cost] table: capital, yearly, life.")
            )
        if community.supply is not None and community.supply.sun is None:
            found.append(("the sun", f"Add a [{at}.supply.sun] table with a yearly profile of the panels' power."))
        if community.supply is not None and community.supply.battery is None:
            found.append(("a battery", f"Add a [{at}.supply.battery] table with capacity and powers."))
        if community.money is None:
            found.append(("worth over the life", f"Add a [{at}.money] table: whose prices, growth, ranges in doubt."))
    if case.growth is None or scheme.growth[case.growth].programme is None:
        needs = "Add a [growth.NAME] table with sizes, what each costs, and a programme; name it in the case."
        found.append(("the programme", needs))
    return found
