"""Routes of the scheme: its state, edits, undo, redo, save."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from racewright.desk.api.bodies import Edit, Save, Step
from racewright.desk.keeper.keeper import Keeper


def scheme_routes(keeper: Keeper) -> APIRouter:
    """The routes for one keeper."""
    routes = APIRouter(prefix="/scheme", tags=["scheme"])

    @routes.get("", summary="State of the draft")
    async def state() -> dict[str, Any]:
        keeper.look()
        return {**state_of(keeper), "text": keeper.text}

    @routes.post("/edit", summary="Change keys by dotted path")
    async def edit(body: Edit) -> dict[str, Any]:
        keeper.edit(body.changes, body.revision)
        return state_of(keeper)

    @routes.post("/undo", summary="One step back")
    async def undo(body: Step) -> dict[str, Any]:
        keeper.undo(body.revision)
        return state_of(keeper)

    @routes.post("/redo", summary="One step forward again")
    async def redo(body: Step) -> dict[str, Any]:
        keeper.redo(body.revision)
        return state_of(keeper)

    @routes.post("/save", summary="Write the draft to the scheme file")
    async def save(body: Save) -> dict[str, Any]:
        keeper.save(body.revision, over=body.over)
        return state_of(keeper)

    return routes


def state_of(keeper: Keeper) -> dict[str, Any]:
    """What a client needs to go on."""
    return {
        "revision": keeper.revision,
        "unsaved": keeper.unsaved,
        "changed_outside": keeper.changed_outside,
        "can_undo": keeper.can_undo,
        "can_redo": keeper.can_redo,
        "sha256": keeper.loaded.digest,
        "cases": list(keeper.loaded.scheme.case),
    }
