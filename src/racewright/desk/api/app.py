"""The application under /api."""

from __future__ import annotations

from fastapi import FastAPI

from racewright import __version__
from racewright.desk.api.errors import add_handlers
from racewright.desk.api.scheme import scheme_routes
from racewright.desk.api.twins import twin_routes
from racewright.desk.desk import Desk


def make_api(desk: Desk) -> FastAPI:
    """The API of a desk; its description is at /openapi.json below where it is mounted."""
    api = FastAPI(
        title="Racewright desk",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        openapi_url="/openapi.json",
        description="The pages of the desk as JSON, in SI units with a `units` object, and the scheme's draft.",
    )
    add_handlers(api)
    api.include_router(scheme_routes(desk.keeper))
    api.include_router(twin_routes(desk))
    return api
