"""Place: what the water does - record, rating, duration curve, profile, depth through the year."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.parts.place_curves import UNITS
from racewright.desk.seam import Asked, Page
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_UNIT = {"discharge": "discharge, m³/s", "speed": "speed, m/s"}
_DASHES = ("solid", "dash", "dot")


def data(asked: Asked) -> dict[str, Any]:
    """The place of the case; `place` is that of `report --json`."""
    from dataclasses import asdict

    from racewright.cli.place_summary import place_summary
    from racewright.desk.parts import place_curves as curves
    from racewright.desk.parts.place_water import reach_at, record_of

    found = asked.findings().place
    if found is None:
        return {"place": None}
    series, reach = record_of(asked), reach_at(asked)
    asked.tick(0.7)
    site = found.site
    known = [
        (c, kind) for c, kind in ((site.discharge_curve, "discharge"), (site.speed_curve, "speed")) if c is not None
    ]
    flows = series is not None and series.kind == "discharge"
    return {
        "place": place_summary(found),
        "description": found.description,
        "record": None if series is None else curves.stretches(series),
        "curves": [curves.drawn(curve, kind) for curve, kind in known],
        "depth_year": curves.depth_year(series, reach)
        if series is not None and flows and reach is not None
        else None,
        "profiles": [] if reach is None else list(curves.profiles(reach, site.standings)),
        "remarks": [asdict(r) for r in (*site.remarks, *(found.rating.remarks if found.rating else ()))],
    }


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    place = data["place"]
    if place is None:
        look.empty(
            "No place in this case yet.",
            "Add a [place.NAME] table with a record of discharge or speed, or with a spot speed, and name it in the"
            ' case as place = "NAME".',
        )
        return
    if data["description"]:
        look.note(data["description"])
    _figures(place)
    with look.columns():
        _record(data)
        _durations(data)
        _depths(data)
        _profiles(data)
        _rating(place)
        _standings(place)
    with look.section("Remarks"):
        look.warnings(data["remarks"], none="The computation left no remarks on the place.")
    _keys(screen)


def _figures(place: dict[str, Any]) -> None:
    climate, low = place["climate"], next((s for s in place["standings"] if "low" in s["label"]), None)
    with look.figures():
        look.figure(
            "Cube-mean speed",
            fmt.fixed(climate["mean_cube_speed_m_per_s"], fmt.SPEED, 2),
            say="over the year, at the machine",
        )
        look.figure("Mean speed", fmt.fixed(climate["mean_speed_m_per_s"], fmt.SPEED, 2), say="over the capture area")
        if place["years_yr"] > 0:
            years = f"{fmt.number(place['years_yr'], 1)}{fmt.THIN}years"
            look.figure("Record", years, say=f"{fmt.number(place['values'], 0)} values")
        if low is not None:
            look.figure(
                "Under the duct at low water",
                fmt.fixed(low["clearance_m"], fmt.LENGTH, 2),
                say="between duct and bed (Q95)",
            )
            look.figure(
                "Water above the duct then", fmt.fixed(low["cover_m"], fmt.LENGTH, 2), say="cover at low water (Q95)"
            )


def _record(data: dict[str, Any]) -> None:
    record = data["record"]
    with look.section("Record"):
        if record is None:
            look.empty("No record over time.", "Give [place.NAME.record] a file with dates and values.")
            return
        from datetime import UTC, datetime

        time = [datetime.fromtimestamp(t, UTC).strftime("%Y-%m-%d %H:%M") for t in record["start_s"]]
        first, last = time[0][:4], time[-1][:4]
        line = look.Line(time, record["mean"], record["kind"], low=record["least"], high=record["most"])
        look.chart(
            f"The {record['kind']} from {first} to {last}; the band holds every value",
            [line],
            x="date, UTC",
            y=_UNIT[record["kind"]],
            name="record",
        )


def _durations(data: dict[str, Any]) -> None:
    with look.section("Duration curve"):
        if not data["curves"]:
            look.empty("No duration curve.", "It needs a record over time.")
        for curve in data["curves"]:
            share = [100 * s for s in curve["share"]]
            half = next((v for s, v in zip(share, curve["value"], strict=True) if s >= 50), curve["value"][-1])
            unit = fmt.DISCHARGE if curve["kind"] == "discharge" else fmt.SPEED
            at = "" if curve["kind"] == "discharge" else " at the machine"
            look.chart(
                f"Half the time the {curve['kind']}{at} is {fmt.quantity(half, unit)} or more",
                [look.Line(share, curve["value"], curve["kind"], colour="accent" if not at else "second")],
                x="share of time reached or passed, %",
                y=_UNIT[curve["kind"]],
                name=f"duration_{curve['kind']}",
                height=240 if len(data["curves"]) > 1 else 320,
            )


def _depths(data: dict[str, Any]) -> None:
    year = data["depth_year"]
    with look.section("Depth through the year"):
        if year is None:
            look.empty(
                "The depth through the year is not known.", "It needs a record of discharge, a rating and a transect."
            )
            return
        names = [_MONTHS[m - 1] for m in year["month"]]
        least = min(range(len(names)), key=lambda i: year["low_m"][i])
        look.chart(
            f"Depth at the machine is least in {names[least]}: below {fmt.fixed(year['low_m'][least], fmt.LENGTH, 2)}"
            " for a twentieth of the month",
            [look.Line(names, year["median_m"], "median", mark="both", low=year["low_m"], high=year["high_m"])],
            x="month",
            y="depth at the machine, m",
            name="depth_year",
            more={"yaxis": {"rangemode": "tozero"}},
        )


def _profiles(data: dict[str, Any]) -> None:
    with look.section("Profile"):
        if not data["profiles"]:
            look.empty("No profile over the depth.", "It needs a rating and a transect at the machine.")
            return
        colours = ("second", "accent", "body")
        lines = [
            look.Line(p["speed_m_per_s"], p["height_m"], p["label"], colours[i % 3], dash=_DASHES[i % 3])
            for i, p in enumerate(data["profiles"])
        ]
        look.chart(
            "Speed grows from the bed to the surface by the profile's power law",
            lines,
            x="speed at the machine's place, m/s",
            y="height above the bed, m",
            name="profile",
            more={"yaxis": {"rangemode": "tozero"}, "hovermode": "closest"},
        )


def _rating(place: dict[str, Any]) -> None:
    rating = place["rating"]
    with look.section("Rating curve"):
        if rating is None:
            look.empty(
                "No rating fitted to gaugings.",
                "It is stated in the scheme, or not needed. [place.NAME.gaugings] fits it, with its band.",
            )
            return
        band = rating["band"]
        gauged = look.Line(rating["level_m"], rating["discharge_m3_per_s"], "", "second", "points")
        curve = look.Line(
            band["level_m"],
            band["discharge_m3_per_s"],
            "",
            low=band["low_m3_per_s"],
            high=band["high_m3_per_s"],
        )
        scatter = fmt.quantity(rating["standard_error"], fmt.SHARE, 2)
        look.chart(
            f"{len(rating['level_m'])} gaugings (marks) scatter {scatter} about the rating (line, 95 % band)",
            [curve, gauged],
            x="level above the datum, m",
            y="discharge, m³/s",
            name="rating",
            more={"hovermode": "closest"},
        )


def _standings(place: dict[str, Any]) -> None:
    rows = [
        [
            s["label"],
            fmt.quantity(s["discharge_m3_per_s"], fmt.DISCHARGE),
            *(fmt.fixed(s[key], fmt.LENGTH, 2) for key in ("level_m", "depth_m", "cover_m", "clearance_m")),
            fmt.fixed(s["speed_m_per_s"], fmt.SPEED, 2),
        ]
        for s in place["standings"]
    ]
    with look.section("Water at the machine"):
        if not rows:
            look.empty("Depths are not known.", "They need a rating and a transect.")
            return
        names = ("discharge", "level", "depth", "cover", "clearance", "speed")
        columns = [look.Column("standing"), *(look.Column(n, number=True) for n in names)]
        look.table("Cover is the water above the duct, clearance the water below it", columns, rows)


def _keys(screen: Screen) -> None:
    place, case = screen.table("place"), screen.case
    with look.section("Where the machine hangs"), look.fields():
        for key in ("across", "hub_depth", "hub_height"):
            look.field(screen, f"case.{case}.{key}")
        for key in ("profile_exponent", "speed_factor", "depth", "turbulence"):
            look.field(screen, f"place.{place}.{key}")


PAGE = Page("place", "Place", "Place", 10, data, view, units=UNITS)
