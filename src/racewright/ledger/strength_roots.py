"""Stresses at the held ends of vanes and blades, state by state."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np

from racewright.ledger.strength_findings import RootStress, StatePoint
from racewright.ledger.strength_things import checked, material_of
from racewright.machine.row import Row
from racewright.strength.bending import bending_stress
from racewright.strength.hub_carried import carried_hub
from racewright.strength.row_sections import row_contour, row_sections
from racewright.strength.section_area import section_area
from racewright.strength.span_load import RootLoads, SpanLoad, Support, centrifugal_pull, root_loads, row_span_load

Table = Mapping[str, Any]


@dataclass(frozen=True)
class _End:
    """Forces and moments of one held end."""

    name: Literal["hub", "duct"]
    axial_force: float
    tangential_force: float
    axial_bending: float
    tangential_bending: float
    pull: float
    loads: RootLoads


def vane_roots(row: Row, point: StatePoint, density: float, ends: Support, part: Table, factors: Table) -> list[
    RootStress
]:  # fmt: skip
    """Both ends of a vane that carries the hub, or its duct end where the duct alone holds it."""
    load = row_span_load(point.triangles, density, row.count, "vanes", row_force=point.forces.vanes)
    inner, outer = float(row.radius[0]), float(row.radius[-1])
    if ends == "one end":
        held = root_loads(_from_duct(load), 0.0, support="one end")
        return [_stress(row, point, _inner_end("duct", held), -1, part, factors)]
    at_rest = root_loads(load, inner, support="both ends", outer_radius=outer)
    push = point.forces.hub + point.forces.rotor
    loads = carried_hub(at_rest, row.count, inner, outer, push, point.torque)
    return [
        _stress(row, point, _inner_end("hub", loads), 0, part, factors),
        _stress(row, point, _outer_end(loads), -1, part, factors),
    ]


def blade_root(row: Row, point: StatePoint, density: float, part: Table, factors: Table) -> RootStress:
    """The root of a blade, held at the hub alone, with the pull of its own mass as it turns."""
    load = row_span_load(point.triangles, density, row.count, "blades", row_force=point.forces.rotor)
    held = root_loads(load, float(row.radius[0]), support="one end")
    mass = material_of(part).density * np.array([section.area for section in row_sections(row)])
    pull = centrifugal_pull(row.radius, mass, point.rotor_speed)
    return _stress(row, point, _inner_end("hub", held, pull), 0, part, factors)


def _from_duct(load: SpanLoad) -> SpanLoad:
    """The same load by the distance from the duct."""
    away = load.radius[-1] - load.radius[::-1]
    return SpanLoad(away, load.axial[::-1], load.tangential[::-1])


def _inner_end(name: Literal["hub", "duct"], loads: RootLoads, pull: float = 0.0) -> _End:
    return _End(
        name, loads.axial_force, loads.tangential_force, loads.axial_bending, loads.tangential_bending, pull, loads
    )


def _outer_end(loads: RootLoads) -> _End:
    return _End(
        "duct", loads.outer_axial_force, loads.outer_tangential_force, loads.outer_axial_bending,
        loads.outer_tangential_bending, 0.0, loads,
    )  # fmt: skip


def _stress(row: Row, point: StatePoint, end: _End, place: int, part: Table, factors: Table) -> RootStress:
    contour = row_contour(row, place)
    found = bending_stress(
        section_area(contour),
        contour,
        end.axial_bending,
        end.tangential_bending,
        end.pull,
        notch_factor=part["notch"],
    )
    safety = end.loads.safety
    basis = f"velocity triangles and the row's axial force in that state, steady flow; {safety.basis}"
    return RootStress(
        part=row.kind.removesuffix("s"),
        end=end.name,
        state=f"{point.name} at {point.stream_speed:.2f} m/s",
        stream_speed=point.stream_speed,
        rotor_speed=point.rotor_speed,
        support=end.loads.support,
        axial_force=end.axial_force,
        tangential_force=end.tangential_force,
        axial_bending=end.axial_bending,
        tangential_bending=end.tangential_bending,
        pull=end.pull,
        highest_stress=found.highest,
        lowest_stress=found.lowest,
        check=checked(found.largest, material_of(part), factors),
        safety=replace(safety, basis=basis),
    )
