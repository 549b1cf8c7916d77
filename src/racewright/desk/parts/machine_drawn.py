"""Velocity triangles and loss budget as drawings: they take longer than the numbers and come after them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from racewright.desk.parts.machine_now import there
from racewright.desk.seam import Asked


def drawn(asked: Asked) -> dict[str, Any]:
    """SVG of the triangles and, where the stream loses power to the machine, of the budget, by name and width."""
    if not there(asked):
        return {"triangles": None, "budget": None}
    from racewright.dossier.chapters.outside import parts
    from racewright.dossier.figures import budget, triangles

    point = asked.values("design_point")["design_point"]
    lost = point.book.drag_power
    found = {"triangles": _both("triangles", lambda width: triangles.draw(point.triangles, width))}
    asked.tick(0.6)
    takers = parts(point)
    found["budget"] = _both("budget", lambda width: budget.draw(lost, takers, width)) if lost > 0.0 else None
    return found


def _both(name: str, draw: Callable[[Any], Any]) -> dict[str, str] | None:
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.figures.save import inline, svg

    return {
        width: inline(svg(draw(size)), f"machine-{width[0]}-{name}", width)
        for width, size in (("wide", WIDE), ("narrow", NARROW))
    }
