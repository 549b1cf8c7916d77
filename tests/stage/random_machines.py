"""Random machines with both rows, each solved and designed, and how to ask one everything from standstill on."""

from __future__ import annotations

import dataclasses
import importlib
import importlib.util
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.contours import hub_radius_at
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.stage.design import design_rows
from racewright.stage.operating_point import Stage, ready_stage, solve_stage
from racewright.stage.result import OperatingPoint
from racewright.stage.states import runaway_ratio
from tests.flow.random_machines import random_machine
from tests.stage.machines import FRESH

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Drawn:
    """A valid machine, made ready, and why the draws before it were refused."""

    stage: Stage
    vanes: Row
    blades: Row
    refused: tuple[str, ...]


def drawn(seed: int, panels: int, wake_panels: int = 80) -> Drawn:
    """Duct and hub as the flow's random machines; design CH 0.2 to 0.8, tip-speed ratio 1.2 to 3.5.

    The rotor stands at a quarter to a half of the duct's length, the vanes at 0.3 to 0.6 of that.
    Drawn anew where there is no hub at the rotor, or where the design itself refuses: those are no machines.
    """
    refused: list[str] = []
    for trial in range(40):
        draw = np.random.default_rng([21, seed, trial])
        duct, hub = random_machine(1000 * seed + trial + 1000)
        rotor_x = draw.uniform(0.25, 0.5) * duct.length
        if hub is None or hub_radius_at(*hub_contour(hub, panels), rotor_x) < 0.05 * duct.throat_radius:
            refused.append("no hub at the rotor")
            continue
        chord, wider = draw.uniform(0.10, 0.30, 2), draw.uniform(0.8, 1.6, 2)
        unit = Unit(
            duct,
            hub,
            RowIntent(
                int(draw.integers(5, 12)),
                draw.uniform(0.3, 0.6) * rotor_x,
                chord[0],
                chord[0] * wider[0],
                draw.uniform(0.06, 0.15),
            ),
            RowIntent(
                int(draw.integers(3, 8)),
                rotor_x,
                chord[1],
                chord[1] * wider[1],
                draw.uniform(0.06, 0.15),
                clearance=draw.uniform(0.0, 0.02),
            ),
            DesignIntent(draw.uniform(1.0, 3.5), draw.uniform(0.2, 0.8), draw.uniform(1.2, 3.5)),
            roughness=float(draw.choice([0.0, 1e-4])),
        )
        hub_x, hub_r = hub_contour(hub, panels)
        try:
            flow = axisymmetric(
                *duct_contour(duct, panels),
                rotor_x=rotor_x,
                hub_x=hub_x,
                hub_r=hub_r,
                wake_panels=wake_panels,
            )
            vanes, blades = design_rows(unit, flow, FRESH)
            return Drawn(ready_stage(unit, vanes, blades, flow, FRESH), vanes, blades, tuple(refused))
        except (InputError, NoAnswerError) as error:
            refused.append(str(error))
    raise AssertionError(f"no machine in 40 draws: {refused[-1]}")


@dataclass(frozen=True)
class Sweep:
    """Points from standstill to runaway at one stream speed, and the ratios that had none, with the reason."""

    ratio: Floats
    points: tuple[OperatingPoint, ...]
    unanswered: tuple[tuple[float, str], ...]


def fastest(machine: Drawn, stream_speed: float) -> float:
    """Tip-speed ratio at runaway; NoAnswerError where there is none."""
    return runaway_ratio(machine.stage, stream_speed, machine.stage.unit.design.tip_speed_ratio)


def sweep(machine: Drawn, stream_speed: float, ratios: Floats) -> Sweep:
    """Every ratio asked; none left out in silence."""
    points, answered, unanswered = [], [], []
    for ratio in ratios:
        try:
            points.append(solve_stage(machine.stage, stream_speed, ratio * stream_speed / machine.stage.tip_radius))
            answered.append(float(ratio))
        except NoAnswerError as error:
            unanswered.append((float(ratio), str(error)))
    return Sweep(np.array(answered), tuple(points), tuple(unanswered))


def not_numbers(value: Any, name: str = "point") -> list[str]:
    """Names of every float or array of a dataclass, to any depth, that is not finite."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return [n for f in dataclasses.fields(value) for n in not_numbers(getattr(value, f.name), f"{name}.{f.name}")]
    if isinstance(value, float):
        return [] if math.isfinite(value) else [name]
    if isinstance(value, np.ndarray) and value.dtype.kind == "f":
        return [] if bool(np.all(np.isfinite(value))) else [name]
    return []


def inside_mismatch(machine: Drawn, point: OperatingPoint) -> float:
    """Shaft power + row losses - rho dh Q, over rho dh Q; losses are those of the sections' drag."""
    weight = machine.stage.water.density * point.flow_rate
    names = ("vane_profile", "blade_profile", "tip_clearance", "end_wall")
    lost = sum(getattr(point.losses, name, 0.0) for name in names) * 0.5 * point.stream_speed**2
    return (point.shaft_power + weight * (lost - point.head_drop)) / max(weight * abs(point.head_drop), 1e-12)


def vane_torque(machine: Drawn, point: OperatingPoint) -> float:
    """Torque of the water on the vanes from lift and drag of their sections, at the point's own load [N m]."""
    if importlib.util.find_spec("racewright.stage.solve"):
        solve = importlib.import_module("racewright.stage.solve")
        state = (np.array([one]) for one in (point.stream_speed, point.rotor_speed, getattr(point, "load", 0.0)))
        found = float(solve.trial_at(machine.stage, *state).rows.vane_torque[0])
    else:
        before = importlib.import_module("racewright.stage.operating_point")
        rows, _ = before.rows_at(machine.stage, point.stream_speed, point.rotor_speed, point.head_coefficient)
        found = rows.vane_torque
    return machine.stage.water.density * found


def angular_mismatch(machine: Drawn, point: OperatingPoint) -> float:
    """Rotor torque + vane torque + leaving swirl's moment, over the vanes' torque."""
    vanes = vane_torque(machine, point)
    return (point.torque + vanes + point.roll_moment) / max(abs(vanes), 1e-12)


def flagged(point: OperatingPoint) -> bool:
    """True where the point itself says that a stall, an extrapolation or a closure answers."""
    states = (*point.vane_state, *point.blade_state)
    return any(state != "attached" for state in states) or getattr(point, "flow_state", "solved") != "solved"
