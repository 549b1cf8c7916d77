"""The figures and the curve beside the drawing, against the last saved version."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.look.palette import NAMED
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.parts.machine_live import Live

BASIS = {
    "before": "An estimate on flow and rows of the last shape, scaled to this one; its own are being computed.",
    "none": "The flow through duct and hub is being solved; figures follow.",
}


def readings(live: Live) -> None:
    """Power, coefficients and the year, each with its change against the saved version."""
    answer = live.preview or live.draft.point
    point, saved = answer.get("point"), live.saved.point.get("point")
    if not point:
        look.note(BASIS["none"], "soft")
        return
    with look.figures():
        _power(point, saved, settled=answer.get("basis") == "computed" and "curve" in answer)
        for label, key in (
            ("Power coefficient, CP", "power_coefficient"),
            ("Thrust coefficient, CT", "thrust_coefficient"),
        ):
            value = point[key]
            look.figure(
                label,
                fmt.number(value, 4),
                say=look.against_saved(value, saved[key] if saved else None, 2) or "on the rotor annulus",
            )
        _energy(live)
    if answer.get("basis") in BASIS:
        look.note(BASIS[answer["basis"]], "soft")


def _power(point: dict[str, Any], saved: dict[str, Any] | None, *, settled: bool) -> None:
    speed = fmt.fixed(point["stream_speed_m_per_s"], fmt.SPEED, 2)
    value = point["shaft_power_W"]
    band = look.banded(point["band_W"], fmt.POWER).range if settled else "its band follows"
    shown = fmt.quantity(value, fmt.POWER)
    look.figure(
        f"Shaft power at {speed}",
        shown,
        band,
        say=look.against_saved(value, saved["shaft_power_W"] if saved else None, 2),
    )


def _energy(live: Live) -> None:
    energy, saved = live.draft.year.get("energy"), live.saved.year.get("energy")
    label = "Energy in a year"
    if live.preview or live.stale:
        if energy:
            before = fmt.quantity(energy["total_J"]["value"], fmt.ENERGY)
            look.figure(label, "\u2026", say=f"being computed; it was {before}")
        return
    if energy is None:
        look.figure(
            label,
            "\u2026" if not live.draft.year else "not known",
            say="" if not live.draft.year else "needs a place",
        )
        return
    total = look.banded(energy["total_J"], fmt.ENERGY)
    change = look.against_saved(energy["total_J"]["value"], saved["total_J"]["value"] if saved else None, 2)
    shown = fmt.quantity(energy["total_J"]["value"], fmt.ENERGY)
    look.figure(label, shown, total.range, say=change or "delivered by one machine")


def curve(live: Live) -> None:
    """CP and CT over tip-speed ratio, with the saved version's as a ghost."""
    found, ghost = live.draft.curve.get("curve"), live.saved.curve.get("curve")
    answer = live.preview or live.draft.point
    point = answer.get("point")
    if not found:
        look.note("The curve follows.", "soft")
        return
    ratio, power = found["tip_speed_ratio"], found["power_coefficient"]
    lines = []
    if ghost:
        for key in ("power_coefficient", "thrust_coefficient"):
            lines.append(look.Line(ghost["tip_speed_ratio"], ghost[key], "", "soft", dash="dot"))
    low, high = _factors(live.draft.point.get("point") or {})
    lines += [
        look.Line(ratio, found["thrust_coefficient"], "thrust, CT", "body", dash="dash"),
        look.Line(
            ratio,
            power,
            "power, CP",
            low=[low * p for p in power] if high > low else None,
            high=[high * p for p in power],
        ),
    ]
    if point:
        design = [point["tip_speed_ratio"]]
        for key in ("power_coefficient", "thrust_coefficient"):
            lines.append(look.Line(design, [point[key]], "", "second", "points"))
    best = max(range(len(power)), key=power.__getitem__)
    title = f"Power peaks at tip-speed ratio {fmt.number(ratio[best], 1)} with CP {fmt.number(power[best], 2)}"
    title += "; dotted: the saved version" if ghost else ""
    speed = fmt.fixed(found["stream_speed_m_per_s"], fmt.SPEED, 2)
    look.chart(
        title,
        lines,
        x=f"tip-speed ratio in a stream of {speed}, \u2013",
        y="coefficient on the annulus, \u2013",
        name="coefficients",
        height=300,
        more={"yaxis": {"rangemode": "tozero"}, "annotations": _names(found)},
    )


def _names(found: dict[str, Any]) -> list[dict[str, Any]]:
    """Names on the curves where they lie flat, clear of the band."""
    at = int(0.3 * len(found["tip_speed_ratio"]))
    return [
        {
            "x": found["tip_speed_ratio"][at],
            "y": found[key][at],
            "text": text,
            "showarrow": False,
            "yshift": shift,
            "font": {"color": NAMED[colour], "size": 12},
        }
        for key, text, colour, shift in (
            ("power_coefficient", "power, CP", "accent", 11),
            ("thrust_coefficient", "thrust, CT", "body", -13),
        )
    ]


def _factors(point: dict[str, Any]) -> tuple[float, float]:
    """Ends of the power's band over its value; 1, 1 without one."""
    band = point.get("band_W")
    if not band or band["value"] <= 0.0:
        return 1.0, 1.0
    return band["low"] / band["value"], band["high"] / band["value"]
