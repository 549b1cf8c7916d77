"""Trade of rotor speed, counts and sweep: each moved alone, the rows designed anew, everything computed again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from racewright.door import within
from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.row_fit import axial_gap, check_row_within
from racewright.machine.unit import RowIntent, Unit
from racewright.passage.crossing import row_crossings
from racewright.passage.debris import DebrisClass
from racewright.passage.fate import Fate, fates
from racewright.passage.gap import free_opening, neighbours
from racewright.passage.species import FishClass
from racewright.passage.strike import Heading, strike
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.tick import Tick, silent
from racewright.water import Water


@dataclass(frozen=True, slots=True)
class TradeRow:
    """One variant; figures are 0 where `reason` says why there are none.

    Attributes
    ----------
    label : str
        'as designed', or what was moved.
    tip_speed_ratio, sweep : float
        Of the design [-], of both rows' edges [rad].
    vane_count, blade_count : int
    shaft_power, torque : float
        [W], [N m]
    strike_chance, death, fastest : float
        Of one fish: chance of a strike, screening value of death by it [-], fastest edge [m/s].
    smallest_opening : float
        Of either row between hub and tip [m].
    fates : tuple of Fate
        Of the classes of debris asked.
    reason : str
        '' when computed.
    """

    label: str
    tip_speed_ratio: float
    sweep: float
    vane_count: int
    blade_count: int
    shaft_power: float
    torque: float
    strike_chance: float
    death: float
    fastest: float
    smallest_opening: float
    fates: tuple[Fate, ...]
    reason: str


def trade(
    unit: Unit,
    flow: Axisymmetric,
    water: Water,
    fish: FishClass,
    length: float,
    *,
    tip_speed_ratios: Sequence[float] = (),
    vane_counts: Sequence[int] = (),
    blade_counts: Sequence[int] = (),
    sweeps: Sequence[float] = (),
    debris: Sequence[DebrisClass] = (),
    heading: Heading = "worse",
    tick: Tick = silent,
) -> tuple[TradeRow, ...]:
    """The machine as designed and variants that move one thing each, at the design point of each.

    Another count keeps count x chord, so that the rows stay as dense. Sweep leans both rows' edges downstream: it
    changes strikes and what strands do; the stage's power does not know it.

    Parameters
    ----------
    unit, flow, water
        As `design_rows`.
    fish : FishClass
    length : float
        Of the fish, up to the duct's length [m].
    tip_speed_ratios, vane_counts, blade_counts, sweeps : sequences
        What to try [-], [-], [-], within 1.2 [rad].
    debris : sequence of DebrisClass
    heading : str
        As in `strike`.
    tick : callable
        Called once for each variant.

    Raises
    ------
    InputError
        Where the machine as designed, the fish or a sweep is refused; variants that cannot be say so in `reason`.
    """
    for sweep in sweeps:
        within("sweep", sweep, -1.2, 1.2, "rad", 0.4)
    plans = [("as designed", unit, 0.0)]
    plans += [
        (f"tip-speed ratio {ratio:g}", replace(unit, design=replace(unit.design, tip_speed_ratio=ratio)), 0.0)
        for ratio in tip_speed_ratios
    ]
    plans += [(f"{n} vanes", replace(unit, vanes=_counted(unit.vanes, n)), 0.0) for n in vane_counts]
    plans += [(f"{n} blades", replace(unit, blades=_counted(unit.blades, n)), 0.0) for n in blade_counts]
    plans += [(f"sweep {np.degrees(sweep):.0f} degrees", unit, float(sweep)) for sweep in sweeps]
    found = []
    for i, (label, variant, sweep) in enumerate(plans):
        try:
            found.append(_row(label, variant, sweep, flow, water, fish, length, debris, heading))
        except (InputError, NoAnswerError) as error:
            if i == 0:
                raise
            found.append(_none(label, variant, sweep, str(error)))
        tick((i + 1) / len(plans))
    return tuple(found)


def _row(
    label: str,
    unit: Unit,
    sweep: float,
    flow: Axisymmetric,
    water: Water,
    fish: FishClass,
    length: float,
    debris: Sequence[DebrisClass],
    heading: Heading,
) -> TradeRow:
    vanes, blades = (replace(row, sweep=np.full(row.radius.shape, sweep)) for row in design_rows(unit, flow, water))
    axial_gap(vanes, blades)
    if sweep != 0.0:
        for row in (vanes, blades):
            check_row_within(row, unit.duct)
    speed = unit.design.stream_speed
    turning = unit.design.tip_speed_ratio * speed / float(blades.radius[-1])
    point = operating_point(unit, vanes, blades, flow, water, speed, turning)
    crossings = row_crossings(unit, vanes, blades, point)
    struck = strike(crossings, fish, length, heading=heading, duct_length=unit.duct.length)
    return TradeRow(
        label=label,
        tip_speed_ratio=unit.design.tip_speed_ratio,
        sweep=sweep,
        vane_count=vanes.count,
        blade_count=blades.count,
        shaft_power=point.shaft_power,
        torque=point.torque,
        strike_chance=float(struck.chance[0]),
        death=float(struck.death[0]),
        fastest=struck.fastest,
        smallest_opening=min(_smallest(vanes), _smallest(blades)),
        fates=fates(vanes, blades, crossings, debris),
        reason="",
    )


def _smallest(row: Row) -> float:
    shapes, pitches = neighbours(row, np.linspace(row.radius[0], row.radius[-1], 5))
    return min(free_opening(shape, float(pitch)) for shape, pitch in zip(shapes, pitches, strict=True))


def _counted(row: RowIntent, count: int) -> RowIntent:
    if isinstance(count, bool) or not isinstance(count, int) or not 2 <= count <= 30:
        raise InputError(f"{count!r} is no count of a row; wanted a whole number from 2 to 30", key="count")
    share = row.count / count
    return replace(row, count=count, hub_chord=row.hub_chord * share, tip_chord=row.tip_chord * share)


def _none(label: str, unit: Unit, sweep: float, reason: str) -> TradeRow:
    return TradeRow(
        label, unit.design.tip_speed_ratio, sweep, unit.vanes.count, unit.blades.count, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0,
        (), reason,
    )  # fmt: skip
