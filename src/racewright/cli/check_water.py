"""Does a place's water stay within its transect, and does a case's machine fit into it? No numerical library."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from racewright.cli.check_place import PlaceRead
from racewright.cli.check_rating import Curve, curve_of
from racewright.ledger.convert import duct_of
from racewright.machine.duct_width import least_across
from racewright.remark import Remark
from racewright.scheme import LoadedScheme

_TOUCH = 1e-9
"""As a site's own [m]."""


@dataclass(frozen=True)
class River:
    """A rated transect with its record of discharge."""

    curve: Curve
    distance: Sequence[float]
    bed: Sequence[float]
    discharge: Sequence[float]

    def bed_at(self, across: float) -> float:
        """Bed level within the survey [m]."""
        for (a, low), (b, high) in pairwise(zip(self.distance, self.bed, strict=True)):
            if a <= across <= b:
                return low + (high - low) * (across - a) / (b - a)
        raise ValueError(across)

    def share(self, level: float) -> float:
        """Share of the record's values whose level is above a level [-]."""
        limit = self.curve.discharge(level)
        return sum(q > limit for q in self.discharge) / len(self.discharge)

    def touching(self, across: float, radius: float) -> float:
        """Level of the axis at which a circle just touches the bed, as `Transect.touching_level` [m]."""
        edges = [across - radius, *(x for x in self.distance if abs(x - across) < radius), across + radius]
        highest = -math.inf
        for a, b in pairwise(edges):
            low, high = self.bed_at(a), self.bed_at(b)
            slope = (high - low) / (b - a)
            x = min(max(across + radius * slope / math.hypot(1.0, slope), a), b)
            over = math.sqrt(max(radius**2 - (x - across) ** 2, 0.0))
            highest = max(highest, low + slope * (x - a) + over)
        return highest


def river_of(loaded: LoadedScheme, name: str, read: PlaceRead) -> River | None:
    """None where the place has no discharge as text, no transect or no rating."""
    place = loaded.scheme.place[name]
    curve = curve_of(place, read.gaugings)
    if curve is None or place.record is None or place.record.kind != "discharge" or not read.transect[0]:
        return None
    return River(curve, *read.transect, read.values) if read.values else None


def check_levels(loaded: LoadedScheme, name: str, river: River) -> list[Remark]:
    """A caution where the water passes the surveyed banks.

    Raises
    ------
    InputError
        The rating puts flowing water below the transect's lowest bed.
    """
    least, most = min((q for q in river.discharge if q > 0.0), default=0.0), max(river.discharge)
    floor, low = min(river.bed), river.curve.level(least)
    if least > 0.0 and low <= floor:
        message = (
            f"the rating gives a level of {low:.3f} m at {least:.3f} m3/s, below the transect's lowest bed of"
            f" {floor:.3f} m; rating and transect must share one datum"
        )
        raise loaded.error(message, "place", name, "transect")
    bank, high = min(river.bed[0], river.bed[-1]), river.curve.level(most)
    if high <= bank:
        return []
    text = (
        f"The water goes beyond the transect: it passes the lower surveyed bank, {bank:.2f} m, in"
        f" {_percent(river.share(bank))} of the record's values and stands at {high:.2f} m in the highest. Upright"
        " walls are assumed there; survey the banks higher up, or look at the datum of rating and transect."
    )
    return [Remark("caution", text, f"place {name}")]


def check_fit(loaded: LoadedScheme, name: str, river: River | None) -> list[Remark]:
    """A caution where a case's machine is aground or out of the water in part of the record.

    Raises
    ------
    InputError
        It never has room: beyond the survey, through the bed or through the surface in all of the record, or in the
        one depth that is given.
    """
    case = loaded.scheme.case[name]
    machine, place = loaded.scheme.machine.get(case.machine or ""), loaded.scheme.place.get(case.place or "")
    if machine is None or place is None or (case.hub_depth is None and case.hub_height is None):
        return []
    radius = 0.5 * least_across(duct_of({"machine.duct": machine.duct.model_dump()}))
    key = "hub_depth" if case.hub_height is None else "hub_height"
    value = case.hub_depth if case.hub_depth is not None else case.hub_height or 0.0
    end, other = ("surface", "bed") if case.hub_height is None else ("bed", "surface")
    if value < radius:
        message = (
            f"an axis {value:g} m from the {end} puts a duct of at least {radius:.3g} m outer radius through it;"
            f" {radius:.3g} m or more is wanted"
        )
        raise loaded.error(message, "case", name, key)
    if river is not None and case.across is not None:
        return _afloat(loaded, name, river, case.across, radius)
    if place.depth is not None and value + radius > place.depth:
        message = (
            f"an axis {value:g} m from the {end} puts a duct of at least {radius:.3g} m outer radius through the"
            f" {other} of water {place.depth:g} m deep; at most {place.depth - radius:.3g} m is wanted"
        )
        raise loaded.error(message, "case", name, key)
    return []


def _afloat(loaded: LoadedScheme, name: str, river: River, across: float, radius: float) -> list[Remark]:
    case, first, last = loaded.scheme.case[name], river.distance[0], river.distance[-1]
    if not first <= across - radius <= across + radius <= last:
        message = (
            f"a duct of at least {radius:.3g} m outer radius at {across:g} m reaches beyond the transect, which spans"
            f" {first:g} m to {last:g} m; a place from {first + radius:.4g} m to {last - radius:.4g} m is wanted"
        )
        raise loaded.error(message, "case", name, "across")
    touching, bed = river.touching(across, radius), river.bed_at(across)
    highest = river.curve.level(max(river.discharge))
    if case.hub_height is not None:
        key, what, wanted = "hub_height", "comes out of the water", bed + case.hub_height + radius
        if bed + case.hub_height < touching - _TOUCH:
            message = (
                f"an axis {case.hub_height:g} m above the bed at {across:g} m puts a duct of at least {radius:.3g} m"
                f" outer radius into the bed beside it; {touching - bed:.3g} m or more is wanted"
            )
            raise loaded.error(message, "case", name, key)
    else:
        key, what, wanted = "hub_depth", "is aground", touching + (case.hub_depth or 0.0)
    if highest < wanted - _TOUCH:
        message = (
            f"the duct, at least {radius:.3g} m in outer radius, {what} in all of the record: it wants a level of"
            f" {wanted:.2f} m, and the highest is {highest:.2f} m, {highest - bed:.2f} m deep at {across:g} m"
        )
        raise loaded.error(message, "case", name, key)
    lacking = 1.0 - river.share(wanted - _TOUCH)
    if lacking <= 0.0:
        return []
    text = (
        f"The duct, at least {radius:.3g} m in outer radius, {what} below a level of {wanted:.2f} m: in"
        f" {_percent(lacking)} of the record's values. Look at {key} and across."
    )
    return [Remark("caution", text, f"case {name}")]


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %" if share >= 0.095 else f"{100.0 * share:.2g} %"
