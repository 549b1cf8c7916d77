"""What the stream pays for: the outside energy book, each entry by its own route."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.stage.forces import ForcesMany
from racewright.stage.radial_equilibrium import over
from racewright.stage.solve import Solved
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class OutsideBooks:
    """As `OutsideBook` at p points, shape (p,) each."""

    drag_power: Floats
    shaft: Floats
    profile_loss: Floats
    end_wall_loss: Floats
    tip_loss: Floats
    debris_loss: Floats
    wall_friction: Floats
    outer_friction: Floats
    residual_swirl: Floats
    core_loss: Floats
    wake_mixing: Floats
    mismatch: Floats


def outside_book(stage: Stage, solved: Solved, found: ForcesMany) -> OutsideBooks:
    """The book at solved points.

    Momentum: D = rho Q (U - w) + integral (p0 - p) dA over the far wake. Bernoulli to the far wake:
    dh = (U^2 - w^2)/2 - Cth^2/2 + (p0 - p)/rho on each stream surface. Multiplied by rho w dA and put together,
    D U = rho Q dh + rho Q (U - w)^2/2 + integral w rho Cth^2/2 dA + (U - w) integral (p0 - p) dA, where dh holds the
    rows' work and losses, wall friction, and what the core loses. In radial equilibrium integral (p0 - p) dA is
    that of rho Cth^2/2 dA. The swirl is that of the vortex along the hub with its core, and what each stream surface
    has more or less.
    """
    trial, stream = solved.trial, solved.stream_speed
    rows, density = trial.rows, stage.water.density
    flux = density * rows.flow_rate
    dynamic = 0.5 * density * stream**2 * stage.flow.annulus_area
    wake = trial.flow.far_wake_speed * stream
    flows = wake > 0.0
    core_radius = found.core.radius
    still = np.where(flows, wake, 1.0)
    wake_radius = np.sqrt(rows.flow_rate / (np.pi * still))
    square = density * rows.swirl_hub**2
    spread = np.log(np.maximum(wake_radius / core_radius, 1.0))
    far_square = stage.annulus.flow_within(rows.axial_speed) / (np.pi * still[:, None])
    other = (stage.annulus.radius * rows.swirl_out) ** 2 - (rows.swirl_hub**2)[:, None]
    beside = over(
        rows.axial_speed * stage.annulus.area * 0.5 * other / np.maximum(far_square, core_radius[:, None] ** 2)
    )
    swirl = np.where(flows, np.pi * wake * square * (spread + 0.25) + density * beside, 0.0)
    half_flux = 0.5 * stream**2 * flux
    entries = (
        density * rows.torque * solved.rotor_speed,
        flux * (rows.vane_loss + rows.blade_loss),
        flux * rows.end_wall_loss,
        flux * rows.clearance_loss,
        half_flux * trial.debris_load,
        half_flux * (trial.friction.duct_load + trial.friction.hub_load),
        dynamic * trial.friction.outer_drag * stream,
        swirl,
        np.where(flows, 0.5 * np.pi * wake * square, 0.0),
        0.5 * flux * (stream - wake) ** 2 + (stream - wake) * swirl / still,
    )
    total = np.zeros_like(stream)
    for entry in entries:
        total = total + entry
    drag_power = found.thrust * stream
    return OutsideBooks(drag_power, *entries, total / drag_power - 1.0)
