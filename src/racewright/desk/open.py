"""Open pages: one route for each, and the frame around it."""

from __future__ import annotations

import uuid

from nicegui import ui
from pydantic import ValidationError
from starlette.requests import Request

from racewright.desk.desk import Desk
from racewright.desk.frame.frame import build
from racewright.desk.frame.guided import guided
from racewright.desk.look.palette import style
from racewright.desk.screen import Screen
from racewright.desk.seam import Page, all_pages

LIGHT = "racewright_light"
"""Cookie with the light that the reader chose: 'light', 'dark', or none for the system's own."""


def add_pages(desk: Desk) -> None:
    """Register every page with the kit."""
    ui.add_head_html(f'<link rel="stylesheet" href="/look/desk.css"><style>{style()}</style>', shared=True)
    scripts = "".join(f'<script defer src="/look/{name}.js"></script>' for name in ("desk", "parts"))
    ui.add_body_html(scripts, shared=True)
    ui.add_body_html(guided(all_pages()), shared=True)
    for page in all_pages():
        _add(desk, page)


def _add(desk: Desk, page: Page) -> None:
    @ui.page(page.address, title=f"{page.title} - Racewright", language="en-GB")
    def opened(request: Request) -> None:
        chosen = request.cookies.get(LIGHT, "")
        ui.dark_mode({"light": False, "dark": True}.get(chosen))
        try:
            options = page.options(**{k: v for k, v in request.query_params.items() if k != "token"})
        except ValidationError:
            options = page.options()
        known = desk.keeper.loaded.scheme.case
        if options.case is not None and options.case not in known:
            options = options.model_copy(update={"case": None})
        screen = Screen(desk, page, options, uuid.uuid4().hex)
        build(screen)
        end = desk.keeper.listen(screen.moved)

        def leave() -> None:
            screen.leave()
            end()
            desk.newest.leave(screen.tab)

        ui.context.client.on_delete(leave)
