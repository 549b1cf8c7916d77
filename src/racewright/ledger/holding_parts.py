"""The holding's part of a case's findings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from racewright.holding.layout import Layout
from racewright.holding.stream import STANDARD_GRAVITY
from racewright.ledger.holding_findings import AnchorFound, DebrisHeld, Held, HeldLoad, HoldingHelp
from racewright.ledger.holding_things import LAYOUT_KEYS, layout_of
from racewright.ledger.roles import Roles
from racewright.ledger.struck_findings import StruckBy, StruckYear
from racewright.remark import Remark

HELD_NODES = ("held_loads", "held", "held_anchors", "debris_held", "holding_help")
"""What `tethers` asks for."""
STRUCK_NODES = ("held", "debris_held", "struck", "struck_year")
"""What `strike` asks for."""


@dataclass(frozen=True)
class HoldingFindings:
    """How the machine is held and what strikes it.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    invented : bool
        The scheme says that it is made up.
    layout : Layout
        As it is meant to hang in the first depth.
    loads : tuple of HeldLoad
        Load states that were asked.
    held : Held
    anchors : tuple of AnchorFound
    debris : tuple of DebrisHeld
    struck : tuple of StruckBy
        Empty where no strike is given, or none was asked for.
    year : StruckYear or None
    help : HoldingHelp or None
    weak_link : str
        '' without one.
    """

    name: str
    description: str
    invented: bool
    layout: Layout
    loads: tuple[HeldLoad, ...]
    held: Held
    anchors: tuple[AnchorFound, ...]
    debris: tuple[DebrisHeld, ...]
    struck: tuple[StruckBy, ...]
    year: StruckYear | None
    help: HoldingHelp | None
    weak_link: str


def holding_of(roles: Roles, values: dict[str, Any]) -> HoldingFindings | None:
    """All that was found of the case's holding; None where it has none."""
    held: Held | None = values["held"]
    if held is None:
        return None
    keys = {path: roles.plain(path) for path in LAYOUT_KEYS}
    link = roles.find("holding.weak_link")
    return HoldingFindings(
        name=roles.names["holding"],
        description=roles.find("holding.description"),
        invented=roles.find("holding.invented"),
        layout=layout_of(keys, values["water"].density, STANDARD_GRAVITY, held.drawn_height),
        loads=values["held_loads"],
        held=held,
        anchors=values["held_anchors"] or (),
        debris=values["debris_held"] or (),
        struck=values["struck"] or (),
        year=values["struck_year"],
        help=values["holding_help"],
        weak_link="" if link is None else link.what,
    )


def held_remarks(found: HoldingFindings) -> tuple[Remark, ...]:
    """Remarks on pose, lines and anchors, each once."""
    told = [*found.held.remarks]
    for anchor in found.anchors:
        for remark in anchor.check.remarks if anchor.check is not None else ():
            named = remark.severity == "warning" or remark.about == "anchor scatter"
            told.append(replace(remark, text=f"Anchor '{anchor.name}': {remark.text}") if named else remark)
        told += anchor.proof.remarks if anchor.proof is not None else ()
    return tuple(dict.fromkeys(told))


def holding_remarks(found: HoldingFindings | None) -> tuple[Remark, ...]:
    """Every remark of a holding, each once."""
    if found is None:
        return ()
    told = list(held_remarks(found))
    for one in found.debris:
        told += one.release.remarks if one.release is not None else ()
    for log in found.struck:
        told += log.phases.remarks if log.phases is not None else ()
    told += found.year.remarks if found.year is not None else ()
    return tuple(dict.fromkeys(told))
