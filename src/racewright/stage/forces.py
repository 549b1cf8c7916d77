"""Axial forces on the parts of the machine, from lift and drag, surface pressures, swirl and friction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.stage.hub_core import HubCores, hub_core
from racewright.stage.solve import Solved
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ForcesMany:
    """As `Forces` at p points, shape (p,) each, and their sum and the cores behind the hub."""

    rotor: Floats
    vanes: Floats
    duct: Floats
    hub: Floats
    debris: Floats
    thrust: Floats
    core: HubCores


def forces(stage: Stage, solved: Solved) -> ForcesMany:
    """Forces at solved points.

    The flow solver's pressures know the load L as a fall of total head at the disc. Behind the rotor the true
    pressure is lower by rho K^2 (1/r^2 - 1/r_s^2)/2, K along the hub, which adds to the force on the widening duct
    and on the tail. Wall friction pushes each wall by cf rho V^2/2, and lowers the pressure behind it by less than
    the solver does, which puts all loss at the disc; both together are, for even speed over each cross-section, the
    head lost times the annulus area, and so they are counted.
    """
    trial, stream = solved.trial, solved.stream_speed
    density = stage.water.density
    hub, wall = _radii(stage)
    dynamic = 0.5 * density * stream**2 * stage.flow.annulus_area
    swirl = density * trial.rows.swirl_hub**2
    inner, edge = wall / stage.edge_radius, stage.edge_radius
    on_duct = 0.5 * np.pi * swirl * (2.0 * np.log(1.0 / inner) - 1.0 + inner**2)
    core = hub_core(trial.rows.swirl_hub, hub, trial.flow.far_wake_speed * stream, density)
    on_hub = core.tail_force - 0.5 * np.pi * swirl * (hub / edge) ** 2
    flow, friction = trial.flow, trial.friction
    duct = (flow.total_thrust - flow.head_coefficient - flow.hub_force) + friction.duct_load + friction.outer_drag
    parts = (
        density * trial.rows.blade_force,
        density * trial.rows.vane_force,
        dynamic * duct + on_duct,
        dynamic * (flow.hub_force + friction.hub_load) + on_hub,
        dynamic * trial.debris_load,
    )
    return ForcesMany(*parts, parts[0] + parts[1] + parts[2] + parts[3] + parts[4], core)


def _radii(stage: Stage) -> tuple[float, float]:
    station = stage.flow.station_radius
    return float(station[0]), float(station[-1])
