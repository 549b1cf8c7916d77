"""What is found out about strength: loads of the rows by state, stresses, frequencies, fatigue."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor
from racewright.stage.parts import Forces
from racewright.stage.result import Triangles
from racewright.strength.damage import FatigueDamage
from racewright.strength.flange import BoltLoads
from racewright.strength.resonance import Resonance
from racewright.strength.ring import RingLoads, RingPressure
from racewright.strength.ring_modes import RingModes
from racewright.strength.shaft import ShaftStress
from racewright.strength.span_modes import SpanModes
from racewright.strength.stress_check import StressCheck


@dataclass(frozen=True)
class StatePoint:
    """The flow and the forces in one state.

    Attributes
    ----------
    name : str
        'on load', 'runaway' or 'held'.
    stream_speed, rotor_speed : float
        [m/s], [rad/s]
    torque : float
        Of the rotor [N m].
    triangles : Triangles
    forces : Forces
    """

    name: str
    stream_speed: float
    rotor_speed: float
    torque: float
    triangles: Triangles
    forces: Forces


@dataclass(frozen=True)
class RootStress:
    """Stress at one held end of a vane or blade in one state.

    Attributes
    ----------
    part : {'vane', 'blade'}
    end : {'hub', 'duct'}
        Which of its ends.
    state : str
        What the machine does.
    stream_speed, rotor_speed : float
        [m/s], [rad/s]
    support : str
        'one end' or 'both ends'.
    axial_force, tangential_force : float
        What the end bears [N].
    axial_bending, tangential_bending : float
        Moments at the end, positive as of a span held there and pushed downstream or in the direction of rotation
        [N m].
    pull : float
        Of the blade's own turning mass [N].
    highest_stress, lowest_stress : float
        Tension and compression over the section, notch included [Pa].
    check : StressCheck
        Against its material.
    safety : SafetyBasis
        Of the forces and moments.
    """

    part: str
    end: str
    state: str
    stream_speed: float
    rotor_speed: float
    support: str
    axial_force: float
    tangential_force: float
    axial_bending: float
    tangential_bending: float
    pull: float
    highest_stress: float
    lowest_stress: float
    check: StressCheck
    safety: SafetyBasis


@dataclass(frozen=True)
class DuctStress:
    """The duct as a ring.

    Attributes
    ----------
    radius, width, wall : float
        Of the section's centroid, along the axis, and thickness of the skin; no wall for a solid section [m].
    mass_per_length : float
        Along the ring, flooded hollows included [kg/m].
    pressure_difference : float
        Outside less inside, largest of the states [Pa].
    state : str
        Where that is.
    pressure : RingPressure
        What the pressure does.
    pressure_check : StressCheck
        Of it.
    point_load : float or None
        Push on one place, another taken opposite; None where none is known [N].
    point_from : str
        Where the push comes from, or why there is none.
    point : RingLoads or None
        What it does.
    point_check : StressCheck or None
        Of it, together with the pressure.
    safety : SafetyBasis
        Of the loads.
    """

    radius: float
    width: float
    wall: float | None
    mass_per_length: float
    pressure_difference: float
    state: str
    pressure: RingPressure
    pressure_check: StressCheck
    point_load: float | None
    point_from: str
    point: RingLoads | None
    point_check: StressCheck | None
    safety: SafetyBasis


@dataclass(frozen=True)
class ShaftCase:
    """The shaft, or its flange, in one case.

    Attributes
    ----------
    case : str
        'rated', 'on load', 'held', or 'braked' after loss of load.
    torque, thrust, bending : float
        Of the rotor [N m], [N], by its weight over the overhang [N m].
    stress : ShaftStress or None
        Of the shaft; None without one.
    check : StressCheck or None
        Of the shaft.
    bolts : BoltLoads or None
        Of the flange; None without one.
    bolt_check : StressCheck or None
        Of its bolts.
    safety : SafetyBasis
        Of the loads.
    """

    case: str
    torque: float
    thrust: float
    bending: float
    stress: ShaftStress | None
    check: StressCheck | None
    bolts: BoltLoads | None
    bolt_check: StressCheck | None
    safety: SafetyBasis


@dataclass(frozen=True)
class Stresses:
    """Every stress of one machine.

    Attributes
    ----------
    roots : tuple of RootStress
        By part, state and end.
    duct : DuctStress
    shaft : tuple of ShaftCase
        Empty without shaft and flange.
    factors : tuple of SafetyFactor
        Those that stand on these loads and strengths.
    remarks : tuple of Remark
        What is left out, and what the reader must do.
    """

    roots: tuple[RootStress, ...]
    duct: DuctStress
    shaft: tuple[ShaftCase, ...]
    factors: tuple[SafetyFactor, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class NaturalFrequencies:
    """What answers to shaking, and what shakes.

    Attributes
    ----------
    vane, blade : SpanModes
        Of one vane and of one blade.
    duct : RingModes
        Of the duct.
    slowest, fastest : float
        Rotor speeds looked at: the least on load, and runaway in the fastest water [rad/s].
    resonance : Resonance
        Every frequency against rotor, blade passing and vane passing.
    """

    vane: SpanModes
    blade: SpanModes
    duct: RingModes
    slowest: float
    fastest: float
    resonance: Resonance


@dataclass(frozen=True)
class PlaceFatigue:
    """Fatigue at one place.

    Attributes
    ----------
    place : str
        Name of the series (untrusted).
    duration : float
        That the series stands for [s].
    damage : FatigueDamage
        Of the series.
    wanted_life : float or None
        The machine's, None where no cost tells one [s].
    enough : bool or None
        Whether the life with its factor reaches it.
    safety : SafetyBasis
        Of the damage.
    """

    place: str
    duration: float
    damage: FatigueDamage
    wanted_life: float | None
    enough: bool | None
    safety: SafetyBasis


@dataclass(frozen=True)
class StrengthFindings:
    """The strength of one machine.

    Attributes
    ----------
    stresses : Stresses
        Of vanes, blades, duct, shaft and flange.
    frequencies : NaturalFrequencies
        Of vanes, blades and duct.
    fatigue : tuple of PlaceFatigue
        By place; empty without series.
    invented : bool
        Whether the scheme says that the machine is made up.
    """

    stresses: Stresses
    frequencies: NaturalFrequencies
    fatigue: tuple[PlaceFatigue, ...]
    invented: bool

    @property
    def checks(self) -> dict[str, StressCheck]:
        """The worst check of each part, by its name and where it stands."""
        found: dict[str, StressCheck] = {}
        for part in ("vane", "blade"):
            roots = [root for root in self.stresses.roots if root.part == part]
            worst = max(roots, key=lambda root: root.check.use)
            found[f"{part}, {worst.state}, at the {worst.end}"] = worst.check
        duct = self.stresses.duct
        found["duct, pressure"] = duct.pressure_check
        if duct.point_check is not None:
            found["duct, push on one place"] = duct.point_check
        for what, name in (("shaft", "check"), ("flange bolts", "bolt_check")):
            cases = [(case.case, getattr(case, name)) for case in self.stresses.shaft]
            cases = [(case, check) for case, check in cases if check is not None]
            if cases:
                case, check = max(cases, key=lambda pair: pair[1].use)
                found[f"{what}, {case}"] = check
        return found
