"""Vanes and blades together in the duct's flow: swirl, torque, head, and the axial speed that they ask for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.machine.row import Row
from racewright.stage.annulus import Annulus
from racewright.stage.end_wall import EndWall
from racewright.stage.radial_equilibrium import kept_flow, over
from racewright.stage.row_flow import ReadyRow, RowFlow, through_row
from racewright.stage.row_model import RowModel, Slice
from racewright.stage.span import apply
from racewright.stage.thin_row import ROW_MODELS

Floats = NDArray[np.float64]

SWEEPS = 4
"""Times that rows and radial equilibrium are gone through; what they disagree by in the end is told. Own choice."""


@dataclass(frozen=True)
class TwoRows:
    """Flow through both rows, shape (p, n) at the annulus radii; integrals, shape (p,), are per density.

    Attributes
    ----------
    vane_speed, axial_speed : ndarray
        Axial speed at the vanes and at the blades [m/s].
    swirl_in, swirl_out : ndarray
        Swirl speed before and behind the blades [m/s].
    vanes, blades : RowFlow
    head : ndarray
        Total-head drop from the axial forces and the swirl's kinetic energy [J/kg].
    flow_rate : ndarray
        [m3/s]
    head_drop, vane_loss, blade_loss, clearance_loss, end_wall_loss : ndarray
        Flow-averaged [J/kg].
    torque, vane_torque : ndarray
        Torque of the water on the rotor and on the vanes, from lift and drag, over density [m5/s2].
    vane_force, blade_force : ndarray
        Axial force on the rows, from lift and drag, over density [m4/s2].
    swirl_exit, exit_swirl_energy : ndarray
        Flow-averaged K behind the rotor [m2/s] and Cth^2/2 there [J/kg].
    swirl_hub : ndarray
        K behind the rotor along the hub, what the vortex behind the tail is made of [m2/s].
    unsettled : ndarray
        Largest axial speed that rows and radial equilibrium disagree by at the end, over the mean [-].
    """

    vane_speed: Floats
    axial_speed: Floats
    swirl_in: Floats
    swirl_out: Floats
    vanes: RowFlow
    blades: RowFlow
    head: Floats
    flow_rate: Floats
    head_drop: Floats
    vane_loss: Floats
    blade_loss: Floats
    clearance_loss: Floats
    end_wall_loss: Floats
    torque: Floats
    vane_torque: Floats
    vane_force: Floats
    blade_force: Floats
    swirl_exit: Floats
    exit_swirl_energy: Floats
    swirl_hub: Floats
    unsettled: Floats


def ready_row(
    row: Row, radius: Floats, roughness: float, model: RowModel | None = None, end_wall: EndWall | None = None
) -> ReadyRow:
    """Sections of `row` at `radius` by cubic splines, no blade beyond the tip; `roughness` in m."""
    model = ROW_MODELS["thin row"] if model is None else model
    tip = float(row.radius[-1])
    inside = np.clip(radius, None, tip)
    table = np.stack([row.chord, row.stagger, row.camber, row.thickness], axis=1)
    here = table if radius is row.radius else np.asarray(CubicSpline(row.radius, table)(inside))
    chord, stagger, camber, thickness = np.ascontiguousarray(here.T)
    present = np.where(radius <= tip * (1.0 + 1e-12), 1.0, 0.0)
    sections = Slice(
        present * chord * row.count / (2.0 * np.pi * radius),
        stagger,
        camber,
        thickness,
        roughness / chord,
        row.clearance / chord,
    )
    return ReadyRow(sections, model.fit(sections), chord, tip - float(row.radius[0]), end_wall)


def two_rows(
    annulus: Annulus,
    vanes: ReadyRow,
    blades: ReadyRow,
    duct_speed: Floats,
    rotor_speed: Floats,
    viscosity: float,
    reach: float = 0.0,
) -> TwoRows:
    """Flow through both rows; the water reaches the vanes without swirl.

    Each row is an actuator disc: of the change that radial equilibrium makes across it half has come about at the
    row, and what is missing or early falls as exp(-pi x/length of the annulus); both rows' shares add up. r Cth is
    carried from the vanes to the blades on stream surfaces.

    Parameters
    ----------
    duct_speed : ndarray, shape (p, n)
        Axial speed at the annulus radii that the duct alone gives [m/s].
    rotor_speed : ndarray, shape (p,)
        [rad/s]
    viscosity : float
        [m2/s]
    reach : float
        exp(-pi x/length) for the distance x between the rows, 0 to 1 [-].
    """
    r, area = annulus.radius, annulus.area
    turning = rotor_speed[:, None]
    vane_speed, speed = duct_speed, duct_speed
    vane_guess: Floats | None = None
    blade_guess: Floats | None = None
    for sweep in range(SWEEPS):
        first = through_row(vanes, vane_speed, np.zeros_like(vane_speed), viscosity, vane_guess)
        vane_guess = 0.5 * first.tangent_out
        swirl_at_vanes = vane_speed * first.tangent_out
        carried = _carried(annulus, r * swirl_at_vanes, vane_speed, speed)
        swirl_in = carried / r
        before = (swirl_in - turning * r) / speed
        second = through_row(blades, speed, before, viscosity, blade_guess)
        blade_guess = 0.5 * (before + second.tangent_out)
        swirl_out = speed * second.tangent_out + turning * r
        lost = first.axial_force - 0.5 * swirl_at_vanes**2
        taken = second.axial_force + 0.5 * swirl_in**2 - 0.5 * swirl_out**2
        at_vanes, at_blades = disc_speeds(annulus, duct_speed, swirl_at_vanes, lost, swirl_out, lost + taken, reach)
        missing = at_blades - speed
        if sweep == SWEEPS - 1:
            break
        vane_speed = _moved(annulus, vane_speed, at_vanes - vane_speed, first.tangent_out)
        speed = _moved(annulus, speed, missing, second.tangent_out)
    vane_flow, flow = vane_speed * area, speed * area
    rate = over(flow)

    def mean(values: Floats) -> Floats:
        return over(flow * values) / rate

    def vane_mean(values: Floats) -> Floats:
        return over(vane_flow * values) / rate

    return TwoRows(
        vane_speed,
        speed,
        swirl_in,
        swirl_out,
        first,
        second,
        lost + taken,
        rate,
        vane_mean(lost) + mean(taken),
        vane_mean(first.profile_loss),
        mean(second.profile_loss),
        vane_mean(first.clearance_loss) + mean(second.clearance_loss),
        vane_mean(first.end_wall_loss) + mean(second.end_wall_loss),
        over(area * r * second.tangential_force),
        over(area * r * first.tangential_force),
        over(area * first.axial_force),
        over(area * second.axial_force),
        mean(r * swirl_out),
        mean(0.5 * swirl_out**2),
        r[annulus.shown.start] * swirl_out[:, annulus.shown.start],
        np.max(np.abs(missing), axis=1) * np.sum(area) / rate,
    )


def disc_speeds(
    annulus: Annulus,
    duct_speed: Floats,
    swirl_at_vanes: Floats,
    lost_in_vanes: Floats,
    swirl_out: Floats,
    lost: Floats,
    reach: float,
) -> tuple[Floats, Floats]:
    """Axial speed at the vanes and at the blades that radial equilibrium asks for, shape (p, n) each [m/s].

    Parameters
    ----------
    annulus, duct_speed, reach
        As in `two_rows`.
    swirl_at_vanes, swirl_out : ndarray, shape (p, n)
        Swirl speed behind either row [m/s].
    lost_in_vanes, lost : ndarray, shape (p, n)
        Total head that the water has lost behind either row [J/kg].
    """
    after_vanes = _balanced(annulus, duct_speed, swirl_at_vanes, lost_in_vanes)
    after_blades = _balanced(annulus, duct_speed, swirl_out, lost)
    early, late = 0.5 * reach, 0.5 - 0.5 * reach
    return (
        0.5 * duct_speed + late * after_vanes + early * after_blades,
        early * duct_speed + late * after_vanes + 0.5 * after_blades,
    )


def _moved(annulus: Annulus, speed: Floats, missing: Floats, tangent_out: Floats) -> Floats:
    """Axial speed moved by what is missing, as far as the row's own answer lets it, its flow kept.

    Faster water turned to the same relative angle loses or takes more head, which slows it again far behind by tan^2
    of that angle, half of it at the row.
    """
    answer = np.ascontiguousarray(tangent_out[:, annulus.span.source])
    moved = np.maximum(speed + missing / (1.0 + 0.5 * answer**2), 0.1 * speed)
    kept: Floats = moved * (over(speed * annulus.area) / over(moved * annulus.area))[:, None]
    return kept


def _balanced(annulus: Annulus, duct_speed: Floats, swirl: Floats, lost: Floats) -> Floats:
    """Axial speed far behind a row by radial equilibrium; the gap takes the change at the tip."""
    gauss = annulus.span.pressure.shape[1]
    moment = annulus.radius * swirl
    gain = -lost - 0.5 * swirl**2 - apply(annulus.span.pressure, moment[:, :gauss] ** 2)
    return kept_flow(duct_speed, np.ascontiguousarray(gain[:, annulus.span.source]), annulus.area)


def _carried(annulus: Annulus, moment: Floats, at_vanes: Floats, at_blades: Floats) -> Floats:
    """r Cth at the blades' stations: that of the vanes on the same stream surface, its flow average kept.

    A surface moves so little between the rows that its shift, linear in r Cth's slope, suffices; what that leaves of
    the average is given back evenly.
    """
    maps, area = annulus.span, annulus.area
    gauss = maps.flow.shape[1]
    inward = apply(maps.flow, (at_blades - at_vanes)[:, :gauss]) / (2.0 * np.pi * annulus.radius * at_vanes)
    shifted = moment + np.where(maps.on_span, inward * apply(maps.rate, moment[:, :gauss]), 0.0)
    missing = (over(moment * at_vanes * area) - over(shifted * at_blades * area)) / over(at_blades * area)
    even: Floats = shifted + missing[:, None]
    return even
