"""Grouted rock bolts: bond, bar, or a cone of rock, whichever is least."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.anchor_door import positive, within
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, answered, scattered
from racewright.holding.anchor_tables import anchor_data
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.uncertainty import Band


@dataclass(frozen=True, slots=True)
class RockBolt:
    """Bars grouted into holes in rock, all alike.

    Attributes
    ----------
    hole_diameter, bond_length : float
        > 0 [m].
    bond_strength : float
        Ultimate bond of grout to rock, stated by the user, > 0 [Pa].
    bar_diameter, bar_strength : float
        Diameter, thread root where it is threaded [m]; yield strength [Pa].
    rock_weight : float
        Submerged unit weight of the rock, 1e3 to 40e3 [N/m3].
    cone_depth : float, optional
        Depth of the cone's apex below the rock's face; the bond length when not given [m].
    cone_angle : float
        Half angle of the cone, 0.1 to 1.2; 45 degrees is usual [rad].
    count : int
        Bolts that share the load, 1 to 100.
    spacing : float, optional
        Between bolts, > 0 [m].
    bar_angle : float
        Of the bars above the horizontal, -pi/2 to pi/2; pi/2 is a bar standing upright in a flat bed [rad].
    eye_height : float, optional
        From the rock's face along the bar to where the line pulls, 0 to 5; the face itself when not told, which is
        the least that a bar can be bent [m].
    bar_aside : float
        In plan, between the bars and the line, 0 to pi/2; 0 points them along the line, pi/2 is a bar driven square
        into a wall along which the line pulls [rad].
    rock_shear : float
        Ultimate shear of the rock over the cone's side, stated by the user, 0 to 10e6; 0 counts none [Pa].
    """

    hole_diameter: float
    bond_length: float
    bond_strength: float
    bar_diameter: float
    bar_strength: float
    rock_weight: float
    cone_depth: float | None = None
    cone_angle: float = math.pi / 4.0
    count: int = 1
    spacing: float | None = None
    bar_angle: float = math.pi / 2.0
    eye_height: float | None = None
    bar_aside: float = 0.0
    rock_shear: float = 0.0

    def __post_init__(self) -> None:
        positive("the hole's diameter", self.hole_diameter, "m", 0.038)
        positive("the bond length", self.bond_length, "m", 1.0)
        positive("the bond strength", self.bond_strength, "Pa", 1e6)
        within("the bar's diameter", self.bar_diameter, 1e-3, self.hole_diameter, "m", 0.02)
        positive("the bar's strength", self.bar_strength, "Pa", 500e6)
        within("the rock's unit weight", self.rock_weight, 1e3, 40e3, "N/m3", 16e3)
        if self.cone_depth is not None:
            positive("the cone's depth", self.cone_depth, "m", 1.0)
        within("the cone's half angle", self.cone_angle, 0.1, 1.2, "rad", 0.785)
        if within("the number of bolts", self.count, 1, 100, "", 4) != int(self.count):
            raise InputError(f"the number of bolts is {self.count!r}; wanted a whole number, e.g. 4")
        if self.spacing is not None:
            positive("the spacing of the bolts", self.spacing, "m", 2.0)
        within("the bars' angle", self.bar_angle, -math.pi / 2.0, math.pi / 2.0, "rad", 1.57)
        if self.eye_height is not None:
            within("the eye's height above the rock", self.eye_height, 0.0, 5.0, "m", 0.05)
        within("the bars' angle aside", self.bar_aside, 0.0, math.pi / 2.0, "rad", 0.0)
        within("the shear of the rock", self.rock_shear, 0.0, 10e6, "Pa", 100e3)


def bond_holding(hole_diameter: float, bond_length: float, bond_strength: float) -> float:
    """Bond pi d L tau of one bolt [N]."""
    return math.pi * hole_diameter * bond_length * bond_strength


def cone_weight(rock_weight: float, depth: float, half_angle: float) -> float:
    """Weight of a cone of rock, gamma pi h^3 tan^2(a)/3 [N]."""
    return rock_weight * math.pi * depth**3 * math.tan(half_angle) ** 2 / 3.0


def cone_shear(rock_shear: float, depth: float, half_angle: float) -> float:
    """Shear over the side of a cone of rock, its part along the axis, tau pi h^2 tan(a) [N]."""
    return rock_shear * math.pi * depth**2 * math.tan(half_angle)


def bent_bar_holding(diameter: float, strength: float, off: float, eye_height: float) -> float:
    """Pull at which a bar first yields where it leaves the rock: tension, bending and mean shear, by von Mises.

    The bar is held fast in the rock and nothing steadies it above: bending is the pull's part across the bar times
    the eye's height.

    Parameters
    ----------
    diameter, strength : float
        [m], [Pa].
    off : float
        Between pull and bar, 0 to pi [rad].
    eye_height : float
        >= 0 [m].

    Returns
    -------
    float
        [N].
    """
    area = 0.25 * math.pi * diameter**2
    modulus = math.pi * diameter**3 / 32.0
    direct = abs(math.cos(off)) / area + math.sin(off) * eye_height / modulus
    return strength / math.hypot(direct, math.sqrt(3.0) * math.sin(off) / area)


def rock_bolt_holding(anchor: RockBolt, horizontal: float, vertical: float) -> AnchorHolding:
    """Load along the line that the bolts bear; the least of bond, bar and cone governs.

    A pull below the horizontal is taken as it is: it presses nothing home and bends the bars. Only the pull's part
    along the bars loads bond and cone. The bars bear both parts and are bent by the part across
    them at the eye's height. Of the cone's weight only the part along the bars counts, so a bar that lies level in a
    steep face gets nothing from it; the rock's face is taken square to the bars. Without a stated shear of the rock
    the cone is a lower bound.

    Parameters
    ----------
    anchor : RockBolt
    horizontal, vertical : float
        As `AnchorLoad` [N].
    """
    data = anchor_data()["rock_bolt"]
    safety = safety_basis(
        "anchors", data["source"], data["edition"], f"{data['status']}; scatter {data['scatter_status']}"
    )
    off = _off(anchor, horizontal, vertical)
    along = math.cos(off)
    scatter = (data["scatter"][0], data["scatter"][1])
    bar = anchor.count * bent_bar_holding(anchor.bar_diameter, anchor.bar_strength, off, anchor.eye_height or 0.0)
    limits = [AnchorLimit("bar yields", Band(bar, bar, bar, "von Mises on the bar"))]
    if along > 1e-9:
        bond = anchor.count * bond_holding(anchor.hole_diameter, anchor.bond_length, anchor.bond_strength)
        limits.append(AnchorLimit("bond slips", scattered(bond / along, scatter, data["scatter_status"])))
        limits.append(AnchorLimit("rock cone lifts", _cone(anchor, along)))
    return answered("rock_bolt", tuple(limits), _remarks(anchor, off), safety)


def _off(anchor: RockBolt, horizontal: float, vertical: float) -> float:
    """Angle between pull and bars [rad]."""
    up = math.atan2(vertical, horizontal)
    level = math.cos(up) * math.cos(anchor.bar_angle) * math.cos(anchor.bar_aside)
    return math.acos(min(1.0, max(-1.0, level + math.sin(up) * math.sin(anchor.bar_angle))))


def cones(anchor: RockBolt) -> int:
    """Cones that count: one each where the bolts stand a cone's width apart or more, else one for all."""
    depth = anchor.cone_depth if anchor.cone_depth is not None else anchor.bond_length
    apart = anchor.spacing is not None and anchor.spacing >= 2.0 * depth * math.tan(anchor.cone_angle)
    return anchor.count if apart else 1


def _cone(anchor: RockBolt, along: float) -> Band:
    """The pull at which the cones go, `along` of it along the bars."""
    depth = anchor.cone_depth if anchor.cone_depth is not None else anchor.bond_length
    weight = cone_weight(anchor.rock_weight, depth, anchor.cone_angle) * max(math.sin(anchor.bar_angle), 0.0)
    pull = cones(anchor) * (weight + cone_shear(anchor.rock_shear, depth, anchor.cone_angle)) / along
    basis = "weight along the bars and the stated shear" if anchor.rock_shear else "weight along the bars alone"
    return Band(pull, pull, pull, basis)


def _remarks(anchor: RockBolt, off: float) -> tuple[Remark, ...]:
    rock = (
        "The cone counts the rock's weight along the bars and the shear that you state"
        if anchor.rock_shear
        else "The cone counts the rock's weight along the bars and none of its strength, so it is low"
    )
    found = [
        Remark(
            "caution",
            f"{rock}; the bond strength is yours. Joints and weathering decide: pull-test every bolt.",
            "rock bolt",
        )
    ]
    if off > math.radians(5.0) and anchor.eye_height is None:
        found.append(
            Remark(
                "warning",
                f"The pull stands {math.degrees(off):.0f} degrees off the bars and nobody has told how high above "
                "the rock the line's eye stands: it is taken at the rock's face, where the bar is not bent. Say "
                "eye_height.",
                "rock bolt bends",
            )
        )
    if off > math.radians(15.0):
        found.append(
            Remark(
                "caution",
                f"The pull stands {math.degrees(off):.0f} degrees off the bars: crushing of the rock's lip is not "
                "covered.",
                "rock bolt's lip",
            )
        )
    if anchor.count > 1:
        counted = (
            f"; their cones are {cones(anchor)}, since they stand apart"
            if cones(anchor) > 1
            else "; no spacing is told or it is less than a cone's width, so the cones count as one"
        )
        found.append(
            Remark(
                "caution",
                f"The {anchor.count} bolts share a load evenly only through a stiff plate{counted}.",
                "bolts that share",
            )
        )
    return tuple(found)
