"""Chapter on yearly energy."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters import yields
from racewright.dossier.chapters.words import absent, facts, remark_table
from racewright.dossier.document import Block, Chapter, Picture, Text
from racewright.dossier.text import signs
from racewright.ledger.findings import Findings


def write(findings: Findings) -> Chapter:
    """What the machine delivers in a year at the place."""
    energy = findings.energy
    if energy is None:
        return Chapter("energy", "Energy", (absent(findings, "energy"),))
    total = fmt.band(energy.total, fmt.ENERGY)
    whose = "The machine delivers" if findings.count == 1 else f"Each of the {findings.count} machines delivers"
    blocks: list[Block] = [
        Text(f"{whose} {total.value} in a year of 8760 h; the band is {total.range}.", "lead"),
    ]
    if findings.place is not None:
        blocks.append(
            Picture(
                "duration",
                "How long the water gives how much, and at which speeds the year's energy is made. "
                "Bars: energy; line: time.",
                "Duration curve of the place, and shares of energy and time by stream speed.",
            )
        )
    blocks.append(
        facts(
            "Energy in figures" if findings.count == 1 else "Energy of one machine in figures",
            [
                (
                    "yearly energy",
                    total.value,
                    f"at the machine's terminals; {total.range}: {signs(energy.total.basis)}",
                ),
                ("mean power", fmt.quantity(energy.mean_power, fmt.POWER), "electrical, over the whole year"),
                (
                    "capacity factor",
                    fmt.quantity(energy.capacity_factor, fmt.SHARE),
                    "mean power over rated power",
                ),
                (
                    "below cut-in or out",
                    fmt.quantity(energy.share_below_cut_in, fmt.SHARE),
                    "share of the year in water below cut-in, or out of the water for the season; stops come on top",
                ),
                (
                    "at rated power",
                    fmt.quantity(energy.share_rated, fmt.SHARE),
                    "share of the year held at rated power",
                ),
            ],
        )
    )
    site = None if findings.place is None else findings.place.site
    labels = () if site is None else tuple(s.label for s in site.standings if s.discharge > 0.0)
    blocks += yields.blocks(
        findings.energy_parts,
        () if site is None else site.outages,
        labels,
        predicted=site is not None and site.predicted,
    )
    remarks = tuple(dict.fromkeys((*energy.remarks, *yields.remarks(findings.energy_parts))))
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on the energy"))
    return Chapter("energy", "Energy", tuple(blocks))
