"""One route for each page: the same data as the page shows, as JSON."""

from typing import Annotated, Any

from fastapi import APIRouter, Query, Response

from racewright.desk.desk import Desk
from racewright.desk.seam import Page, all_pages

_ERRORS: dict[int | str, dict[str, Any]] = {422: {"description": "The scheme or the request is wrong; says where"}}


def twin_routes(desk: Desk) -> APIRouter:
    """The routes of every page."""
    routes = APIRouter(tags=["pages"])
    for page in all_pages():
        _add(routes, desk, page)
    return routes


def _add(routes: APIRouter, desk: Desk, page: Page) -> None:
    asked = page.options

    @routes.get(f"/{page.name}", summary=page.title, operation_id=f"get_{page.name}", responses=_ERRORS)
    async def twin(options: Annotated[asked, Query()]) -> Response:  # type: ignore[valid-type]
        answer = await desk.page("api", page, options)
        return Response(answer.text, media_type="application/json")
