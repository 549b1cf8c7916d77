"""The drawing of the layout with its anchors and fairleads: which keys a move changes, and the element itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from nicegui.element import Element

from racewright.ledger.holding_things import said

KEYS = {"anchor": ("ahead", "left", "height"), "fairlead": ("x", "left", "up")}
"""Keys of a spot along x, y and z; 'ahead' counts upstream."""
_SAME = 1e-3
"""Spots this near to mirror images are taken for a pair [m]. Own choice."""

By = tuple[float, float, float]


@dataclass(frozen=True)
class Spot:
    """An anchor or a fairlead of the draft.

    Attributes
    ----------
    kind, name : str
    own : tuple of float
        Its keys in the order of `KEYS` [m].
    """

    kind: str
    name: str
    own: By


def spots_in(holding: Any) -> tuple[Spot, ...]:
    """Anchors and fairleads of a holding's table, by name."""
    return tuple(
        Spot(kind, name, (float(values[0]), float(values[1]), float(values[2])))
        for kind, keys in KEYS.items()
        for name, table in sorted(getattr(holding, kind).items())
        for values in [[getattr(table, key) for key in keys]]
    )


def mirror_of(spot: Spot, spots: tuple[Spot, ...]) -> Spot | None:
    """The spot of its kind on the other side of the middle plane; None where there is none."""
    wanted = (spot.own[0], -spot.own[1], spot.own[2])
    if abs(spot.own[1]) < _SAME:
        return None
    others = (o for o in spots if o.kind == spot.kind and o.name != spot.name)
    return next((o for o in others if all(abs(a - b) < _SAME for a, b in zip(o.own, wanted, strict=True))), None)


def moved(spot: Spot, by: By, base: str) -> dict[str, str]:
    """Edits of the draft for a spot that goes `by` along x, y and z [m]; keys that stay are not among them.

    Parameters
    ----------
    spot : Spot
    by : tuple of float
    base : str
        Dotted path of the holding's table.
    """
    signs = (-1.0 if spot.kind == "anchor" else 1.0, 1.0, 1.0)
    keys = KEYS[spot.kind]
    return {
        f"{base}.{spot.kind}.{spot.name}.{key}": f"{value + sign * step:.2f} m".replace("-0.00 m", "0.00 m")
        for key, value, step, sign in zip(keys, spot.own, by, signs, strict=True)
        if abs(step) > 1e-9
    }


def edits(name: str, kind: str, by: By, spots: tuple[Spot, ...], base: str, *, mirror: bool) -> dict[str, str]:
    """Edits for one spot and, where wanted, for its mirror image."""
    spot = next(s for s in spots if (s.kind, s.name) == (kind, name))
    other = mirror_of(spot, spots) if mirror else None
    found = moved(spot, by, base)
    return found if other is None else {**found, **moved(other, (by[0], -by[1], by[2]), base)}


class HoldingDrawing(Element, component="holding_drawing.js"):
    """The drawing.

    Parameters
    ----------
    on_moved : callable
        (kind, name, by, done).
    on_asked : callable
        Takes {'state': ...} or {'speed': ...}.
    on_mirrored : callable
        Whether mirror images move too.
    """

    def __init__(
        self,
        on_moved: Callable[[str, str, By, bool], None],
        on_asked: Callable[[dict[str, Any]], None],
        on_mirrored: Callable[[bool], None],
    ) -> None:
        super().__init__()
        self._props.update(
            rest=None, ghost=None, spots=[], states=[], fastest=1.0, swing=[], stale=False, mirror=True, paired=False,
            said="",
        )  # fmt: skip
        self.on("moved", lambda event: _told(event.args, on_moved))
        self.on("asked", lambda event: _asked(event.args, on_asked))
        self.on("mirrored", lambda event: on_mirrored(bool(event.args.get("on"))))

    def show(self, **given: Any) -> None:
        """Show a rest, spots, or what is said where there is none."""
        self._props.update(given)
        self.update()


def _told(found: Mapping[str, Any], on_moved: Callable[[str, str, By, bool], None]) -> None:
    by = [float(v) for v in found.get("by") or () if isinstance(v, int | float)]
    if found.get("kind") in KEYS and len(by) == 3:
        x, y, z = by
        on_moved(str(found["kind"]), str(found.get("name")), (x, y, z), bool(found.get("done")))


def _asked(found: Mapping[str, Any], on_asked: Callable[[dict[str, Any]], None]) -> None:
    speed, state = found.get("speed"), found.get("state")
    if isinstance(speed, int | float) and speed > 0.0:
        on_asked({"speed": float(speed)})
    elif isinstance(state, str):
        on_asked({"state": state})


def shown(spots: list[dict[str, Any]], own: tuple[Spot, ...]) -> list[dict[str, Any]]:
    """Spots of an answer with what they are called and what the draft says of them; those that went are left out."""
    known = {(s.kind, s.name): s.own for s in own}
    return [
        {
            "kind": s["kind"],
            "name": s["name"],
            "at": s["at_m"],
            "own": known[s["kind"], s["name"]],
            "said": said(s["name"]),
            "label": f"{s['kind']} {said(s['name'])}",
        }
        for s in spots
        if (s["kind"], s["name"]) in known
    ]
