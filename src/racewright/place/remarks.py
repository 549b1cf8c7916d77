"""What the reader of a site must know: short records, gaps, grounding, cover, levels beyond the survey."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.gaps import gaps_of
from racewright.place.reach import Reach, ReachFlow
from racewright.place.result import Floats, Series, Standing
from racewright.place.span import Span
from racewright.remark import Remark, Severity

WANTED_YEARS = 10.0
"""The trade's practice for river resource wants about ten years of daily discharge (from memory)."""

ROOM = 0.1
"""Cover or clearance below this fraction of the duct's outer diameter is a caution (rule of this program)."""

FROUDE_CAUTION = 0.8
"""Near critical flow the surface is wavy and level, rating and profile are unsure (rule of this program)."""


def record_remarks(series: Series, span: Span) -> list[Remark]:
    """Remarks on the record's length and gaps."""
    found = []
    if span.years < 0.99:
        text = f"The record covers {span.years * 365.25:.0f} days: seasons are missing, so no yearly figure is firm."
        found.append(Remark("warning", text, "record length"))
    elif span.years < WANTED_YEARS - 0.05:
        text = (
            f"The record covers {span.years:.1f} years; the trade's practice for rivers wants about ten, so "
            "wet and "
            "dry years may be missing (from memory, no clause checked)."
        )
        found.append(Remark("caution", text, "record length"))
    if series.blank or span.missing > 0.01:
        text = (
            f"{series.blank} blank values were skipped; {100 * span.missing:.1f} % of the time from first "
            "to last "
            "stamp is a gap. Gaps are left out, not filled; gaps at flood or ice bend the yearly figures."
        )
        gaps = gaps_of(series)
        if gaps.since is not None:
            day = np.datetime64(gaps.since, "s").astype("datetime64[D]")
            text += f" The longest of {gaps.count} lasts {gaps.longest / 86400:.1f} days from {day} (UTC)."
        found.append(Remark("caution" if span.missing > 0.1 else "note", text, "gaps"))
    if series.repeated or series.backward:
        text = f"{series.repeated} repeated stamps were kept once, {series.backward} backward ones were sorted."
        found.append(Remark("note", text, "order of the record"))
    return found


def placement_remarks(reach: Reach, flow: ReachFlow, weight: Floats, standings: tuple[Standing, ...]) -> list[Remark]:
    """Remarks on clearance and cover: at low water first, then over the whole record."""
    diameter = 2.0 * reach.placement.outer_radius
    low = standings[0]
    still = "; for that time the climate counts no speed"
    found = []
    if low.clearance < 0.0:
        text = (
            f"Aground at low water: at {low.discharge:.3g} m3/s the duct would need {-low.clearance:.2f} m "
            "more water; "
            f"aground for {_percent(flow.clearance < -1e-9, weight)} of the record{still}."
        )
        found.append(Remark("warning", text, "clearance"))
    elif (flow.clearance < -1e-9).any():
        text = (
            f"Clear at Q95 by {low.clearance:.2f} m but aground at the lowest water, "
            f"{_percent(flow.clearance < -1e-9, weight)} of the record{still}."
        )
        found.append(Remark("caution", text, "clearance"))
    elif low.clearance < ROOM * diameter:
        text = f"Only {low.clearance:.2f} m between duct and bed at low water, under a tenth of the outer diameter."
        found.append(Remark("caution", text, "clearance"))
    least = min(s.cover for s in standings)
    if (flow.cover < -1e-9).any():
        text = (
            f"The duct's top comes out of the water for {_percent(flow.cover < -1e-9, weight)} of the record "
            f"(at low water by {max(-low.cover, 0.0):.2f} m){still}."
        )
        found.append(Remark("warning" if least < 0.0 else "caution", text, "cover"))
    elif least < ROOM * diameter:
        text = f"Only {least:.2f} m of water over the duct, under a tenth of its outer diameter: it may draw air."
        found.append(Remark("caution", text, "cover"))
    return found


def river_remarks(reach: Reach, flow: ReachFlow, weight: Floats) -> list[Remark]:
    """Remarks on levels beyond the surveyed banks, fast flow, and where the local speed comes from."""
    found = []
    bank = reach.transect.bank_level
    over = flow.level > bank
    if over.any():
        text = (
            f"The level passes the surveyed banks ({bank:.2f} m) for {_percent(over, weight)} of the "
            "record, up to "
            f"{flow.level.max():.2f} m; upright walls are assumed there, so those speeds are too high if it "
            "floods out."
        )
        found.append(Remark("caution", text, "banks"))
    fast = flow.froude > FROUDE_CAUTION
    if fast.any():
        text = (
            f"The Froude number passes {FROUDE_CAUTION:g} for {_percent(fast, weight)} of the record (most "
            f"{flow.froude.max():.2f}): near or above critical flow, level and profile are unsure; check "
            "the rating."
        )
        severity: Severity = "warning" if flow.froude.max() > 1.0 else "caution"
        found.append(Remark(severity, text, "Froude number"))
    if reach.speed_factor is None:
        text = (
            "The speed across the river follows depth^(2/3) (one slope and roughness for every vertical); a "
            "measured "
            "speed factor would replace this estimate."
        )
        found.append(Remark("note", text, "speed across the river"))
    return found


def gauged_remarks(gauged: tuple[float, float] | None, discharge: Floats, weight: Floats) -> list[Remark]:
    """Remark on discharges outside the gauged ones, where the rating is extrapolated."""
    if gauged is None:
        return []
    low, high = gauged
    if not 0.0 <= low < high < np.inf:
        raise InputError(f"gauged discharges from {low:g} to {high:g} m3/s; wanted growing, finite, 0 or more")
    above, below = discharge > high, discharge < low
    if not (above | below).any():
        return []
    text = (
        f"The rating is extrapolated above {high:.3g} m3/s for {_percent(above, weight)} and below {low:.3g} m3/s "
        f"for {_percent(below, weight)} of the record: no gauging lies there."
    )
    share = float(weight[above | below].sum()) / float(weight.sum())
    return [Remark("caution" if share > 0.01 else "note", text, "rating")]


def _percent(when: NDArray[np.bool_], weight: Floats) -> str:
    """Share of the record's time, as text."""
    share = 100.0 * float(weight[when].sum()) / float(weight.sum())
    return f"{share:.0f} %" if share >= 9.5 else f"{share:.2g} %"
