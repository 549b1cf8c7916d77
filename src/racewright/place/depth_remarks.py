"""Whether the duct fits into one given depth of water, where there is no transect."""

from __future__ import annotations

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.remark import Remark


def depth_remarks(depth: float | None, hub_depth: float | None, outer_radius: float | None) -> tuple[Remark, ...]:
    """Check that the duct fits into one given depth."""
    if depth is None or hub_depth is None or outer_radius is None:
        text = "No depth, hub depth and duct size were given together, so cover and clearance were not checked."
        return (Remark("note", text, "clearance"),)
    within("the depth", depth, 0.01, 1e4, "m")
    within("the duct's outer radius", outer_radius, 0.01, 50.0, "m")
    within("the hub depth", hub_depth, outer_radius, 1e4, "m")
    clearance = depth - hub_depth - outer_radius
    if clearance < 0.0:
        raise InputError(
            f"a duct of {outer_radius:g} m outer radius, its axis {hub_depth:g} m down, reaches "
            f"{-clearance:.2f} m "
            f"below the bed of a river {depth:g} m deep"
        )
    room = min(clearance, hub_depth - outer_radius)
    if room < 0.2 * outer_radius:
        text = f"Only {room:.2f} m of water between the duct and bed or surface, under a tenth of its outer diameter."
        return (Remark("caution", text, "clearance"),)
    return ()
