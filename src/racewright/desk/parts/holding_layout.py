"""The layout on the screen: its drawing, what hangs on it now, and exact fields for all that can be moved."""

from __future__ import annotations

import weakref
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.parts.holding_drawing import KEYS, HoldingDrawing, shown
from racewright.desk.parts.holding_live import Live
from racewright.desk.parts.holding_safety import beside
from racewright.dossier import format as fmt
from racewright.ledger.holding_things import said

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

BASIS = {
    "before": "Loads are those of the draft before; the draft's own are being computed.",
    "place": "What loads the machine is being computed; until then only its intended place is drawn.",
}


class Shown:
    """What the page of one tab shows of the layout: the live answers, and the watch circle of the settled one."""

    def __init__(self, live: Live) -> None:
        self.live = live
        self.watch: dict[str, Any] | None = None


_SHOWN: weakref.WeakKeyDictionary[Any, Shown] = weakref.WeakKeyDictionary()


def layout(screen: Screen) -> None:
    """Build drawing, fields and figures."""
    table = screen.desk.keeper.loaded.scheme.holding[screen.table("holding")]
    with look.section("The layout, to scale"):
        if table.description:
            look.note(table.description)
        if table.invented:
            look.note("Invented: lines, anchors and debris stand for no real place.", "safety")
        drawing = HoldingDrawing(
            lambda kind, name, by, done: live.moved(kind, name, by, done),
            lambda wanted: live.asked(wanted),
            lambda on: live.mirrored(on),
        )
        look.refused(screen)
        look.note(
            "Pull a square (anchor) or a ring (fairlead), or move it with the arrow keys: 5 cm a step, with Shift"
            " half a metre. Lines keep their length. Dashed: the state that asks most of a line, in the same stream."
            " Ground is drawn up to an anchor that stands above the bed: of it only the height is known.",
            "soft",
        )
    _fields(screen)
    with look.section("As it hangs now"):
        numbers = ui.element("div").classes("holding-stack").props("role=status")

    def show() -> None:
        _draw(screen, drawing)
        numbers.clear()
        with numbers:
            _readings(live)

    live = Live(screen, numbers, show)
    _SHOWN[screen] = Shown(live)
    show()


def settled(screen: Screen, watch: dict[str, Any]) -> None:
    """The page's own answer is there, with its watch circle."""
    held = _SHOWN.get(screen)
    if held is not None:
        held.watch = watch
        held.live.settled()
        held.live.shown()


def _draw(screen: Screen, drawing: HoldingDrawing) -> None:
    held = _SHOWN.get(screen)
    if held is None:
        return
    live, answer = held.live, held.live.answer
    rest, worst = answer.get("rest"), answer.get("worst")
    if not rest:
        drawing.show(said=live.said)
        return
    watch = held.watch or {}
    swing = [watch.get(key) for key in ("radius_m", "swept_radius_m")]
    drawing.show(
        rest=_rest(rest),
        ghost=_rest(worst) if worst and worst["state"] != rest["state"] and worst["settled"] else None,
        spots=shown(answer["spots"], live.spots()),
        states=[peak["state"] for peak in answer["peaks"]],
        fastest=answer["fastest"]["stream_speed_m_per_s"],
        swing=[] if live.stale or live.preview else [r for r in swing if r is not None],
        stale=live.stale,
        mirror=live.mirror,
        paired=live.paired(),
        said=live.said,
    )


def _rest(found: dict[str, Any]) -> dict[str, Any]:
    return {
        "state": found["state"],
        "speed": found["stream_speed_m_per_s"],
        "depth": found["depth_m"],
        "height": found["height_m"],
        "settled": found["settled"],
        "side": found["side_m"],
        "plan": found["plan_m"],
        "axis": found["axis_m"],
        "cover": found["cover_m"],
        "clearance": found["bed_clearance_m"],
        "lines": [{"at": line["at_m"], "legs": line["legs_m"], "form": line["form"]} for line in found["lines"]],
    }


def _readings(live: Live) -> None:
    rest = live.answer.get("rest")
    if live.said:
        look.note(f"No answer for this layout: {live.said}", "safety")
    if not rest:
        return
    if live.answer["basis"] in BASIS:
        look.note(BASIS[live.answer["basis"]], "soft")
    if not rest["state"]:
        return
    if not rest["feasible"]:
        look.note(f"It does not hold, {rest['state']}: {rest['reason']}", "safety")
    if rest["settled"]:
        _figures(live, rest)
        _lines(rest)
        beside([rest["safety"], *(line["safety"] for line in rest["lines"])])


def _figures(live: Live, rest: dict[str, Any]) -> None:
    where = f"{rest['state']}, {fmt.fixed(rest['stream_speed_m_per_s'], fmt.SPEED, 2)}"
    peaks = [peak for peak in live.answer["peaks"] if peak["use"] is not None]
    with look.figures():
        look.figure("Water over the machine", fmt.fixed(rest["cover_m"], fmt.LENGTH, 2), say=where)
        look.figure("Water under it", fmt.fixed(rest["bed_clearance_m"], fmt.LENGTH, 2), say=where)
        look.figure("Off its place", fmt.fixed(rest["offset_m"], fmt.LENGTH, 2), say=where)
        pitch, roll = (fmt.fixed(rest[f"{key}_rad"], fmt.ANGLE, 1) for key in ("pitch", "roll"))
        look.figure("Pitch", pitch, say=f"roll {roll}")
        if peaks:
            most = max(peaks, key=lambda peak: peak["use"])
            depth = fmt.fixed(rest["depth_m"], fmt.LENGTH, 2)
            look.figure(
                "Most of a line's strength, every line there",
                fmt.quantity(most["use"], fmt.SHARE, 2),
                say=f"{most['line']}, {most['state']}, in the fastest water at {depth} depth alone;"
                f" {rest['factor']:g} × slow tension over strength",
            )


def _lines(rest: dict[str, Any]) -> None:
    rows = [
        [
            line["name"],
            line["form"],
            fmt.fixed(line["length_m"], fmt.LENGTH, 2),
            fmt.fixed(line["apart_m"], fmt.LENGTH, 2),
            fmt.quantity(line["tension_N"], fmt.FORCE),
            fmt.UNKNOWN if line["strength_N"] is None else fmt.quantity(line["strength_N"], fmt.FORCE),
            fmt.UNKNOWN if line["use"] is None else fmt.quantity(line["use"], fmt.SHARE, 2),
        ]
        for line in rest["lines"]
    ]
    names = ("unstretched", "between its ends", "slow tension", "strength", "use")
    columns = [look.Column("line"), look.Column("how it runs"), *(look.Column(n, number=True) for n in names)]
    look.table(f"The lines {rest['state']}; use is {rest['factor']:g} × slow tension over strength", columns, rows)


def _fields(screen: Screen) -> None:
    base = f"holding.{screen.table('holding')}"
    table = screen.desk.keeper.loaded.scheme.holding[screen.table("holding")]
    titles = {"anchor": "Anchors", "fairlead": "Fairleads"}
    with look.section("Exact places and lengths"), ui.element("div").classes("holding-groups"):
        for kind, keys in KEYS.items():
            with ui.element("div"):
                for name in sorted(getattr(table, kind)):
                    _group(
                        screen, f"{titles[kind][:-1]} {said(name)}", {k: f"{base}.{kind}.{name}.{k}" for k in keys}
                    )
        with ui.element("div"):
            for name, line in sorted(table.line.items()):
                parts = sorted(line.segment.items(), key=lambda item: item[1].order)
                lengths = {f"{said(part)} length": f"{base}.line.{name}.segment.{part}.length" for part, _ in parts}
                _group(screen, f"Line {said(name)}", lengths)


def _group(screen: Screen, title: str, keys: dict[str, str]) -> None:
    with ui.element("div").classes("holding-points").props("role=group") as group:
        group.props["aria-label"] = title
        look.words("h3", title)
        for label, key in keys.items():
            look.field(screen, key, label)
