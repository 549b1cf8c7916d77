"""A machine made ready for many operating points."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.flow.response import FlowTable
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.annulus import Annulus, annulus
from racewright.stage.end_wall import DEFAULT_END_WALL, END_WALLS
from racewright.stage.row_flow import ReadyRow
from racewright.stage.two_rows import ready_row
from racewright.stage.wall_friction import WallFriction
from racewright.stage.wall_peaks import WallPeaks
from racewright.water import Water


@dataclass(frozen=True)
class Stage:
    """A machine made ready for many operating points; from `ready_stage`.

    Attributes
    ----------
    unit, flow, water
        As given.
    annulus : Annulus
    vanes, blades : ReadyRow
    tip_radius : float
        Of the rotor [m].
    table : FlowTable
    friction : WallFriction
    peaks : WallPeaks
    reach : float
        exp(-pi x/length) of the distance between the rows' mid-chords, 0 to 1 [-].
    edge_radius : float
        Of the duct's trailing edge, where the free sheet begins [m].
    """

    unit: Unit
    flow: Axisymmetric
    water: Water
    annulus: Annulus
    vanes: ReadyRow
    blades: ReadyRow
    tip_radius: float
    table: FlowTable
    friction: WallFriction
    peaks: WallPeaks
    reach: float
    edge_radius: float


def ready_stage(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    *,
    end_wall: str = DEFAULT_END_WALL,
    table: FlowTable | None = None,
) -> Stage:
    """Do once what does not depend on the operating point.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    end_wall : str
        A form of the end-wall and tip losses, a name in `end_wall.END_WALLS`.
    table : FlowTable, optional
        `FlowTable(flow)` where it is at hand already.

    Raises
    ------
    InputError
        Where rows and flow do not fit each other, or no form has that name.
    """
    if end_wall not in END_WALLS:
        raise InputError(f"No form of end losses is named '{end_wall}'; there are {', '.join(sorted(END_WALLS))}.")
    stations = annulus(flow, vanes, blades)
    ends = END_WALLS[end_wall]
    first = ready_row(vanes, stations.radius, unit.roughness, end_wall=ends)
    second = ready_row(blades, stations.radius, unit.roughness, end_wall=ends)
    table = FlowTable(flow) if table is None else table
    apart = abs(blades.place_x - vanes.place_x)
    return Stage(
        unit,
        flow,
        water,
        stations,
        first,
        second,
        float(blades.radius[-1]),
        table,
        WallFriction(table, unit.roughness),
        WallPeaks(table),
        float(np.exp(-np.pi * apart / stations.length)),
        unit.duct.throat_radius * math.sqrt(unit.duct.exit_area_ratio),
    )
