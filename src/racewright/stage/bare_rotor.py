"""An open rotor without duct and vanes, by the stage's row model: annulus momentum, swirl, loss at the ends."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.annulus_momentum import Annuli, disc_load, solve_annuli
from racewright.stage.bare_blades import BareBlades
from racewright.stage.bare_remarks import bare_remarks
from racewright.stage.bare_result import BareRotor
from racewright.stage.prandtl_loss import prandtl_loss
from racewright.stage.row_model import FittedRow, Inflow, Response, RowModel
from racewright.stage.thin_row import ROW_MODELS
from racewright.water import Water

Floats = NDArray[np.float64]

JOIN_INDUCTION = 0.4
"""Axial induction up to which momentum theory is followed, as in `flow.closure` [-]."""
DATA_INDUCTION = 0.8
"""Axial induction near which the data behind the empirical relation end (Glauert's, from memory) [-]."""
BEYOND_SHARE = 0.1
"""Share of the annulus past `DATA_INDUCTION` from which a point is called beyond reach. Own choice [-]."""


def bare_rotor(
    blades: BareBlades,
    water: Water,
    stream_speed: float,
    tip_speed_ratio: Floats | float,
    *,
    turbulence: float = 0.1,
    roughness: float = 0.0,
    hub_loss: bool = False,
    stations: int = 32,
    model: RowModel | None = None,
) -> BareRotor:
    """Power, thrust, torque and loads of an open rotor in a wide stream.

    Parameters
    ----------
    blades : BareBlades
        From the hub's radius to the tip.
    water : Water
    stream_speed : float
        0.001 to 30 [m/s].
    tip_speed_ratio : ndarray, shape (m,), or float
        0.1 to 30 [-].
    turbulence : float
        Of the water at the sections, 0 to 0.3; the default is a river's (common practice, no source) [-].
    roughness : float
        Equivalent sand roughness, 0 to 0.01 [m].
    hub_loss : bool
        Whether the blades end freely at the hub; with a hub body they do not.
    stations : int
        Radii, 8 to 200.
    model : RowModel, optional
        Row model of the sections, each alone; the thin row without it.

    Returns
    -------
    BareRotor

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    NoAnswerError
        No flow through the rotor was found (see `annulus_momentum`).
    """
    ratio = np.atleast_1d(np.array(tip_speed_ratio, dtype=np.float64))
    _check(stream_speed, ratio, turbulence, roughness, stations)
    root, tip = float(blades.radius[0]), float(blades.radius[-1])
    # Nodes that are even in the angle of a half circle: the load falls as a square root at a free end.
    node, weight = np.polynomial.legendre.leggauss(stations)
    angle = 0.5 * math.pi * (1.0 + node)
    radius = root + 0.5 * (tip - root) * (1.0 - np.cos(angle))
    width = 0.5 * (tip - root) * np.sin(angle) * 0.5 * math.pi * weight
    here = blades.at(radius)
    fitted = (ROW_MODELS["thin row"] if model is None else model).fit(here.sections(roughness))
    speeds = ratio[:, None] * (radius / tip)
    share = here.count * here.chord / (2.0 * math.pi * radius)

    def loss_at(sine: Floats) -> Floats:
        return prandtl_loss(here.count, radius, root, tip, sine, hub_loss=hub_loss)

    def solved(row: FittedRow) -> Annuli:
        return solve_annuli(
            row, here.pitch, share, speeds, stream_speed * here.chord / water.viscosity, turbulence, loss_at
        )

    sums = _Sums(radius, width, here, tip)
    found = solved(fitted)
    power, thrust, drag_loss = sums.blades(found, speeds)
    bounds = [(power, thrust, power, thrust)]
    for part in ("drag", "angle"):
        shifted = [
            sums.blades(solved(_Shifted(fitted, found.response, part, sign)), speeds)[:2] for sign in (-1.0, 1.0)
        ]
        bounds.append(
            (
                np.minimum(power, np.minimum(shifted[0][0], shifted[1][0])),
                np.minimum(thrust, np.minimum(shifted[0][1], shifted[1][1])),
                np.maximum(power, np.maximum(shifted[0][0], shifted[1][0])),
                np.maximum(thrust, np.maximum(shifted[0][1], shifted[1][1])),
            )
        )
    power_low, thrust_low, power_high, thrust_high = (
        base + sign * np.sqrt(sum((one[i] - base) ** 2 for one in bounds[1:]))
        for i, (base, sign) in enumerate(((power, -1.0), (thrust, -1.0), (power, 1.0), (thrust, 1.0)))
    )
    wake_thrust, wake_torque, swirl_loss, mixing_loss = sums.wake(found, speeds)
    induction = 1.0 - 1.0 / found.slowing
    dynamic = 0.5 * water.density * (stream_speed * found.relative_speed) ** 2 * here.chord
    ring = radius * width
    beyond = np.sum(np.where(induction > DATA_INDUCTION, ring, 0.0), axis=1) > BEYOND_SHARE * np.sum(ring)
    answer = BareRotor(
        tip_speed_ratio=ratio,
        power_coefficient=power,
        thrust_coefficient=thrust,
        torque_coefficient=power / ratio,
        power_low=power_low,
        power_high=power_high,
        thrust_low=thrust_low,
        thrust_high=thrust_high,
        drag_loss=drag_loss,
        swirl_loss=swirl_loss,
        mixing_loss=mixing_loss,
        energy_gap=wake_thrust - power - drag_loss - swirl_loss - mixing_loss,
        moment_gap=power / ratio - wake_torque,
        thrust_gap=thrust - wake_thrust,
        radius=radius,
        chord=here.chord,
        inflow_angle=found.inflow,
        attack_angle=found.inflow - here.pitch,
        axial_induction=induction,
        swirl_induction=1.0 / found.turning - 1.0,
        loss_factor=found.loss,
        axial_load=dynamic * found.axial_force,
        tangential_load=dynamic * found.tangential_force,
        reynolds=stream_speed * found.relative_speed * here.chord / water.viscosity,
        stalled=found.response.stalled,
        turbulent_wake=induction > JOIN_INDUCTION,
        beyond_reach=beyond,
        remarks=(),
    )
    return replace(answer, remarks=bare_remarks(answer))


class _Sums:
    """Integrals over the blades and over the wake, as coefficients on the full circle, shape (m,) each."""

    def __init__(self, radius: Floats, width: Floats, blades: BareBlades, tip: float) -> None:
        area = math.pi * tip**2
        self._along = blades.count * blades.chord * width / area
        self._ring = 2.0 * math.pi * radius * width / area
        self._lever = radius / tip

    def blades(self, found: Annuli, speeds: Floats) -> tuple[Floats, Floats, Floats]:
        """CP, CT and the power lost to section drag, from the forces on the blades."""
        square = found.relative_speed**2 * self._along
        power = np.sum(square * found.tangential_force * speeds, axis=1)
        thrust = np.sum(square * found.axial_force, axis=1)
        drag = np.sum(square * found.relative_speed * found.response.profile_drag, axis=1)
        return power, thrust, drag

    def wake(self, found: Annuli, speeds: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """CT, CQ, swirl's and mixing's power, from the speeds in the wake."""
        induction = 1.0 - 1.0 / found.slowing
        axial, swirl = 1.0 - induction, 2.0 * (1.0 / found.turning - 1.0) * speeds
        flow = found.loss * self._ring
        load = flow * disc_load(induction)
        torque = np.sum(2.0 * flow * axial * swirl * self._lever, axis=1)
        turned = np.sum(flow * axial * swirl**2, axis=1)
        # Below the join 2a = 1 - w, so this is the kinetic energy of the wake's deficit, (1 - w)^2 per unit of flow.
        mixed = np.where(induction <= JOIN_INDUCTION, flow * axial * (2.0 * induction) ** 2, load * induction)
        return np.sum(load, axis=1), torque, turned, np.sum(mixed, axis=1)


class _Shifted:
    """A fitted row at one end of the band of drag or of angle that it gave at the solved flow."""

    def __init__(self, fitted: FittedRow, at: Response, part: str, sign: float) -> None:
        self._fitted = fitted
        self._drag = 1.0 + sign * at.drag_band if part == "drag" else np.ones_like(at.drag_band)
        self._angle = sign * at.angle_band if part == "angle" else np.zeros_like(at.angle_band)

    def response(self, inflow: Inflow) -> Response:
        found = self._fitted.response(inflow)
        turned = self._fitted.response(replace(inflow, mean_angle=inflow.mean_angle + self._angle))
        return replace(found, circulation=turned.circulation, profile_drag=found.profile_drag * self._drag)


def _check(stream_speed: float, ratio: Floats, turbulence: float, roughness: float, stations: int) -> None:
    for key, value, low, high, unit in (
        ("stream_speed", stream_speed, 1e-3, 30.0, "m/s"),
        ("turbulence", turbulence, 0.0, 0.3, ""),
        ("roughness", roughness, 0.0, 0.01, "m"),
        ("stations", stations, 8, 200, ""),
    ):
        if not (math.isfinite(value) and low <= value <= high):
            raise InputError(f"{value} is outside {low:g} to {high:g} {unit}".rstrip(), key=key)
    if ratio.ndim != 1 or ratio.size == 0 or not np.all((ratio >= 0.1) & (ratio <= 30.0)):
        raise InputError("must be one or more numbers between 0.1 and 30", key="tip_speed_ratio")
