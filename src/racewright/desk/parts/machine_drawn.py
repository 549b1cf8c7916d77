"""Velocity triangles and loss budget as drawings: they take longer than the numbers and come after them."""

from __future__ import annotations

from typing import Any

from racewright.desk.answer import inlined
from racewright.desk.parts.machine_now import there
from racewright.desk.seam import Asked, Drawing


def drawn(asked: Asked) -> dict[str, Any]:
    """SVG by name, wide and narrow: the triangles and, where the stream loses power to the machine, the budget."""
    if not there(asked):
        return {}
    from racewright.dossier.chapters.outside import parts
    from racewright.dossier.figures import budget, triangles
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.figures.save import svg

    point = asked.values("design_point")["design_point"]
    found = {"triangles": Drawing(*(svg(triangles.draw(point.triangles, width)) for width in (WIDE, NARROW)))}
    asked.tick(0.6)
    lost = point.book.drag_power
    if lost > 0.0:
        found["budget"] = Drawing(*(svg(budget.draw(lost, parts(point), width)) for width in (WIDE, NARROW)))
    return dict(inlined("machine", found))
