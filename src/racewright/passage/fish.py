"""Fish through the machine: strike, pressure and shear together, and how many of the river's fish come in."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import within
from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.passage.barotrauma import Decompression, decompression
from racewright.passage.crossing import row_crossings
from racewright.passage.dose import UNKNOWN, Chance
from racewright.passage.exposure import Exposure, exposure
from racewright.passage.species import FishClass
from racewright.passage.strike import Heading, strike
from racewright.passage.strike_result import Strike
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.stage.cavitation import STANDARD_ATMOSPHERE
from racewright.stage.result import OperatingPoint
from racewright.water import Water

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class FishPassage:
    """What happens to fish of m lengths.

    Attributes
    ----------
    strike : Strike
    exposure : Exposure
    decompression : Decompression
        At the worst place.
    pressure_death, shear_death : Chance
        Of a fish that comes in.
    death_low, death, death_high : ndarray, shape (m,)
        Chance that a fish that comes in dies, causes taken as independent; `death` counts only the causes that have a
        value [-].
    left_out : tuple of str
        Causes without a value.
    avoidance : float
        Share of fish that keep out of the water that passes [-].
    flow_share : float or None
        Flow through the rotor over the river's discharge; None when that was not given [-].
    river_strike, river_death_low, river_death, river_death_high : ndarray, shape (m,), or None
        The chances of a fish that comes down the river evenly with its water [-].
    remarks : tuple of Remark
    safety : tuple of SafetyBasis
    """

    strike: Strike
    exposure: Exposure
    decompression: Decompression
    pressure_death: Chance
    shear_death: Chance
    death_low: Floats
    death: Floats
    death_high: Floats
    left_out: tuple[str, ...]
    avoidance: float
    flow_share: float | None
    river_strike: Floats | None
    river_death_low: Floats | None
    river_death: Floats | None
    river_death_high: Floats | None
    remarks: tuple[Remark, ...]
    safety: tuple[SafetyBasis, ...]


def fish_passage(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    point: OperatingPoint,
    fish: FishClass,
    length: ArrayLike,
    hub_depth: float,
    *,
    heading: Heading = "worse",
    discharge: float | None = None,
    avoidance: float = 0.0,
    acclimation_depth: float | None = None,
    atmosphere: float = STANDARD_ATMOSPHERE,
    felt: Exposure | None = None,
) -> FishPassage:
    """All that a fish meets on its way through, at one operating point.

    Parameters
    ----------
    unit, vanes, blades, flow, water, point
        The machine and one of its operating points.
    fish : FishClass
    length : array_like, shape (m,)
        Up to the duct's length [m].
    hub_depth, acclimation_depth, atmosphere
        As in `exposure`.
    heading : str
        As in `strike`.
    discharge : float, optional
        Of the river, at least the flow through the rotor [m3/s].
    avoidance : float
        0 to 1; 0, none, by default: the safe side. At night and in turbid water fish avoid little [-].
    felt : Exposure, optional
        What `exposure` gave for these very arguments, so that several classes share it; computed without it.

    Raises
    ------
    InputError
        A value out of range, a fish longer than the duct, less discharge than flow through the rotor.
    NoAnswerError
        As `exposure`.
    """
    within("avoidance", avoidance, 0.0, 1.0, "", 0.0)
    share = None if discharge is None else flow_share(point.flow_rate, discharge)
    struck = strike(
        row_crossings(unit, vanes, blades, point), fish, length, heading=heading, duct_length=unit.duct.length
    )
    if felt is None:
        felt = exposure(
            vanes, blades, flow, water, point, hub_depth, acclimation_depth=acclimation_depth, atmosphere=atmosphere
        )
    worst = decompression(fish, felt.worst_acclimation, felt.worst_nadir)
    pressure = _pressure(fish, felt, worst)
    shear = UNKNOWN if fish.shear is None else fish.shear.at(felt.strains.largest)
    parts = {"pressure": pressure, "shear": shear}
    left_out = tuple(name for name, one in parts.items() if one.value is None)
    low = _joined(struck.death_low, [one.low for one in parts.values()])
    value = _joined(struck.death, [one.value or 0.0 for one in parts.values()])
    high = _joined(struck.death_high, [one.high for one in parts.values()])

    def river(chance: Floats) -> Floats | None:
        return None if share is None else share * (1.0 - avoidance) * chance

    return FishPassage(
        strike=struck,
        exposure=felt,
        decompression=worst,
        pressure_death=pressure,
        shear_death=shear,
        death_low=low,
        death=value,
        death_high=high,
        left_out=left_out,
        avoidance=avoidance,
        flow_share=share,
        river_strike=river(struck.chance),
        river_death_low=river(low),
        river_death=river(value),
        river_death_high=river(high),
        remarks=(*struck.remarks, *felt.remarks, *_remarks(parts, avoidance)),
        safety=(*struck.safety, worst.safety, _whole(fish)),
    )


def flow_share(flow_rate: float, discharge: float) -> float:
    """Share of a river's flow that passes the rotor, 0 to 1 [-].

    Raises
    ------
    InputError
        A flow [m3/s] that is not finite or not above 0, or a discharge below the flow through the rotor.
    """
    within("flow_rate", flow_rate, 1e-9, 1e6, "m3/s", 1.5)
    within("discharge", discharge, 1e-9, 1e6, "m3/s", 40.0)
    if flow_rate > discharge:
        raise InputError(
            f"{flow_rate:.3g} m3/s pass the rotor but the river carries {discharge:.3g} m3/s; more discharge or a "
            "slower stream",
            key="discharge",
        )
    return flow_rate / discharge


def _pressure(fish: FishClass, felt: Exposure, worst: Decompression) -> Chance:
    """Mean over the lines; the high end is that of the worst place."""
    if fish.pressure is None:
        return UNKNOWN
    lines = [fish.pressure.at(float(ratio)) for ratio in felt.ratio]
    low = float(np.dot(felt.share, [one.low for one in lines]))
    high = max(float(np.dot(felt.share, [one.high for one in lines])), worst.death.high)
    known = [one.value for one in lines if one.value is not None]
    if len(known) < len(lines):
        return Chance(low, None, high, next(one.reason for one in lines if one.value is None))
    return Chance(low, float(np.dot(felt.share, known)), high, "mean over the lines; high end at the worst place")


def _joined(first: Floats, others: list[float]) -> Floats:
    alive = 1.0 - first
    for one in others:
        alive = alive * (1.0 - one)
    return np.asarray(np.clip(1.0 - alive, 0.0, 1.0), dtype=np.float64)


def _remarks(parts: dict[str, Chance], avoidance: float) -> tuple[Remark, ...]:
    found = [
        Remark("caution", f"Death by {name} has no value and is left out of the middle figure: {one.reason}.", name)
        for name, one in parts.items()
        if one.value is None
    ]
    if avoidance > 0.0:
        found.append(
            Remark(
                "caution",
                f"{100.0 * avoidance:.0f} % of the fish are taken to keep out by the user's statement; at night and "
                "in turbid water they do so far less.",
                "avoidance",
            )
        )
    return tuple(found)


def _whole(fish: FishClass) -> SafetyBasis:
    return safety_basis(
        "fish",
        f"fish of the class {fish.title.lower()} spread evenly with the water; strike, pressure and shear "
        "independent; predation on stunned fish, delay and repeated passage are left out",
        fish.safety.edition,
        "screening, no source",
    )
