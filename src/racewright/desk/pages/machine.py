"""Machine: handles on its drawing, what each turn changes, and the loads in every state."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Literal

from racewright.desk import look
from racewright.desk.parts import machine_field, machine_now, machine_shape, machine_solid
from racewright.desk.parts.machine_now import now, water, year
from racewright.desk.parts.machine_solid import solid
from racewright.desk.seam import Asked, Options, Page
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.parts.machine_live import Live
    from racewright.desk.screen import Screen


class MachineOptions(Options):
    """Which part of the machine's answers."""

    part: Literal["point", "water", "year", "solid"] = "point"
    """Design point with curve and loss budget; streamlines and pressure; yearly energy with the states;
    the solid."""


def data(asked: Asked) -> dict[str, Any]:
    """The part that is asked for; numbers are those of `point --json` and `report --json`."""
    return {"point": now, "water": water, "year": year, "solid": solid}[asked.options.part](asked)


def controls(screen: Screen) -> None:
    """Drawing with handles, fields, figures and curve: they stay while answers come and go."""
    screen.options = screen.options.model_copy(update={"part": "point"})  # the other parts come by themselves
    table = screen.table("machine")
    if not table:
        return
    from nicegui import ui

    from racewright.desk.parts.machine_drawing import HANDLES, MachineDrawing
    from racewright.desk.parts.machine_live import Live
    from racewright.desk.parts.machine_readings import curve, readings
    from racewright.desk.parts.machine_redrawn import Redrawn
    from racewright.desk.parts.machine_round import MachineRound

    numbers = ui.element("div").props("role=status")
    with look.columns("wide first"):
        with look.section("Pull a handle, or type beside"):
            drawing = MachineDrawing(lambda handle, value, done: live.pulled(handle, value, done))
            look.refused(screen)
            look.note(
                "Handles also move with the arrow keys. Solid lines pass the rotor, dashed lines pass outside.",
                "soft",
            )
        with ui.element("div").classes("machine-side"):
            with look.section("Exact values"), ui.element("div").classes("machine-fields"):
                for handle in HANDLES:
                    look.field(screen, f"machine.{table}.{handle.key}", handle.label)
            with look.section("Power and thrust over tip-speed ratio"):
                chart = ui.element("div")
    with look.section("In the round"):
        look.note("Drag to turn it; the solid is that of 'racewright export', drawn coarser.", "soft")
        turning = MachineRound()
    drawn = Redrawn(screen, chart, lambda: curve(live))
    shown: dict[str, Any] = {}

    def show() -> None:
        _draw(screen, live, drawing)
        numbers.clear()
        with numbers:
            readings(live)
        drawn.soon()
        if live.draft.solid and live.draft.solid is not shown.get("solid"):
            shown["solid"] = live.draft.solid
            turning.show(live.draft.solid)

    live = Live(screen, chart, show)
    show()


def _draw(screen: Screen, live: Live, drawing: Any) -> None:
    from racewright.desk.parts.machine_drawing import with_values

    answer = live.preview or live.draft.point
    if not answer.get("shape"):
        return
    point = answer.get("point")
    rows = {row: answer[row] for row in ("vanes", "rotor") if answer[row]}  # the last ones stand, with their handles
    drawing.show(
        shape=answer["shape"],
        **rows,
        triangle=_triangle(point) if point else None,
        field=live.draft.water.get("field"),
        stale=live.stale or bool(live.preview),
        speed=fmt.fixed(point["stream_speed_m_per_s"], fmt.SPEED, 2) if point else "",
        handles=with_values(_values(screen)),
    )


def _values(screen: Screen) -> dict[str, float]:
    """Where the handles stand, by the draft; chords of a row with given sections have none."""
    machine = screen.desk.keeper.loaded.scheme.machine[screen.table("machine")]
    found = {
        "throat": machine.duct.throat_diameter,
        "exit": machine.duct.exit_area_ratio,
        "ratio": machine.design.tip_speed_ratio,
    }
    for name, row in (("vanes", machine.vanes), ("rotor", machine.rotor)):
        found[f"{name}_turned"] = math.degrees(row.turned)
        found[f"{name}_count"] = row.count
        if not row.sections:
            found |= {f"{name}_hub_chord": row.hub_chord, f"{name}_tip_chord": row.tip_chord}
    return {key: float(value) for key, value in found.items()}


def _triangle(point: dict[str, Any]) -> dict[str, Any]:
    """Speeds at mid radius before the rotor, for the drawing."""
    t = point["triangles"]
    radius = t["radius_m"]
    i = min(range(len(radius)), key=lambda k: abs(radius[k] - 0.5 * (radius[0] + radius[-1])))
    axial, swirl, blade = (t[k][i] for k in ("axial_speed_m_per_s", "swirl_in_m_per_s", "blade_speed_m_per_s"))
    return {
        "axial": axial,
        "swirl": swirl,
        "blade": blade,
        "flow": fmt.fixed(math.hypot(axial, swirl), fmt.SPEED, 2),
        "wheel": fmt.fixed(blade, fmt.SPEED, 2),
        "relative": fmt.fixed(math.hypot(axial, swirl - blade), fmt.SPEED, 2),
    }


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    if data["point"] is None:
        look.empty(
            "No machine in this case yet.",
            "Run 'racewright size' to propose one, paste its [machine.NAME] table and name it in the case.",
        )
        return
    from racewright.desk.parts.machine_live import live_of
    from racewright.desk.parts.machine_versions import compare

    live = live_of(screen)
    if live is not None:
        for followers in live.followers.values():
            followers.clear()
    with look.columns():
        with look.section("Velocity triangles"):
            _drawn(live, "triangles", *_TRIANGLES)
        with look.section("Taken from the stream"):
            _budget(live, data)
    with look.section("Loads in every state"):
        _states(live)
    with look.section("Remarks on the machine"):
        look.warnings(data["point"]["remarks"], none="The computation left no remarks on the design point.")
    if live is not None:
        compare(live)
        live.took(data)


_TRIANGLES = (
    "Six velocity triangles: hub, mid and tip, before and behind the rotor.",
    "Relative flow + blade speed = flow. Axial flow to the right, rotation upwards.",
)
_BUDGET = (
    "Drag times stream speed, and who takes it.",
    "Total drag times stream speed, and who takes it. Swirl and mixing are paid by the stream.",
)


def _drawn(live: Live | None, name: str, alt: str, caption: str) -> None:
    """A place for a drawing; the one before stands there, faint, until it is there."""
    from nicegui import ui

    place = ui.element("div")

    def fill(*, old: bool) -> None:
        made = live.draft.drawn.get(name) if live is not None else None
        place.clear()
        place.classes(add="old" if old else "", remove="" if old else "old")
        with place:
            if made:
                look.pictured(made, name, alt, caption)
            elif old:
                look.note("The drawing follows.", "soft")

    fill(old=True)
    if live is not None:
        live.followers["drawn"].append(lambda: fill(old=False))


def _budget(live: Live | None, data: dict[str, Any]) -> None:
    total = sum(share["power_W"] for share in data["budget"])
    if total <= 0.0:
        return
    _drawn(live, "budget", *_BUDGET)
    rows = [
        [s["name"], fmt.quantity(s["power_W"], fmt.POWER), fmt.fixed(s["power_W"] / total, fmt.SHARE, 1)]
        for s in data["budget"]
    ]
    columns = [look.Column("taken by"), look.Column("power", number=True), look.Column("share", number=True)]
    look.table("Shaft power and losses of the whole machine at the design point", columns, rows)


def _states(live: Live | None) -> None:
    """A place for the states, filled when they are there."""
    from nicegui import ui

    place = ui.element("div").classes("machine-stack")

    def fill() -> None:
        place.clear()
        with place:
            found = live.draft.year.get("states") if live is not None else None
            if not found:
                look.note("The loads in every state follow.", "soft")
                return
            _state_tables(found)

    fill()
    if live is not None:
        live.followers["year"].append(fill)


def _state_tables(states: list[dict[str, Any]]) -> None:
    names = ("rotor speed", "shaft power", "torque", "thrust", "roll moment", "flow rate", "lowest pressure")
    columns = [look.Column("state"), *(look.Column(name, number=True) for name in names)]
    for speed in sorted({s["stream_speed_m_per_s"] for s in states}):
        rows = [_state(s) for s in states if s["stream_speed_m_per_s"] == speed]
        look.table(f"In a stream of {fmt.fixed(speed, fmt.SPEED, 2)}", columns, rows)
    look.note(
        "The body and all that holds it must bear the largest of these, not the design point's. They are steady"
        " values; gusts, sudden loss of load and debris come on top. Local codes and licensed practice decide.",
        "safety",
    )


def _state(s: dict[str, Any]) -> list[str]:
    def said(key: str, scales: tuple[fmt.Scale, ...]) -> str:
        return fmt.quantity(0.0 if abs(s[key]) < 1e-3 else s[key], scales)

    return [
        s["name"] if s["solved"] else f"{s['name']}, estimate",
        fmt.quantity(s["rotor_speed_rad_per_s"], fmt.ROTATION),
        said("shaft_power_W", fmt.POWER),
        said("torque_N_m", fmt.TORQUE),
        said("thrust_N", fmt.FORCE),
        said("roll_moment_N_m", fmt.TORQUE),
        fmt.quantity(s["flow_rate_m3_per_s"], fmt.DISCHARGE),
        said("lowest_pressure_Pa", fmt.PRESSURE),
    ]


UNITS = {**machine_shape.UNITS, **machine_field.UNITS, **machine_now.UNITS, **machine_solid.UNITS}

PAGE = Page("machine", "Machine", "Machine", 20, data, view, controls=controls, options=MachineOptions, units=UNITS)
