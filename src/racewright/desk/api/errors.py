"""Errors as JSON: what was wrong and where; a malformed request is never a fault of ours."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from racewright.desk.keeper.fault import ChangedOutsideError, StaleError, fault_of
from racewright.errors import RacewrightError

_CONFLICT = (StaleError, ChangedOutsideError)


def status_of(error: RacewrightError) -> int:
    """409 for a draft or file that has moved on, else 422."""
    return 409 if isinstance(error, _CONFLICT) else 422


def told(message: str, **more: Any) -> dict[str, Any]:
    """The body of a refusal."""
    return {"error": {"message": _plain(message), **more}}


def add_handlers(api: FastAPI) -> None:
    """Teach an application to tell errors."""

    @api.exception_handler(RacewrightError)
    async def _own(_request: Request, error: RacewrightError) -> JSONResponse:
        fault = fault_of(error)
        body = told(fault.message, key=_plain(fault.key), file=_plain(fault.file), line=fault.line)
        return JSONResponse({**body, "exit_code": error.exit_code}, status_of(error))

    @api.exception_handler(RequestValidationError)
    async def _malformed(_request: Request, error: RequestValidationError) -> JSONResponse:
        first = error.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        return JSONResponse(told(f"{where}: {first['msg']}", key=_plain(where)), 422)

    @api.exception_handler(HTTPException)
    async def _http(_request: Request, error: HTTPException) -> JSONResponse:
        return JSONResponse(told(str(error.detail)), error.status_code)


def _plain(text: str) -> str:
    """Text that can be sent: halves of characters and control signs are escaped."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape", "surrogatepass").decode() for c in text[:500])
