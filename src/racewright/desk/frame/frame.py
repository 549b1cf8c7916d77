"""The frame of a page, top to bottom."""

from __future__ import annotations

from nicegui import ui

from racewright.desk.frame.head import head
from racewright.desk.frame.notices import notices
from racewright.desk.frame.stream import stream
from racewright.desk.look.lettering import link, words
from racewright.desk.screen import Screen
from racewright.desk.waiting import Waiting


def build(screen: Screen) -> None:
    """Build the whole page for one tab."""
    around = ui.context.client.content.parent_slot
    if around is not None:
        around.parent.tag = "div"  # the kit's own main would stand around head and stream as well
    link("Skip to the page", "#page", "skip")
    with ui.element("header").classes("head"):
        head(screen)
    with ui.element("nav").classes("stream").props('aria-label="The job, upstream to downstream"'):
        stream(screen)
    with ui.element("main").props("id=page tabindex=-1") as page:
        screen.pending.show_on(page)
        words("h1", screen.page.title)
        ui.element("nav").classes("parts").props('aria-label="On this page"')  # `static/parts.js` fills it
        say = notices(screen)
        if screen.page.controls is not None:
            with ui.element("div").classes("controls"):
                screen.page.controls(screen)
        waiting = Waiting()
        body = ui.element("div").classes("body")
        screen.fill(body, waiting, say)
