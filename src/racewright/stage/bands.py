"""Bands of the design point's power by cause: each cause moved to the ends of its own range and solved again."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.flow.response import FlowsAt, FlowTable
from racewright.flow.result import Axisymmetric
from racewright.machine.diffuser import ATTACHED_HALF_ANGLE, half_angle
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.altered import with_blades_turned, with_drag, with_flow, with_vanes_turned
from racewright.stage.end_wall import END_WALLS
from racewright.stage.solve import Solved, solve_many
from racewright.stage.stage_ready import Stage, ready_stage
from racewright.uncertainty import PRIOR_DUCTED_POWER, Band
from racewright.water import Water

Floats = NDArray[np.float64]

MIXING_GAIN, MIXING_LOSS = 0.06, 0.02
"""Share by which mixing of the wake by the outer water may raise or lower the flow at a load. Own choice [-]."""
LEAST_SEPARATION, MOST_SEPARATION = 0.10, 0.60
"""Share of the duct's excess flow that separation may cost: up to 7 degrees of half-angle, and from 15 on, straight
between. Own choice; no source gives it for loaded ducts [-]."""
SEPARATED_HALF_ANGLE = math.radians(15.0)
_DESIGN = "re-solved at the design point"


@dataclass(frozen=True)
class CauseBand:
    """What one cause may do to the shaft power.

    Attributes
    ----------
    cause : str
        In a few words.
    low, high : float
        Shaft power with the cause at its two ends [W].
    basis : str
        Which range, and where it comes from.
    """

    cause: str
    low: float
    high: float
    basis: str


@dataclass(frozen=True)
class PowerBands:
    """Shaft power at the design point with its causes of doubt.

    Attributes
    ----------
    value : float
        Shaft power as computed [W].
    causes : tuple of CauseBand
    combined : Band
        Square root of the sum of squares on each side, never narrower than the prior until a test calibrates [W].
    """

    value: float
    causes: tuple[CauseBand, ...]
    combined: Band


def power_bands(
    unit: Unit, vanes: Row, blades: Row, flow: Axisymmetric, water: Water, *, table: FlowTable | None = None
) -> PowerBands:
    """Bands at the design stream speed and tip-speed ratio; arguments as `ready_stage`.

    Raises
    ------
    NoAnswerError
        Where the design point itself has no operating point.
    """
    table = FlowTable(flow) if table is None else table
    stage = ready_stage(unit, vanes, blades, flow, water, table=table)
    solved = _solved(stage)
    if not solved.answered[0]:
        raise NoAnswerError("The design point has no operating point, so its power has no band.")
    value = _power(stage, solved)

    def again(changed: Stage) -> float:
        found = _solved(changed)
        return _power(changed, found) if found.answered[0] else 0.0

    def lossy(end: float, form: str) -> float:
        return again(with_drag(ready_stage(unit, vanes, blades, flow, water, end_wall=form, table=table), end))

    share = separation_share(half_angle(unit.duct))
    ends = [lossy(end, form) for form in END_WALLS for end in (-1.0, 1.0)]
    causes = [
        _cause(
            "drag and end losses of the rows",
            value,
            ends,
            f"section drag at the ends of its band, end losses by each of the named forms; {_DESIGN}",
        )
    ]
    for row, turn in (("vanes", with_vanes_turned), ("blades", with_blades_turned)):
        basis = f"outlet angles of the {row} off by the row model's band; {_DESIGN}"
        ends = [again(turn(stage, solved, sign)) for sign in (-1.0, 1.0)]
        causes.append(_cause(f"outlet angle of the {row}", value, ends, basis))
    apart = again(with_flow(stage, lambda at: _less_excess(at, share)))
    causes.append(
        _cause(
            "separation in the duct",
            value,
            [apart],
            f"{100 * share:.0f} % of the flow beyond an open rotor's lost at a half-angle of "
            f"{math.degrees(half_angle(unit.duct)):.1f} degrees; own choice; {_DESIGN}",
        )
    )
    ends = [again(with_flow(stage, _slower)), again(with_flow(stage, _faster))]
    basis = f"flow at a given load {-100 * MIXING_LOSS:+.0f} to {100 * MIXING_GAIN:+.0f} %; own choice; {_DESIGN}"
    causes.append(_cause("mixing of the wake with the outer water", value, ends, basis))
    return PowerBands(value, tuple(causes), _combined(value, causes))


def relative_ends(bands: PowerBands) -> tuple[float, float]:
    """Ends of the combined band over the value, low not below 0; the prior's where the value is not above 0."""
    if bands.value <= 0.0:
        return 1.0 - PRIOR_DUCTED_POWER, 1.0 + PRIOR_DUCTED_POWER
    return max(bands.combined.low / bands.value, 0.0), bands.combined.high / bands.value


def band_at(power: float, bands: PowerBands) -> Band:
    """The design point's band at another point's shaft power, by its relative ends [W]."""
    low, high = relative_ends(bands)
    ends = sorted((power * low, power * high))
    return Band(ends[0], power, ends[1], f"relative ends of the design point ({bands.combined.basis})")


def separation_share(angle: float) -> float:
    """Share of the duct's excess flow that separation may cost at a half-angle [rad], 0.1 to 0.6 [-]."""
    part = (angle - ATTACHED_HALF_ANGLE) / (SEPARATED_HALF_ANGLE - ATTACHED_HALF_ANGLE)
    return LEAST_SEPARATION + (MOST_SEPARATION - LEAST_SEPARATION) * min(max(part, 0.0), 1.0)


def _less_excess(at: FlowsAt, share: float) -> Floats:
    open_rotor = 0.5 * (1.0 + at.far_wake_speed)
    return at.speed_ratio - share * np.maximum(at.speed_ratio - open_rotor, 0.0)


def _slower(at: FlowsAt) -> Floats:
    """Speed ratio at the lower end of what mixing may do [-]."""
    return at.speed_ratio * (1.0 - MIXING_LOSS)


def _faster(at: FlowsAt) -> Floats:
    """Speed ratio at the upper end of what mixing may do [-]."""
    return at.speed_ratio * (1.0 + MIXING_GAIN)


def _cause(cause: str, value: float, ends: list[float], basis: str) -> CauseBand:
    return CauseBand(cause, min(value, *ends), max(value, *ends), basis)


def _combined(value: float, causes: list[CauseBand]) -> Band:
    prior = PRIOR_DUCTED_POWER * abs(value)
    down = math.sqrt(sum((value - c.low) ** 2 for c in causes))
    up = math.sqrt(sum((c.high - value) ** 2 for c in causes))
    rules = [
        f"{side}: {'the prior of +-25 %' if own < prior else 'the causes together'}"
        for side, own in (("below", down), ("above", up))
    ]
    return Band(
        value - max(down, prior), value, value + max(up, prior), "; ".join(rules) + "; until a test calibrates"
    )


def _solved(stage: Stage) -> Solved:
    design = stage.unit.design
    turning = design.tip_speed_ratio * design.stream_speed / stage.tip_radius
    return solve_many(stage, np.array([design.stream_speed]), np.array([turning]))


def _power(stage: Stage, solved: Solved) -> float:
    return float(stage.water.density * solved.trial.rows.torque[0] * solved.rotor_speed[0])
