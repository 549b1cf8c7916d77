"""Holding: the layout to scale with handles, what lines and anchors carry, and what a log does to them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Literal

from pydantic import Field

from racewright.desk import look
from racewright.desk.parts import holding_plays, holding_rest, holding_spots
from racewright.desk.seam import Asked, Drawing, Options, Page

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

OWN = frozenset({"", "Lines", "Anchors"})
"""Headings of the dossier's chapter that the page shows in its own way."""
_WANTED = ("cover", "bed_clearance", "roll", "swing", "growth", "guard")


class HoldingOptions(Options):
    """Which part of the holding's answers."""

    part: Literal["held", "struck", "rest"] = "held"
    """What lines and anchors carry; strikes and their year; one rest of the layout."""
    state: str = Field(default="", max_length=200)
    """Load state of the rest; the first if left out."""
    speed: float | None = Field(default=None, gt=0.0, le=20.0)
    """Stream speed of the rest; the fastest water of the place if left out [m/s]."""


def data(asked: Asked) -> dict[str, Any]:
    """The part that is asked for; numbers are those of `tethers --json` and `strike --json`."""
    from racewright.desk.parts.holding_found import held, struck
    from racewright.desk.parts.holding_rest import rest

    return {"held": held, "struck": struck, "rest": rest}[asked.options.part](asked)


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """The dossier's drawings of the lines' use and of the poses."""
    from racewright.desk.parts.holding_found import drawn

    return drawn(asked) if asked.options.part == "held" else {}


def controls(screen: Screen) -> None:
    """Drawing with its handles, figures and fields: they stay while answers come and go."""
    from racewright.desk.parts.holding_layout import layout

    screen.options = screen.options.model_copy(update={"part": "held"})  # the other parts come by themselves
    if all(screen.table(role) for role in ("holding", "machine", "place")):
        layout(screen)


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    tethers = data["tethers"]
    if tethers is None:
        _nothing(screen)
        return
    from racewright.desk.parts.holding_layout import settled
    from racewright.desk.parts.holding_lines import anchors, tensions

    settled(screen, tethers["watch"])
    tensions(screen, tethers)
    anchors(tethers)
    _strikes(screen)
    _more(screen, data["chapter"])
    with look.section("Remarks on the holding"):
        look.warnings(data["remarks"], none="The computation left no remarks on the holding.")
    _keys(screen)


def _nothing(screen: Screen) -> None:
    if not (screen.table("machine") and screen.table("place")):
        look.empty(
            "Nothing is held yet: a holding needs a place and a machine first.",
            "Name both in the case, then add a [holding.NAME] table and name it too.",
        )
        return
    look.empty(
        "No holding in this case yet.",
        "Add a [holding.NAME] table with body (mass, displaced_volume and their centres); a fairlead, an anchor and a"
        " line with its segments for each tether, like [holding.NAME.line.port_bow]; and name it in the case as"
        " holding = \"NAME\". The place needs its depth. 'racewright new' writes an example that has one.",
    )


def _strikes(screen: Screen) -> None:
    """Room for strikes and their year, filled when they are there."""
    from nicegui import ui

    from racewright.desk.parts.holding_found import struck

    place = ui.element("div").classes("body holding-struck")
    with place, look.section("A strike on its two time scales"):
        look.note("Strikes and the year of logs follow.", "soft")

    def show(found: dict[str, Any]) -> None:
        from racewright.desk.parts.holding_strike import strikes
        from racewright.desk.parts.holding_year import year

        place.clear()
        with place:
            if found["strikes"] is not None:
                strikes(found)
                year(found["strikes"]["year"])
                with look.section("Remarks on strikes"):
                    look.warnings(found["remarks"], none="The computation left no remarks on strikes.")

    screen.further("struck", struck, show)


def _more(screen: Screen, told: dict[str, Any]) -> None:
    """What else the dossier says, folded and built when it is opened: poses, a line lost, low water, sizes."""
    from nicegui import ui

    from racewright.desk.parts.chapter_view import chapter

    with ui.element("details").classes("holding-fold") as fold:
        with ui.element("summary"):
            look.words("span", "Poses, one line lost, low water, debris that stays, sizes: as the dossier tells them")
        place = ui.element("div").classes("body")

    def build() -> None:
        if not place.default_slot.children:
            with place:
                chapter(screen, told, leave=OWN)

    fold.on("toggle", build)


def _keys(screen: Screen) -> None:
    base = f"holding.{screen.table('holding')}"
    with look.section("What is wanted of it"), look.fields():
        for key in _WANTED:
            look.field(screen, f"{base}.{key}")
        look.field(screen, f"{base}.weak_link.capacity", "weak link: capacity")


UNITS = {**holding_plays.UNITS, **holding_rest.UNITS, **holding_spots.UNITS}

PAGE = Page(
    "holding", "Holding", "Holding", 40, data, view, drawings, controls=controls, options=HoldingOptions, units=UNITS
)
