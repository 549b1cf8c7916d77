"""The way through the job: stations along the water, from the place to the dossier."""

from __future__ import annotations

from urllib.parse import urlencode

from nicegui import ui

from racewright.desk.look.lettering import words
from racewright.desk.screen import Screen
from racewright.desk.seam import all_pages


def stream(screen: Screen) -> None:
    """Build it; the station where the reader stands is marked."""
    case = f"?{urlencode({'case': screen.options.case})}" if screen.options.case else ""
    with ui.element("ol"):
        for page in all_pages():
            with ui.element("li"):
                station = ui.element("a")
                station.props["href"] = page.address + case
                if page.name == screen.page.name:
                    station.props["aria-current"] = "page"
                with station:
                    ui.element("i").props("aria-hidden=true")
                    words("span", page.short)
