"""Deadweight anchors: a block that friction holds on a flat or sloping bed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.holding.anchor_door import positive, within
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, answered, refused
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.uncertainty import Band

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""


@dataclass(frozen=True, slots=True)
class Deadweight:
    """A block on the bed, not dug in.

    Attributes
    ----------
    submerged_weight : float
        > 0 [N].
    friction : Band
        Coefficient of friction, 0.01 to 1; `anchor_tables.bed_friction` or the user's own [-].
    slope : float
        Of the bed, 0 to 1.2 [rad].
    pull_azimuth : float
        Angle in plan between pull and downhill, -pi to pi; 0 pulls downhill [rad].
    pull : {'along the bed', 'horizontal'}
        Whether `AnchorLoad.horizontal` lies in the sloping bed (a line that lies on it) or is level.
    base, pull_height : float, optional
        Length of the block along the pull and height of the shackle above the bed: with both, tipping on a flat bed
        is looked at too [m].
    """

    submerged_weight: float
    friction: Band
    slope: float = 0.0
    pull_azimuth: float = 0.0
    pull: Literal["along the bed", "horizontal"] = "along the bed"
    base: float | None = None
    pull_height: float | None = None

    def __post_init__(self) -> None:
        positive("the submerged weight of the deadweight", self.submerged_weight, "N", 13734.0)
        band = self.friction
        for value in (band.low, band.value, band.high):
            within("the friction of the deadweight", value, 0.01, 1.0, "", 0.5)
        if not band.low <= band.value <= band.high:
            raise InputError("the friction of the deadweight wants low <= value <= high")
        within("the slope of the bed", self.slope, 0.0, 1.2, "rad", 0.1)
        within("the azimuth of the pull", self.pull_azimuth, -math.pi, math.pi, "rad", 0.0)
        if (self.base is None) != (self.pull_height is None):
            raise InputError("tipping wants both the base and the height of the pull; give both or neither")
        if self.base is not None and self.pull_height is not None:
            positive("the base of the deadweight", self.base, "m", 1.0)
            within("the height of the pull", self.pull_height, 0.0, 100.0, "m", 0.5)


def submerged_weight(volume: float, density: float, water_density: float, gravity: float = GRAVITY) -> float:
    """Weight of a block under water [N].

    Parameters
    ----------
    volume : float
        > 0 [m3].
    density, water_density : float
        Of block and water; the block must be denser [kg/m3].
    gravity : float
        9 to 10 [m/s2].
    """
    positive("the volume of the block", volume, "m3", 1.0)
    within("the density of the water", water_density, 900.0, 1100.0, "kg/m3", 1000.0)
    within("the density of the block", density, water_density, 25000.0, "kg/m3", 2400.0)
    within("gravity", gravity, 9.0, 10.0, "m/s2", GRAVITY)
    return volume * (density - water_density) * gravity


def deadweight_holding(anchor: Deadweight, horizontal: float, vertical: float) -> AnchorHolding:
    """Load in the direction of (horizontal, vertical) at which the block slides, lifts or tips.

    The block slides when the pull and its own weight along the bed reach friction times what presses it on the bed:
    |T + l p_t| = mu (N - l p_n), solved for the multiple l of the given load. On a flat bed that is
    H = mu (W - V); along a slope downhill W cos(b) mu - W sin(b).

    Parameters
    ----------
    anchor : Deadweight
    horizontal, vertical : float
        As `AnchorLoad` [N].
    """
    lift = max(vertical, 0.0)
    safety = safety_basis(
        "anchors", f"friction on the bed, statics; coefficient: {anchor.friction.basis}", "closed form", "closed form"
    )
    remarks = list(_remarks(anchor))
    total = math.hypot(horizontal, lift)
    if math.tan(anchor.slope) >= anchor.friction.value:
        return refused(
            "deadweight",
            f"On a slope of {math.degrees(anchor.slope):.1f} degrees with friction {anchor.friction.value:.2f} the "
            "block slides without any pull.",
            safety,
            tuple(remarks),
        )
    band = anchor.friction
    low, value, high = (total * _multiple(anchor, mu, horizontal, lift) for mu in (band.low, band.value, band.high))
    mode = "lifts" if horizontal == 0.0 else "slides"
    limits = [AnchorLimit(mode, Band(low, value, high, f"coefficient: {band.basis}"))]
    if anchor.base is not None and anchor.pull_height is not None:
        if anchor.slope == 0.0:
            turning = horizontal * anchor.pull_height + 0.5 * lift * anchor.base
            tips = total * 0.5 * anchor.submerged_weight * anchor.base / turning if turning > 0.0 else math.inf
            if math.isfinite(tips):
                limits.append(AnchorLimit("tips", Band(tips, tips, tips, "statics")))
        else:
            remarks.append(Remark("caution", "Tipping was not looked at: the bed slopes.", "deadweight"))
    return answered("deadweight", tuple(limits), tuple(remarks), safety)


def _multiple(anchor: Deadweight, friction: float, horizontal: float, lift: float) -> float:
    """Largest multiple of the load that friction bears, 0 where the block slides alone: a root of a quadratic."""
    sine, cosine = math.sin(anchor.slope), math.cos(anchor.slope)
    along, press = anchor.submerged_weight * sine, anchor.submerged_weight * cosine
    down, across = horizontal * math.cos(anchor.pull_azimuth), horizontal * math.sin(anchor.pull_azimuth)
    off = lift * cosine
    if anchor.pull == "horizontal":
        off += down * sine
        down *= cosine
    down -= lift * sine
    square = down**2 + across**2 - (friction * off) ** 2
    half = along * down + friction**2 * press * off
    constant = along**2 - (friction * press) ** 2
    if constant >= 0.0:
        return 0.0
    return -constant / (half + math.sqrt(max(half**2 - square * constant, 0.0)))


def _remarks(anchor: Deadweight) -> tuple[Remark, ...]:
    found = [
        Remark(
            "caution",
            "A deadweight slides at once when its friction is passed and goes on sliding; standards give no factor "
            "for it. Scour, buoyancy of the bed and pore pressure lower its holding.",
            "deadweight",
        )
    ]
    if math.tan(anchor.slope) >= anchor.friction.low:
        found.append(
            Remark("warning", "At the low end of its friction the block slides down the bed by itself.", "deadweight")
        )
    return tuple(found)
