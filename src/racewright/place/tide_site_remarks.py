"""What a reader must know of a tidal site."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from racewright.remark import Remark

if TYPE_CHECKING:
    from racewright.place.tide_site import TidalSite

OUT_OF_LINE = math.radians(10.0)
"""Misalignment of flood and ebb from which it is told; own rule [rad]."""
YEARLY = 0.02
"""Swing of the yearly mean cube from which it is told; own rule [-]."""


def site_remarks(found: TidalSite, period: str) -> tuple[Remark, ...]:
    """Turning, direction lost, misalignment, years, slack and its caution."""
    return (*_turning(found), *_line(found), *_years(found, period), *_slack(found))


def _turning(found: TidalSite) -> list[Remark]:
    if found.way == "fixed":
        other = "ebb" if found.faces == "flood" else "flood"
        text = (
            f"The machine faces the {found.faces} for good: the {other} holds {100.0 * found.lost_direction:.0f} % "
            "of the water's mean cube, and none of it is counted. The machine must bear that stream from behind."
        )
        return [Remark("caution", text, "turning")]
    how = "yaws on its tethers at slack" if found.way == "swings" else "is set over by half a turn at slack"
    text = (
        f"The vanes take water from one side only; the machine {how}, {found.turns:.0f} times a year, and "
        f"{100.0 * found.lost_turning:.2g} % of the water's mean cube goes meanwhile. It must turn back the way it "
        "came, or lines and cable wind up."
    )
    return [Remark("note", text, "turning")]


def _line(found: TidalSite) -> list[Remark]:
    if found.misalignment is None or abs(found.misalignment) < OUT_OF_LINE:
        return []
    off = f"Ebb runs {math.degrees(abs(found.misalignment)):.0f} deg out of line with the flood"
    if found.way == "swings":
        text = f"{off}: the machine swings by more or less than half a turn."
    else:
        text = f"{off}: {100.0 * found.lost_off_axis:.1f} % of the mean cube runs past the machine's axis."
    return [Remark("caution", text, "misalignment")]


def _years(found: TidalSite, period: str) -> list[Remark]:
    if period == "year":
        text = (
            "The climate is that of one predicted year; over the 18.6-year cycle a semidiurnal mean cube swings by "
            "about a quarter from the weakest to the strongest year."
        )
        return [Remark("note", text, "nodal cycle")]
    if not found.yearly_cube.size:
        return []
    low, high = float(found.yearly_cube.min()), float(found.yearly_cube.max())
    if high - low < YEARLY:
        return []
    weakest = int(found.yearly_cube_year[int(found.yearly_cube.argmin())])
    strongest = int(found.yearly_cube_year[int(found.yearly_cube.argmax())])
    text = (
        f"The mean cube of the predicted years runs from {100.0 * low:.0f} % ({weakest}) to {100.0 * high:.0f} % "
        f"({strongest}) of the mean over the 18.6-year cycle: first years of a project can lie on either side."
    )
    return [Remark("note", text, "nodal cycle")]


def _slack(found: TidalSite) -> list[Remark]:
    row = found.slack
    if row.mean <= 0.0:
        text = f"The stream is not seen to fall below {row.speed:g} m/s: there is no slack to work in."
        return [Remark("warning", text, "slack")]
    text = (
        f"Water is below {row.speed:g} m/s {row.daily:.1f} times a day for {row.mean / 60.0:.0f} min in the mean, "
        f"nine times in ten for {row.short / 60.0:.0f} min or more, as predicted from the tide alone: weather and "
        "river shift it. Boats and divers work by the local tables, rules and their own watch on the day."
    )
    return [Remark("caution", text, "slack")]
