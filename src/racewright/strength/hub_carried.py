"""Vanes that carry the hub: its push and its torque go through them to the duct."""

from __future__ import annotations

from dataclasses import replace

from racewright.errors import InputError
from racewright.safety import safety_basis
from racewright.strength.door import finite, positive, whole
from racewright.strength.span_load import RootLoads


def carried_hub(
    loads: RootLoads, count: int, inner_radius: float, outer_radius: float, push: float, torque: float
) -> RootLoads:
    """Root loads of vanes clamped at both ends, the hub held by nothing but them.

    The hub, stiff itself, moves along the axis and turns about it until the vanes bear all that acts on it, what
    their own loads leave at their inner ends included. A beam of even stiffness, no bending across the load.

    Parameters
    ----------
    loads : RootLoads
        Of one vane with both ends clamped and the hub at rest.
    count : int
        Vanes, 1 to 200.
    inner_radius, outer_radius : float
        Where a vane is clamped, 0 < inner < outer [m].
    push : float
        Axial force on hub and rotor together, downstream positive [N].
    torque : float
        Of the rotor on the hub, in the direction of rotation positive [N m].

    Returns
    -------
    RootLoads
        Moments that pull on the sides as `root_loads` says; forces that the hub's end hands on to the vane, and what
        the duct's end bears.
    """
    if loads.support != "both ends":
        raise InputError(f"vanes that carry the hub are held at both ends; these are held at {loads.support}")
    whole("the number of vanes", count, 1, 200, 7)
    positive("the inner radius", inner_radius, "m", 0.13)
    if not finite("the outer radius", outer_radius, "m", 0.5) > inner_radius:
        raise InputError(f"the outer radius {outer_radius:g} m does not stand above the inner {inner_radius:g} m")
    span = outer_radius - inner_radius
    along = finite("the hub's push", push, "N", 1000.0) / count + loads.axial_force
    turn = finite("the hub's torque", torque, "N m", 300.0) / count
    turn += loads.tangential_force * inner_radius + loads.tangential_bending
    part = inner_radius / span
    angle = turn / (12.0 * part**2 + 12.0 * part + 4.0)
    across = angle * (12.0 * part + 6.0) / span
    return replace(
        loads,
        axial_force=loads.axial_force - along,
        tangential_force=loads.tangential_force - across,
        axial_bending=loads.axial_bending - 0.5 * along * span,
        tangential_bending=loads.tangential_bending - angle * (6.0 * part + 4.0),
        outer_axial_force=loads.outer_axial_force + along,
        outer_tangential_force=loads.outer_tangential_force + across,
        outer_axial_bending=loads.outer_axial_bending + 0.5 * along * span,
        outer_tangential_bending=loads.outer_tangential_bending + angle * (6.0 * part + 2.0),
        safety=safety_basis(
            "structure", "beams clamped in hub and duct, even stiffness, a stiff hub that they carry", "closed form",
            "closed form",
        ),
    )  # fmt: skip
