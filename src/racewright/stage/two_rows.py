"""Vanes and blades together at a given axial speed: swirl, torque, head."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.machine.row import Row
from racewright.stage.annulus import Annulus
from racewright.stage.row_flow import ReadyRow, RowFlow, through_row
from racewright.stage.row_model import RowModel, Slice
from racewright.stage.thin_row import ROW_MODELS

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class TwoRows:
    """Flow through both rows, shape (n,) at the annulus radii; integrals over the annulus are per density.

    Attributes
    ----------
    axial_speed, swirl_in, swirl_out : ndarray
        [m/s]
    vanes, blades : RowFlow
    head : ndarray
        Total-head drop from the axial forces and the swirl's kinetic energy [J/kg].
    flow_rate : float
        [m3/s]
    head_drop, vane_loss, blade_loss, clearance_loss : float
        Flow-averaged [J/kg].
    torque, vane_torque : float
        Torque of the water on the rotor and on the vanes, from lift and drag, over density [m5/s2].
    swirl_exit, exit_swirl_energy : float
        Flow-averaged K behind the rotor [m2/s] and Cth^2/2 there [J/kg].
    """

    axial_speed: Floats
    swirl_in: Floats
    swirl_out: Floats
    vanes: RowFlow
    blades: RowFlow
    head: Floats
    flow_rate: float
    head_drop: float
    vane_loss: float
    blade_loss: float
    clearance_loss: float
    torque: float
    vane_torque: float
    swirl_exit: float
    exit_swirl_energy: float


def ready_row(row: Row, radius: Floats, roughness: float, model: RowModel | None = None) -> ReadyRow:
    """Sections of `row` at `radius` by cubic splines, no blade beyond the tip; `roughness` in m."""
    model = ROW_MODELS["thin row"] if model is None else model
    tip = float(row.radius[-1])
    inside = np.clip(radius, None, tip)
    table = np.stack([row.chord, row.stagger, row.camber, row.thickness], axis=1)
    chord, stagger, camber, thickness = np.asarray(CubicSpline(row.radius, table)(inside)).T
    present = np.where(radius <= tip * (1.0 + 1e-12), 1.0, 0.0)
    sections = Slice(
        present * chord * row.count / (2.0 * np.pi * radius),
        stagger,
        camber,
        thickness,
        roughness / chord,
        row.clearance / chord,
    )
    return ReadyRow(sections, model.fit(sections), chord, tip - float(row.radius[0]))


def two_rows(
    annulus: Annulus,
    vanes: ReadyRow,
    blades: ReadyRow,
    axial_speed: Floats,
    rotor_speed: float,
    viscosity: float,
) -> TwoRows:
    """Flow through both rows; the water reaches the vanes without swirl.

    Parameters
    ----------
    axial_speed : ndarray, shape (n,)
        At the annulus radii, the same before and behind the rows [m/s].
    rotor_speed : float
        [rad/s]
    viscosity : float
        [m2/s]
    """
    r, blade_speed = annulus.radius, rotor_speed * annulus.radius
    first = through_row(vanes, axial_speed, np.zeros_like(r), viscosity)
    swirl_in = axial_speed * first.tangent_out
    second = through_row(blades, axial_speed, (swirl_in - blade_speed) / axial_speed, viscosity)
    swirl_out = axial_speed * second.tangent_out + blade_speed
    head = first.axial_force + second.axial_force - 0.5 * swirl_out**2
    flow = axial_speed * annulus.area
    rate = float(np.sum(flow))

    def mean(values: Floats) -> float:
        return float(np.sum(flow * values)) / rate

    return TwoRows(
        axial_speed,
        swirl_in,
        swirl_out,
        first,
        second,
        head,
        rate,
        mean(head),
        mean(first.profile_loss),
        mean(second.profile_loss),
        mean(first.clearance_loss + second.clearance_loss),
        float(np.sum(annulus.area * r * second.tangential_force)),
        float(np.sum(annulus.area * r * first.tangential_force)),
        mean(r * swirl_out),
        mean(0.5 * swirl_out**2),
    )
