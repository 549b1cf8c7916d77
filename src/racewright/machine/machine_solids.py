"""The whole machine as solids: duct, hub, one vane and one blade, and what they should hold."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.machine.body_mesh import duct_solid, duct_volume, hub_solid, hub_volume
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.row import Row
from racewright.machine.row_ends import ROOT, standing
from racewright.machine.row_fit import axial_gap
from racewright.machine.row_mesh import row_solid
from racewright.machine.row_volume import standing_volume
from racewright.machine.solid import Solid, turned
from racewright.remark import Remark

FINEST, COARSEST = 1e-5, 0.02
"""Limits of the tolerance over the throat's radius. Own choice."""


@dataclass(frozen=True)
class MachineSolids:
    """The parts of a machine in their places.

    Attributes
    ----------
    duct, hub, vane, blade : Solid
        The vane and the blade at angle 0 of their rows, with roots that reach into hub and duct.
    vanes, blades : int
        How many of each stand evenly around.
    volumes : dict
        Part -> its volume by quadrature, and 'whole' for all parts as one body [m3].
    remarks : tuple of Remark
    """

    duct: Solid
    hub: Solid
    vane: Solid
    blade: Solid
    vanes: int
    blades: int
    volumes: dict[str, float]
    remarks: tuple[Remark, ...]

    def all_parts(self) -> list[Solid]:
        """Every part in its place: duct, hub, vane_1 ..., blade_1 ...."""
        found = [self.duct, self.hub]
        for one, count in ((self.vane, self.vanes), (self.blade, self.blades)):
            found += [turned(one, 2.0 * math.pi * k / count, f"{one.name}_{k + 1}") for k in range(count)]
        return found


def machine_solids(duct: Duct, hub: Hub, vanes: Row, blades: Row, tolerance: float) -> MachineSolids:
    """Solids of a machine.

    Parameters
    ----------
    duct : Duct
    hub : Hub
    vanes, blades : Row
    tolerance : float
        Largest distance between a triangle and the surface [m]; a thin part is made finer, so that flat faces take
        no more than a two-thousandth of its volume.

    Raises
    ------
    InputError
        The tolerance is out of range, or too coarse for tip gap or roots; rows touch, or leave duct or hub.
    NoAnswerError
        Too many triangles.
    """
    _check_tolerance(tolerance, duct, hub, (vanes, blades))
    axial_gap(vanes, blades)
    vane, blade = (standing(row, duct, hub, rooted=True) for row in (vanes, blades))
    volumes = {
        "duct": duct_volume(duct),
        "hub": hub_volume(hub),
        "vane": standing_volume(vane),
        "blade": standing_volume(blade),
    }
    wetted = sum(row.count * standing_volume(standing(row, duct, hub, rooted=False)) for row in (vanes, blades))
    volumes["whole"] = volumes["duct"] + volumes["hub"] + wetted
    return MachineSolids(
        duct_solid(duct, tolerance),
        hub_solid(hub, tolerance),
        row_solid(vane, volumes["vane"], tolerance, "vane"),
        row_solid(blade, volumes["blade"], tolerance, "blade"),
        vanes.count,
        blades.count,
        volumes,
        tuple(_remarks(blades)),
    )


def tolerance_limits(duct: Duct, hub: Hub, rows: tuple[Row, Row]) -> tuple[float, float]:
    """Least tolerance, and the largest that keeps tip gaps open and roots within hub and duct [m]."""
    gaps = [0.5 * row.clearance for row in rows if row.clearance > 0.0]
    roots = 0.25 * ROOT * hub.radius, 0.1 * duct.thickness * duct.length
    return FINEST * duct.throat_radius, min(COARSEST * duct.throat_radius, *roots, *gaps)


def _check_tolerance(tolerance: float, duct: Duct, hub: Hub, rows: tuple[Row, Row]) -> None:
    low, high = tolerance_limits(duct, hub, rows)
    if not low <= tolerance <= high:
        raise InputError(
            f"{1e3 * tolerance:.4g} mm is outside {1e3 * low:.3g} to {1e3 * high:.3g} mm, which tip gap, roots and "
            "throat ask for",
            key="tolerance",
        )


def _remarks(blades: Row) -> list[Remark]:
    if blades.clearance > 0.0:
        return []
    text = "The blades have no tip gap: they run into the duct like vanes, and the rotor of this body cannot turn."
    return [Remark("caution", text, "clearance")]
