"""Neighbours: fish that come in, beside bare rotors, debris that drifts through, sound under water."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.seam import Asked, Drawing, Page
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

_KEYS = {
    "fish": ("kind", "length", "heading", "avoidance"),
    "debris": ("kind",),
    "sound": ("spreading", "duration"),
}


def data(asked: Asked) -> dict[str, Any]:
    """The neighbours of the case; `neighbours` is that of `report --json`, `chapters` are the dossier's."""
    from racewright.cautions import caution
    from racewright.cli.neighbours_case import neighbours_figures
    from racewright.desk.parts.chapter import told
    from racewright.dossier.chapters import debris, fish, sound

    found = asked.findings().neighbours
    if found is None:
        return {"neighbours": None, "cautions": {}, "chapters": []}
    chapters = [fish.write(found), debris.write(found), *([sound.write(found)] if found.sound else [])]
    return {
        "neighbours": neighbours_figures(found),
        "cautions": {hazard: caution(hazard).sentence for hazard in ("fish", "flood_and_debris", "sound")},
        "chapters": [told(chapter) for chapter in chapters],
    }


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """The drawings of the dossier's chapters on fish, debris and sound."""
    from racewright.desk.parts.chapter import paired
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.neighbours_figures import draw_neighbours

    found = asked.findings()
    wide = draw_neighbours(found, WIDE)
    asked.tick(0.9)
    return paired(wide, draw_neighbours(found, NARROW))


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    from racewright.desk.parts.chapter_view import chapter

    found = data["neighbours"]
    if found is None:
        _nothing(screen)
        return
    _fish(found, data["cautions"])
    _debris_and_sound(found)
    for told in data["chapters"]:
        chapter(screen, told)
    _keys(screen, found)


def _nothing(screen: Screen) -> None:
    if not (screen.table("machine") and screen.table("place")):
        look.empty(
            "No neighbours yet: they need a place and a machine first.",
            "Name both in the case, then add a [neighbours.NAME] table with fish, debris and sound.",
        )
        return
    look.empty(
        "No neighbours in this case yet.",
        "Add a [neighbours.NAME.fish.NAME] table with kind and length of a fish that lives in the water, debris that"
        ' drifts in it, and name the table in the case as neighbours = "NAME".',
    )


def _fish(found: dict[str, Any], cautions: dict[str, str]) -> None:
    """One figure for each fish at the design point: struck in large type, death and its known ends beneath."""
    with look.section("Of the fish that come in at the design point"):
        if found["invented"]:
            look.cautions(["Invented: nobody counted or watched these fish."])
        told = [(one, _designed(one)) for one in found["fish"]]
        known = [(one, passage) for one, passage in told if passage is not None]
        if not known:
            look.note("No fish has an answer at the design point; the tables below say why.")
            return
        with look.figures():
            for one, passage in known:
                death = fmt.fixed(passage["death"][0], fmt.SHARE, 1)
                ends = (
                    fmt.number(100.0 * passage["death_low"][0], 1),
                    fmt.fixed(passage["death_high"][0], fmt.SHARE, 0),
                )
                look.figure(
                    f"{one['name']}, {fmt.quantity(one['length_m'], fmt.LENGTH, 2)}: struck",
                    fmt.fixed(passage["strike"]["chance"][0], fmt.SHARE, 0),
                    say=f"die: {death} by screening, known {ends[0]} to {ends[1]}",
                )
        look.note("Struck is by geometry, death a screening figure between the ends that are known.", "soft")
        look.cautions(look.sentences_of(cautions["fish"]))


def _designed(one: dict[str, Any]) -> dict[str, Any] | None:
    found: dict[str, Any] | None = next(
        (at["passage"] for at in one["at"] if at["condition"] == "design point"), None
    )
    return found


def _debris_and_sound(found: dict[str, Any]) -> None:
    free = found["debris"]["opening"]
    with look.section("What passes, and how far it is heard"), look.figures():
        look.figure("Largest ball that passes", fmt.quantity(free["sphere_m"], fmt.SMALL_LENGTH), say="both rows")
        look.figure("Narrowest opening", fmt.quantity(free["smallest_m"], fmt.SMALL_LENGTH), say="as designed, clean")
        for one in found["debris"]["drift"]:
            staying = look.banded(one["fate"]["staying"], fmt.SHARE)
            how = "counted in trials" if one["dose"] else "by geometry"
            look.figure(f"{one['name']}: stays in", staying.value, staying.range, say=f"of the pieces, {how}")
        for at in found["sound"]:
            if at["level"] is not None:
                look.figure(
                    f"Heard above the ambient, {at['condition']}",
                    _far(at["level"]["audible_distance_m"]),
                    say=f"levels ± {fmt.number(at['level']['uncertainty_dB'], 0)}{fmt.THIN}dB",
                )


def _far(distance: float) -> str:
    from racewright.dossier.chapters.sound import far

    return far(distance)


def _keys(screen: Screen, found: dict[str, Any]) -> None:
    base = f"neighbours.{screen.table('neighbours')}"
    with look.section("Who lives there, what drifts there"), look.fields():
        for one in found["fish"]:
            for key in _KEYS["fish"]:
                look.field(screen, f"{base}.fish.{one['name']}.{key}", f"{one['name']}: {key}")
        for one in found["debris"]["drift"]:
            for key in _KEYS["debris"]:
                look.field(screen, f"{base}.debris.{one['name']}.{key}", f"{one['name']}: {key}")
        if found["sound"]:
            for key in _KEYS["sound"]:
                look.field(screen, f"{base}.sound.{key}", f"sound: {key}")


PAGE = Page("neighbours", "Neighbours", "Neighbours", 50, data, view, drawings)
