"""What is found of a case's holding, and the two parts of it that the page shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from racewright.desk import memory
from racewright.desk.parts.holding_plays import plays
from racewright.desk.seam import Asked, Drawing
from racewright.ledger.holding_parts import HELD_NODES, STRUCK_NODES, HoldingFindings, holding_of, holding_remarks
from racewright.ledger.inputs import case_of
from racewright.ledger.roles import roles_of

_LAST: dict[Any, HoldingFindings | None] = {}


def found_of(asked: Asked, wanted: tuple[str, ...]) -> HoldingFindings | None:
    """The findings that some nodes give; None where the case has no holding, machine or place. The last are kept."""
    key = (asked.loaded.digest, memory.stamps(asked.loaded), asked.options.case, wanted)
    if key not in _LAST:
        values = asked.values(*wanted)
        name, case = case_of(asked.loaded, asked.options.case)
        found = holding_of(roles_of(asked.loaded.scheme, name, case), values)
        _LAST.clear()
        _LAST[key] = found
    return _LAST[key]


def held(asked: Asked) -> dict[str, Any]:
    """`tethers` as the command of that name prints it, and the dossier's chapter for what stands below it."""
    from racewright.cli.holding_answer import tethers_printed
    from racewright.desk.parts.chapter import told
    from racewright.dossier.chapters import held as chapter

    found = found_of(asked, HELD_NODES)
    if found is None:
        return {"tethers": None, "chapter": None, "remarks": []}
    return {
        "tethers": tethers_printed(found),
        "chapter": told(chapter.write(found)),
        "remarks": [asdict(remark) for remark in holding_remarks(found)],
    }


def struck(asked: Asked) -> dict[str, Any]:
    """`strikes` as the command `strike` prints it, and for each log what can be played."""
    from racewright.cli.holding_answer import strikes_printed

    found = found_of(asked, STRUCK_NODES)
    if found is None:
        return {"strikes": None, "plays": [], "remarks": []}
    name, case = case_of(asked.loaded, asked.options.case)
    roles = roles_of(asked.loaded.scheme, name, case)
    apart = (*found.held.remarks, *(r for one in found.debris if one.release for r in one.release.remarks))
    return {
        "strikes": strikes_printed(found),
        "plays": plays(found.struck, roles),
        "remarks": [asdict(remark) for remark in holding_remarks(found) if remark not in apart],
    }


def drawn(asked: Asked) -> Mapping[str, Drawing]:
    """Use of the lines, and poses over stream speed, as the dossier draws them."""
    from racewright.dossier.figures import line_use, pose_speeds
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.figures.save import svg

    found = found_of(asked, HELD_NODES)
    if found is None:
        return {}
    held, invented = found.held, found.invented
    tables = tuple(one.intact for one in held.depths)
    wanted = {"cover": held.cover_wanted, "bed_clearance": held.bed_clearance_wanted}
    widths = (WIDE, NARROW)
    poses = (svg(pose_speeds.draw(tables[0], w, **wanted, invented=invented)) for w in widths)
    made = {"holding_poses": Drawing(*poses)}
    if held.worst:
        use = (svg(line_use.draw(held.worst, w, tables=tables, invented=invented)) for w in widths)
        made["holding_lines"] = Drawing(*use)
    return made
