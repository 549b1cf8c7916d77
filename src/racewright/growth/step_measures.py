"""Measures of a solved step, over which masses, loads and costs grow."""

from __future__ import annotations

from racewright.growth.step import SolvedStep


def measures_of(solved: SolvedStep) -> dict[str, float]:
    """Measures by name, those that are not above 0 left out.

    Returns
    -------
    dict
        `throat_diameter` [m], `stream_speed` [m/s], `flow_force` rho U^2 D^2 [N], `flow_moment` rho U^2 D^3 [N m],
        `thrust` [N], `torque` [N m], `rated_power` [W]: the electrical power that the step is to give, or
        that found at its design point where none is said.
    """
    step, point = solved.step, solved.point
    diameter, speed, density = step.throat_diameter, point.stream_speed, step.water.density
    force = density * speed**2 * diameter**2
    found = {
        "throat_diameter": diameter,
        "stream_speed": speed,
        "flow_force": force,
        "flow_moment": force * diameter,
        "thrust": point.thrust,
        "torque": point.torque,
        "rated_power": step.rated_power if step.rated_power is not None else solved.electrical_power,
    }
    return {name: value for name, value in found.items() if value > 0.0}
