"""A step of growth as a thing: one size of the machine at its stream, and the same with its operating point."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from racewright.door import within
from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.growth.scaled_machine import scaled_row, scaled_unit
from racewright.machine.as_built import with_clearance
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.operating_point import operating_point
from racewright.stage.result import OperatingPoint
from racewright.stage.sizing_rules import DRIVE_EFFICIENCY
from racewright.stage.sizing_solve import scaled_flow
from racewright.tick import Tick, silent
from racewright.water import Water


@dataclass(frozen=True, slots=True)
class StepPlace:
    """What is known of the water about a step; None where it is not.

    Attributes
    ----------
    depth, hub_depth : float or None
        Water depth; axis below the surface, not more than the depth [m].
    channel_area : float or None
        Of the channel or transect, > 0 [m2].
    turbulence : float or None
        Intensity of the stream, 0 to 1 [-].
    fish_length : float or None
        Of the fish that are looked at, > 0 [m].
    open_water : bool
        True where no walls are near: blockage is then 0 and no channel area is given.
    """

    depth: float | None = None
    hub_depth: float | None = None
    channel_area: float | None = None
    turbulence: float | None = None
    fish_length: float | None = None
    open_water: bool = False

    def __post_init__(self) -> None:
        for name, low, high, unit, example in (
            ("depth", 0.01, 1.2e4, "m", 3.0),
            ("hub_depth", 0.0, 1.2e4, "m", 1.2),
            ("channel_area", 1e-4, 1e9, "m2", 9.0),
            ("turbulence", 0.0, 1.0, "", 0.1),
            ("fish_length", 1e-4, 50.0, "m", 0.3),
        ):
            value = getattr(self, name)
            if value is not None:
                within(name, value, low, high, unit, example)
        if self.open_water and self.channel_area is not None:
            raise InputError("a channel's area is given and the water is said to be open", key="channel_area")
        if self.depth is not None and self.hub_depth is not None and self.hub_depth > self.depth:
            raise InputError(
                f"the axis lies {self.hub_depth:g} m below the surface of {self.depth:g} m of water", key="hub_depth"
            )


@dataclass(frozen=True, slots=True)
class Step:
    """One size of the machine at its stream.

    Attributes
    ----------
    name : str
        E.g. 'model', 'river unit', 'tidal unit'.
    unit : Unit
        With the stream speed and tip-speed ratio of its design point.
    vanes, blades : Row
    flow : Axisymmetric
        Lengths in m.
    water : Water
    place : StepPlace
    rated_power : float or None
        Electrical power that this step is to give, > 0 [W].
    drive_efficiency : float
        Electrical over shaft power, 0.05 to 1; the default is common practice without a source [-].
    """

    name: str
    unit: Unit
    vanes: Row
    blades: Row
    flow: Axisymmetric
    water: Water
    place: StepPlace = field(default_factory=StepPlace)
    rated_power: float | None = None
    drive_efficiency: float = DRIVE_EFFICIENCY

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError("a step of growth has no name; give one, e.g. 'river unit'", key="name")
        if self.rated_power is not None:
            within("rated_power", self.rated_power, 1e-3, 1e10, "W", 5000.0)
        within("drive_efficiency", self.drive_efficiency, 0.05, 1.0, "", DRIVE_EFFICIENCY)

    @property
    def throat_diameter(self) -> float:
        """[m]"""
        return 2.0 * self.unit.duct.throat_radius

    @property
    def rotor_speed(self) -> float:
        """At the design point [rad/s]."""
        design = self.unit.design
        return float(design.tip_speed_ratio * design.stream_speed / self.blades.radius[-1])


@dataclass(frozen=True, slots=True)
class SolvedStep:
    """A step with its operating point at its own design stream speed and tip-speed ratio.

    Attributes
    ----------
    step : Step
    point : OperatingPoint
    """

    step: Step
    point: OperatingPoint

    @property
    def electrical_power(self) -> float:
        """Shaft power through the drive [W]."""
        return self.point.shaft_power * self.step.drive_efficiency

    @property
    def rotor_reynolds(self) -> float:
        """Throat diameter x tip speed over kinematic viscosity, as `step_up` takes it [-]."""
        tip_speed = self.point.rotor_speed * float(self.step.blades.radius[-1])
        return self.step.throat_diameter * tip_speed / self.step.water.viscosity


def solve_step(step: Step, *, tick: Tick = silent) -> SolvedStep:
    """Solve a step at its design point; errors as `stage.operating_point`."""
    point = operating_point(
        step.unit,
        step.vanes,
        step.blades,
        step.flow,
        step.water,
        step.unit.design.stream_speed,
        step.rotor_speed,
        tick=tick,
    )
    return SolvedStep(step, point)


def like_step(step: Step, throat_diameter: float, stream_speed: float, water: Water, name: str) -> Step:
    """The step's own shape at another size, in another stream and water; gap and roughness in proportion.

    Its place is not known: what stands about the other machine is not this one's.

    Parameters
    ----------
    step : Step
    throat_diameter : float
        A thousandth to a thousand times the step's own [m].
    stream_speed : float
        0.01 to 50 [m/s].
    water : Water
    name : str

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    """
    factor = throat_diameter / step.throat_diameter
    return replace(
        step,
        name=name,
        unit=scaled_unit(step.unit, factor, stream_speed),
        vanes=scaled_row(step.vanes, factor),
        blades=scaled_row(step.blades, factor),
        flow=scaled_flow(step.flow, factor),
        water=water,
        place=StepPlace(),
        rated_power=None,
    )


def sized_step(
    step: Step,
    name: str,
    throat_diameter: float,
    stream_speed: float,
    water: Water,
    place: StepPlace,
    *,
    rated_power: float | None = None,
    roughness: float | None = None,
    clearance: float | None = None,
) -> Step:
    """The step's shape as it would be built at another size: all lengths grow alike but surface and gap.

    Parameters
    ----------
    step : Step
    name, throat_diameter, stream_speed, water
        As in `like_step`.
    place : StepPlace
    rated_power : float, optional
        Electrical [W].
    roughness : float, optional
        Equivalent sand roughness; the step's own, which does not grow, if left out [m].
    clearance : float, optional
        Tip gap over tip radius, 0 to 0.1; the step's own share if left out [-].

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    """
    grown = like_step(step, throat_diameter, stream_speed, water, name)
    rough = step.unit.roughness if roughness is None else within("roughness", roughness, 0.0, 0.1, "m", 1e-4)
    blades, intent = grown.blades, grown.unit.blades
    if clearance is not None:
        share = within("clearance", clearance, 0.0, 0.1, "", 0.008)
        wall = float(blades.radius[-1] + blades.clearance)
        blades, intent = with_clearance(blades, wall - wall / (1.0 + share)), replace(intent, clearance=share)
    return replace(
        grown,
        unit=replace(grown.unit, roughness=rough, blades=intent),
        blades=blades,
        place=place,
        rated_power=rated_power,
    )
