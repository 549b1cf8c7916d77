"""First size of a machine by closed-form rules: how large, how long, how fast, for a wanted power."""

from __future__ import annotations

import math

from racewright.errors import InputError, NoAnswerError
from racewright.stage import sizing_rules as rules
from racewright.stage.cover import GRAVITY, drawing_air_cover
from racewright.stage.proposal import Proposal
from racewright.stage.sizing_remarks import sizing_remarks
from racewright.stage.sizing_rules import SHAPES, Shape, ShapeName
from racewright.uncertainty import PRIOR_DUCTED_POWER, Band
from racewright.water import Water

ATMOSPHERE = 101325.0
"""Standard atmosphere [Pa]."""


def first_size(
    wanted_power: float,
    stream_speed: float,
    water: Water,
    *,
    depth: float | None = None,
    shape: ShapeName = "middle",
    drive_efficiency: float = rules.DRIVE_EFFICIENCY,
) -> Proposal:
    """First size of a machine, or of several where one would be too large.

    Parameters
    ----------
    wanted_power : float
        Electrical power at rated stream speed, 50 W to 50 MW [W].
    stream_speed : float
        Stream speed at rated power, 0.3 to 6 [m/s].
    water : Water
    depth : float, optional
        Water depth where the machine is to hang, 0.2 to 1000 [m].
    shape : {'mild', 'middle', 'wide'}
    drive_efficiency : float
        Electrical over shaft power, 0.3 to 1; the default is common practice without a source [-].

    Returns
    -------
    Proposal

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    NoAnswerError
        The machine would be smaller than is proposed, or none fits the depth.
    """
    _check(wanted_power, stream_speed, depth, shape, drive_efficiency)
    form = SHAPES[shape]
    one = diameter_for(wanted_power, stream_speed, water, form, drive_efficiency)
    most = largest_throat(form, stream_speed, depth)
    machines = 1
    if one > most:
        share = power_at(most, stream_speed, water, form, drive_efficiency)
        machines = math.ceil(wanted_power / share * (1.0 - 1e-9))
        one = min(diameter_for(wanted_power / machines, stream_speed, water, form, drive_efficiency), most)
        one = max(one, rules.LEAST_THROAT)
    if one < rules.LEAST_THROAT:
        raise NoAnswerError(
            f"A throat of {one:.3f} m would do; nothing below {rules.LEAST_THROAT:g} m is proposed: more power or a "
            "slower stream asks for a machine that can be built."
        )
    return proposal_at(one, wanted_power, machines, stream_speed, water, depth, shape, drive_efficiency)


def alternatives(
    wanted_power: float,
    stream_speed: float,
    water: Water,
    *,
    depth: float | None = None,
    drive_efficiency: float = rules.DRIVE_EFFICIENCY,
) -> tuple[Proposal, Proposal, Proposal]:
    """`first_size` with a mild, a middle and a wide duct."""
    mild, middle, wide = (
        first_size(wanted_power, stream_speed, water, depth=depth, shape=shape, drive_efficiency=drive_efficiency)
        for shape in SHAPES
    )
    return mild, middle, wide


def power_at(
    throat_diameter: float, stream_speed: float, water: Water, form: Shape, drive_efficiency: float
) -> float:
    """Electrical power of one machine: rho U^3/2 x annulus x CH u x stage and drive efficiency [W]."""
    efficiency = rules.stage_efficiency(_reynolds(throat_diameter, stream_speed, water, form)[0])
    coefficient = rules.HEAD_COEFFICIENT * form.speed_ratio * efficiency
    annulus = 0.25 * math.pi * throat_diameter**2 * form.annulus_share
    return 0.5 * water.density * stream_speed**3 * annulus * coefficient * drive_efficiency


def diameter_for(
    wanted_power: float, stream_speed: float, water: Water, form: Shape, drive_efficiency: float
) -> float:
    """Throat diameter of one machine of `wanted_power`: power goes with its square, efficiency hardly moves [m]."""
    diameter = 1.0
    for _ in range(40):
        last = diameter
        power = power_at(diameter, stream_speed, water, form, drive_efficiency)
        diameter *= math.sqrt(wanted_power / power)
        if abs(diameter - last) <= 1e-13 * diameter:
            break
    return diameter


def proposal_at(
    throat_diameter: float,
    wanted_power: float,
    machines: int,
    stream_speed: float,
    water: Water,
    depth: float | None,
    shape: ShapeName,
    drive_efficiency: float,
) -> Proposal:
    """The proposal of a given throat diameter; other arguments as `first_size`."""
    form, d = SHAPES[shape], throat_diameter
    blade_reynolds, vane_reynolds = _reynolds(d, stream_speed, water, form)
    efficiency = rules.stage_efficiency(blade_reynolds)
    coefficient = rules.HEAD_COEFFICIENT * form.speed_ratio * efficiency
    exit_area = 0.25 * math.pi * d**2 * form.exit_area_ratio
    annulus = 0.25 * math.pi * d**2 * form.annulus_share
    power = power_at(d, stream_speed, water, form, drive_efficiency)
    half = PRIOR_DUCTED_POWER * power
    gap, overall = rules.tip_clearance(d), d * form.outer_share
    least_cover, least_bed = _room(overall, form, stream_speed)
    least_depth = overall + least_cover + least_bed
    spare = None if depth is None else 0.5 * max(depth - least_depth, 0.0)
    tip_speed = rules.TIP_SPEED_RATIO * stream_speed
    cavitation = _cavitation(overall, d, least_cover + (spare or 0.0), stream_speed, water, form)
    return Proposal(
        shape=shape,
        wanted_power=wanted_power,
        machines=machines,
        stream_speed=stream_speed,
        throat_diameter=d,
        overall_diameter=overall,
        length=d * form.length,
        exit_area_ratio=form.exit_area_ratio,
        duct_thickness=rules.DUCT_THICKNESS,
        hub_diameter=d * rules.HUB_SHARE,
        hub_nose_x=d * rules.NOSE_X,
        hub_nose_length=d * rules.NOSE_LENGTH,
        hub_cylinder_length=d * rules.CYLINDER_LENGTH,
        hub_tail_length=d * rules.TAIL_LENGTH,
        vane_count=rules.VANE_COUNT,
        blade_count=rules.BLADE_COUNT,
        vanes_x=d * rules.VANES_X,
        rotor_x=d * rules.ROTOR_X,
        vane_hub_chord=d * rules.VANE_HUB_CHORD,
        vane_tip_chord=d * rules.VANE_TIP_CHORD,
        blade_hub_chord=d * rules.BLADE_HUB_CHORD,
        blade_tip_chord=d * rules.BLADE_TIP_CHORD,
        row_thickness=rules.ROW_THICKNESS,
        tip_clearance=gap,
        head_coefficient=rules.HEAD_COEFFICIENT,
        tip_speed_ratio=rules.TIP_SPEED_RATIO,
        speed_ratio=form.speed_ratio,
        efficiency=efficiency,
        drive_efficiency=drive_efficiency,
        power_coefficient=coefficient,
        exit_power_coefficient=coefficient * annulus / exit_area,
        annulus_area=annulus,
        exit_area=exit_area,
        expected_power=Band(power - half, power, power + half, "prior band of ducted power, +-25 %"),
        rotor_speed=tip_speed / (0.5 * d - gap),
        tip_speed=tip_speed,
        blade_reynolds=blade_reynolds,
        vane_reynolds=vane_reynolds,
        cavitation_number=cavitation,
        least_cover=least_cover,
        least_bed_clearance=least_bed,
        least_depth=least_depth,
        depth=depth,
        cover=None if spare is None else least_cover + spare,
        bed_clearance=None if spare is None else least_bed + spare,
        remarks=sizing_remarks(
            machines=machines,
            power_of_one=power,
            throat_diameter=d,
            stream_speed=stream_speed,
            least_depth=least_depth,
            depth=depth,
            too_shallow=largest_throat(form, stream_speed, depth) < largest_throat(form, stream_speed, None),
            least_reynolds=min(blade_reynolds, vane_reynolds),
            tip_speed=tip_speed,
            cavitation_number=cavitation,
            wide=shape == "wide",
        ),
    )


def _reynolds(diameter: float, stream_speed: float, water: Water, form: Shape) -> tuple[float, float]:
    """Chord Reynolds numbers of blades and vanes at mid-span, vector-mean speeds of a free-vortex stage."""
    share = 0.5 * (1.0 + rules.HUB_SHARE)
    wheel = rules.TIP_SPEED_RATIO * share
    swirl = 0.5 * rules.HEAD_COEFFICIENT / wheel
    blade = 0.5 * (rules.BLADE_HUB_CHORD + rules.BLADE_TIP_CHORD) * math.hypot(form.speed_ratio, wheel - 0.5 * swirl)
    vane = 0.5 * (rules.VANE_HUB_CHORD + rules.VANE_TIP_CHORD) * math.hypot(form.speed_ratio, 0.5 * swirl)
    scale = stream_speed * diameter / water.viscosity
    return blade * scale, vane * scale


def _room(overall: float, form: Shape, stream_speed: float) -> tuple[float, float]:
    """Water wanted above and below a duct [m]."""
    air = drawing_air_cover(form.speed_ratio, rules.HEAD_COEFFICIENT, stream_speed)
    cover = max(air, rules.LEAST_COVER, rules.COVER_SHARE * overall)
    return cover, max(rules.LEAST_BED_CLEARANCE, rules.BED_SHARE * overall)


def largest_throat(form: Shape, stream_speed: float, depth: float | None) -> float:
    """Largest throat diameter that is built and fits the depth; the room it asks for grows with it [m]."""
    low, high = 0.0, rules.LARGEST_OVERALL
    if depth is None or high + sum(_room(high, form, stream_speed)) <= depth:
        return high / form.outer_share
    for _ in range(60):
        middle = 0.5 * (low + high)
        fits = middle + sum(_room(middle, form, stream_speed)) <= depth
        low, high = (middle, high) if fits else (low, middle)
    if low / form.outer_share < rules.LEAST_THROAT:
        raise NoAnswerError(
            f"{depth:g} m of water is too shallow: the smallest machine proposed, {rules.LEAST_THROAT:g} m in the "
            f"throat, asks for {rules.LEAST_THROAT * form.outer_share + sum(_room(0.0, form, stream_speed)):.2f} m."
        )
    return low / form.outer_share


def _cavitation(overall: float, throat: float, cover: float, stream_speed: float, water: Water, form: Shape) -> float:
    """Cavitation number at the highest blade tip: hydrostatic pressure less the throat's and the head's drop."""
    under = cover + 0.5 * (overall - throat)
    dynamic = 0.5 * water.density * stream_speed**2
    pressure = ATMOSPHERE + water.density * GRAVITY * under - water.vapour_pressure
    pressure -= dynamic * (form.speed_ratio**2 - 1.0 + rules.HEAD_COEFFICIENT)
    return pressure / (dynamic * (form.speed_ratio**2 + rules.TIP_SPEED_RATIO**2))


def _check(
    wanted_power: float, stream_speed: float, depth: float | None, shape: str, drive_efficiency: float
) -> None:
    if shape not in SHAPES:
        raise InputError(f"the duct is {shape!r}; write 'mild', 'middle' or 'wide'", key="shape")
    for key, value, low, high, unit in (
        ("wanted_power", wanted_power, 50.0, 5e7, "W"),
        ("stream_speed", stream_speed, 0.3, 6.0, "m/s"),
        ("depth", 10.0 if depth is None else depth, 0.2, 1000.0, "m"),
        ("drive_efficiency", drive_efficiency, 0.3, 1.0, ""),
    ):
        if not (math.isfinite(value) and low <= value <= high):
            raise InputError(f"{value} is outside {low:g} to {high:g} {unit}".rstrip(), key=key)
