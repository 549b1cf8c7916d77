"""The numbers by which sizes are set beside each other, and what each means when it is kept, grows or falls."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from racewright.growth import step_numbers as at
from racewright.growth.step import SolvedStep

Group = Literal["shape", "running", "water", "surface", "life", "drive"]


@dataclass(frozen=True, slots=True)
class Number:
    """One number and its words.

    Attributes
    ----------
    name : str
    group : {'shape', 'running', 'water', 'surface', 'life', 'drive'}
    of : callable
        Its value at a solved step, None where it is not known.
    kept, more, less : str
        What follows when the second size has the same, more or less.
    unit : str
    wants : str
        What must be given for it to be known.
    """

    name: str
    group: Group
    of: Callable[[SolvedStep], float | None]
    kept: str
    more: str
    less: str
    unit: str = ""
    wants: str = ""


_SHAPE = "Not the same shape: coefficients do not carry over by themselves, the second must be solved for itself."
_LIKE = "Same shape in this respect."


def _shape(name: str, of: Callable[[SolvedStep], float | None]) -> Number:
    return Number(name, "shape", of, _LIKE, _SHAPE, _SHAPE)


NUMBERS: tuple[Number, ...] = (
    _shape("exit area ratio", lambda s: s.step.unit.duct.exit_area_ratio),
    _shape("duct length over throat diameter", lambda s: s.step.unit.duct.length / s.step.throat_diameter),
    _shape("hub over throat diameter", lambda s: s.step.unit.hub.radius / s.step.unit.duct.throat_radius),
    _shape("vanes", lambda s: float(s.step.vanes.count)),
    _shape("blades", lambda s: float(s.step.blades.count)),
    _shape("blade chord over throat diameter", lambda s: at.blade_chord(s) / s.step.throat_diameter),
    Number(
        "tip-speed ratio",
        "running",
        lambda s: s.point.tip_speed_ratio,
        "Flow angles stay, so the sections work as they did.",
        "The rotor runs faster for its stream: flow angles differ and the rows must be their own.",
        "The rotor runs slower for its stream: flow angles differ and the rows must be their own.",
    ),
    Number(
        "head coefficient",
        "running",
        lambda s: s.point.head_coefficient,
        "The stage takes the same share of the stream's head, and the wake is alike.",
        "The stage takes a larger share of the stream's head: wake and duct flow are not alike.",
        "The stage takes a smaller share of the stream's head: wake and duct flow are not alike.",
    ),
    Number(
        "specific speed",
        "running",
        lambda s: at.step_specific_numbers(s).specific_speed if s.point.shaft_power > 0.0 else None,
        "The stage is of the same kind.",
        "The stage is of a faster kind: losses are shared out otherwise.",
        "The stage is of a slower kind: losses are shared out otherwise.",
        wants="a step that gives power",
    ),
    Number(
        "power coefficient",
        "running",
        lambda s: s.point.power_coefficient,
        "Power goes with area, density and speed cubed alone.",
        "A larger share of the stream's power, by the solution at each size; the cross-check says how much is size.",
        "A smaller share of the stream's power, by the solution at each size; the cross-check says how much is size.",
    ),
    Number(
        "chord Reynolds number of the blades",
        "water",
        at.blade_reynolds,
        "Friction and stall behave as in the test.",
        "Less friction and later stall: the model is on the safe side, but below 200 000 its own flow is unsure.",
        "More friction and earlier stall: what was measured flatters the other.",
    ),
    Number(
        "turbulence intensity",
        "water",
        lambda s: s.step.place.turbulence,
        "Transition, wake mixing and load swings are driven alike, if the eddies grow with the machine.",
        "Rougher water: transition is earlier, the wake mixes faster, and loads swing more than was measured.",
        "Calmer water: the test had faster wake mixing and larger load swings than will be met.",
        wants="the turbulence intensity of the stream",
    ),
    Number(
        "cavitation number at the highest tip",
        "water",
        at.tip_cavitation_number,
        "Cavitation would show in the test as it will later.",
        "Further from cavitation than the test was.",
        "Nearer to cavitation than the test was: a test without bubbles proves nothing here.",
        wants="the depth of the axis",
    ),
    Number(
        "depth Froude number",
        "water",
        at.depth_froude,
        "The free surface answers as in the test.",
        "The surface falls more behind the machine than in the test: there is less cover than it had.",
        "The surface feels the machine less: free the test of the surface's part before it is carried over.",
        wants="the depth of the water",
    ),
    Number(
        "Froude number on throat diameter",
        "water",
        at.size_froude,
        "Waves, floating and weight against flow scale with the machine.",
        "Flow forces gain on weight and buoyancy: ballast and line angles of the test do not carry over.",
        "Weight and buoyancy gain on flow forces: ballast and line angles of the test do not carry over.",
    ),
    Number(
        "cover over drawing-air cover",
        "water",
        at.cover_share,
        "As safe from drawing air as the test was.",
        "Safer from drawing air than the test was.",
        "Nearer to drawing air than the test was.",
        wants="the depth of the axis",
    ),
    Number(
        "tip gap over blade chord",
        "surface",
        at.gap_share,
        "The tip leaks as it did.",
        "The tip leaks more: efficiency falls, and leaves and sticks find a wider gap.",
        "The tip leaks less: efficiency rises, if the gap can be held at this size under load and growth.",
    ),
    Number(
        "roughness over blade chord",
        "surface",
        at.roughness_share,
        "Surface and shape scale together.",
        "Rougher for its size: friction eats what Reynolds number gives.",
        "Smoother for its size, until something grows on it.",
    ),
    Number(
        "blockage",
        "surface",
        at.blockage,
        "The walls help both alike; power is still that of this channel, not of open water.",
        "More of the channel is blocked: the walls give power that open water will not.",
        "Less of the channel is blocked: power of the test must be freed of its walls before it is carried over.",
        wants="the area of the channel, or say that the water is open",
    ),
    Number(
        "strike energy of the blade tip, per mass of fish",
        "life",
        at.strike_energy,
        "A blow on a fish of a given mass is as hard.",
        "A blow on a fish of a given mass is harder than in the test.",
        "A blow on a fish of a given mass is softer than in the test.",
        unit="J/kg",
    ),
    Number(
        "fish length over blade chord",
        "life",
        at.fish_over_chord,
        "Fish pass the blades as in the test.",
        "Fish are larger against the blades: more are struck.",
        "Fish are smaller against the blades: fewer are struck, and more room between them.",
        wants="the length of the fish",
    ),
    Number(
        "fish length over edge thickness at the tip",
        "life",
        at.fish_over_edge,
        "Edges are as blunt for the fish as in the test.",
        "Edges are sharper for the fish: a blow cuts more.",
        "Edges are blunter for the fish: a blow of the same speed kills less.",
        wants="the length of the fish, and a section family with a round nose",
    ),
    Number(
        "shaft torque",
        "drive",
        lambda s: s.point.torque,
        "Shaft, gear and generator carry the same.",
        "Shaft, gear and brake carry more: torque goes with speed squared and the cube of size.",
        "Shaft, gear and brake carry less.",
        unit="N m",
    ),
    Number(
        "slow generator's mass over shaft power",
        "drive",
        at.drive_mass_share,
        "The drive weighs as much for its power.",
        "The drive weighs more for its power: slow rotors pay for size in torque, so a gear gains on direct drive.",
        "The drive weighs less for its power.",
        unit="kg/W",
        wants="a torque of 1 N m to 10 MN m and a step that gives power",
    ),
)
"""In the order in which they are told: shape, running, water, surface and walls, life, drive."""
