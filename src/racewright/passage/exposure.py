"""What fish feel on the way through: lowest pressure and strain rates along computed streamlines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import within
from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.passage.line_pressure import among_rows, line_pressure
from racewright.passage.lines import ThroughLines, through_lines
from racewright.passage.strain import Strains, strains
from racewright.passage.suction import row_suction
from racewright.remark import Remark
from racewright.stage.cavitation import STANDARD_ATMOSPHERE
from racewright.stage.cover import GRAVITY
from racewright.stage.result import OperatingPoint
from racewright.water import Water

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Exposure:
    """Pressures and strain rates on k lines through the machine.

    Attributes
    ----------
    share : ndarray, shape (k,)
        Of the flow through the rotor [-].
    acclimation, nadir : ndarray, shape (k,)
        Absolute pressure that the fish is used to, and the lowest of the through-flow, on the upper or the lower side
        of the axis, whichever has the larger ratio [Pa].
    nadir_x : ndarray, shape (k,)
        Where the nadir stands, from the duct's leading edge [m].
    ratio : ndarray, shape (k,)
        Acclimation over nadir [-].
    worst_acclimation, worst_nadir : float
        Pair of the largest ratio of all: on the lines, less the mean suction of the sections among the rows,
        absolute [Pa].
    strains : Strains
    lines : ThroughLines
    remarks : tuple of Remark
    """

    share: Floats
    acclimation: Floats
    nadir: Floats
    nadir_x: Floats
    ratio: Floats
    worst_acclimation: float
    worst_nadir: float
    strains: Strains
    lines: ThroughLines
    remarks: tuple[Remark, ...]


def exposure(
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    point: OperatingPoint,
    hub_depth: float,
    *,
    acclimation_depth: float | None = None,
    atmosphere: float = STANDARD_ATMOSPHERE,
    count: int = 8,
) -> Exposure:
    """Follow the water that passes the rotor and note the lowest pressure and the strain rates.

    Pressures as in `line_pressure`; the sections' suction as in `row_suction`: means over the chord, noses go deeper.

    Parameters
    ----------
    vanes, blades, flow, water, point
        The machine's rows, its flow [m], the water, and one of its operating points.
    hub_depth : float
        Axis below the surface, 0.01 to 1000; the water that passes must lie below the surface [m].
    acclimation_depth : float, optional
        Depth that fish are used to; without it that of their own line far upstream. A fish from the bed suffers
        more: give the bed's depth for the safe side [m].
    atmosphere : float
        5e4 to 1.2e5; the standard atmosphere by default [Pa].
    count : int
        Lines, 4 to 40.

    Raises
    ------
    InputError
        A value out of range; the captured water would reach above the surface.
    NoAnswerError
        The computed pressure falls to 0 absolute: water cavitates long before.
    """
    within("hub_depth", hub_depth, 0.01, 1000.0, "m", 2.0)
    within("atmosphere", atmosphere, 5e4, 1.2e5, "Pa", STANDARD_ATMOSPHERE)
    lines = through_lines(flow, point.load, count=count)
    if float(lines.radius.max()) >= hub_depth:
        raise InputError(
            f"water that passes the machine reaches {lines.radius.max():.3g} m from the axis, which lies "
            f"{hub_depth:.3g} m below the surface; hang it deeper",
            key="hub_depth",
        )
    if acclimation_depth is not None:
        within("acclimation_depth", acclimation_depth, 0.0, 1000.0, "m", 3.0)
    change = line_pressure(vanes, blades, water.density, point, lines)
    weight = water.density * GRAVITY
    near = among_rows(vanes, blades, lines)
    suction = row_suction(vanes, blades, water.density, point)
    sides, worst = [], []
    for side in (-1.0, 1.0):
        depth = hub_depth + side * lines.far_radius if acclimation_depth is None else acclimation_depth
        used = np.broadcast_to(atmosphere + weight * depth, lines.far_radius.shape)
        pressure = atmosphere + weight * (hub_depth + side * lines.radius) + change
        sides.append((used, pressure))
        deepest = min(float(pressure[:, near].min()) - suction, float(pressure.min()))
        worst.append((float(used.max()), _held(deepest)))
    ratio = np.stack([used / pressure.min(axis=1) for used, pressure in sides])
    lower, line = ratio.argmax(axis=0), np.arange(lines.share.size)
    used = np.stack([one for one, _pressure in sides])[lower, line]
    pressure = np.stack([one for _used, one in sides])[lower, line]
    hardest = max(worst, key=lambda pair: pair[0] / pair[1])
    return Exposure(
        share=lines.share,
        acclimation=used,
        nadir=pressure.min(axis=1),
        nadir_x=lines.x[pressure.argmin(axis=1)],
        ratio=ratio.max(axis=0),
        worst_acclimation=hardest[0],
        worst_nadir=hardest[1],
        strains=strains(flow, point, lines),
        lines=lines,
        remarks=_remarks(point, lines, float(change.min())),
    )


def _held(pressure: float) -> float:
    if pressure <= 0.0:
        raise NoAnswerError(
            f"the computed pressure falls to {pressure:.3g} Pa absolute, which water does not bear: it cavitates "
            "before. Deeper or slower would do."
        )
    return pressure


def _remarks(point: OperatingPoint, lines: ThroughLines, lowest: float) -> tuple[Remark, ...]:
    found = [
        Remark(
            "note",
            "Lowest pressures leave out the suction peaks at noses and the cores of tip vortices; fish that pass "
            "there feel less pressure than told.",
            "nadir pressure",
        )
    ]
    if point.lowest_pressure < 1.2 * lowest:
        found.append(
            Remark(
                "caution",
                "At a wall or in the vortex behind the hub the pressure falls to "
                f"{-1e-3 * point.lowest_pressure:.1f} kPa below the undisturbed one, on the lines to "
                f"{-1e-3 * lowest:.1f} kPa; fish close to the lip feel more of it.",
                "nadir pressure",
            )
        )
    if point.load > lines.load + 1e-9:
        found.append(
            Remark(
                "caution",
                f"The flow was solved up to a load of {lines.load:.3f}; the point's is {point.load:.3f}, and the "
                "lines are those of the former.",
                "streamlines",
            )
        )
    return tuple(found)
