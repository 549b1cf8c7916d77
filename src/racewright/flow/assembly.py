"""From solved loads to the result: speeds, flow, profile, forces, remarks."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.flow.contours import inner_side
from racewright.flow.far_wake import FarWake, channel_thrust, far_wake
from racewright.flow.forces import lower_head_force, momentum_force, pressure_force, smooth_pressure_force
from racewright.flow.profile import area_mean, station_speed, stations_between, wall_axial_speed
from racewright.flow.result import Axisymmetric
from racewright.flow.rig import Rig
from racewright.flow.surfaces import Surfaces
from racewright.flow.vorticity import closing_cylinders, wake_ends
from racewright.flow.wake import Solution
from racewright.remark import Remark

Floats = NDArray[np.float64]


def assemble(rig: Rig, body: Surfaces, solutions: list[Solution], loads: Floats, stations: int) -> Axisymmetric:
    """Every quantity of the result at every load that was tried."""
    n, d, s = body.x.size, body.duct_panels, rig.wake_x.size - 1
    h = n - body.wall_panels
    ch = np.array([one.head_coefficient for one in solutions])
    unknown = np.stack([one.unknown for one in solutions])
    psi_edge = unknown[:, n]
    flow = 2.0 * math.pi * psi_edge
    speed_ratio = flow / rig.annulus_area
    nodes = np.zeros((len(ch), rig.hub_x.size))
    nodes[:, 1:-1] = unknown[:, d:h]
    duct_speed = -unknown[:, :d]
    hub_speed = -0.5 * (nodes[:, 1:] + nodes[:, :-1])
    wake_r = np.column_stack([np.full(len(ch), rig.duct_r[0]), unknown[:, n + 1 : n + 1 + s]])
    strength = unknown[:, n + 1 + s :]
    ends = [far_wake(float(c), float(p), rig.channel_radius) for c, p in zip(ch, psi_edge, strict=True)]
    wake_speed, bypass = np.array([one.wake for one in ends]), np.array([one.bypass for one in ends])
    far = wake_speed - bypass
    radius = stations_between(rig.hub_radius, rig.wall_radius, stations)
    profile = np.stack(
        [
            _profile(rig, body, unknown[i, :n], radius, wake_r[i], strength[i], far[i], bypass[i])
            for i in range(len(ch))
        ]
    )
    edge = float(rig.duct_r[0])
    duct_force = [
        smooth_pressure_force(rig.duct_r, duct_speed[i]) + lower_head_force(ch[i], rig.wall_radius, edge)
        for i in range(len(ch))
    ]
    hub_force = [
        pressure_force(rig.hub_x, rig.hub_r, hub_speed[i]) - lower_head_force(ch[i], rig.hub_radius, 0.0)
        for i in range(len(ch))
    ]
    duct_ratio = np.array(duct_force) / rig.annulus_area
    hub_ratio = np.array(hub_force) / rig.annulus_area
    converged = np.array([one.converged for one in solutions])
    return Axisymmetric(
        head_coefficient=ch,
        far_wake_speed=wake_speed,
        speed_ratio=speed_ratio,
        exit_speed_ratio=flow / rig.exit_area,
        station_radius=radius,
        profile=profile,
        duct_force=duct_ratio,
        hub_force=hub_ratio,
        residual=np.array([one.residual for one in solutions]),
        converged=converged,
        iterations=np.array([one.iterations for one in solutions], dtype=np.int64),
        duct_x=rig.duct_x,
        duct_r=rig.duct_r,
        hub_x=rig.hub_x,
        hub_r=rig.hub_r,
        duct_speed=duct_speed,
        hub_speed=hub_speed,
        wake_x=np.tile(rig.wake_x, (len(ch), 1)),
        wake_r=wake_r,
        wake_strength=strength,
        far_strength=far,
        annulus_area=rig.annulus_area,
        remarks=_remarks(
            solutions,
            loads,
            speed_ratio,
            duct_ratio + hub_ratio - _asked(rig, ch, speed_ratio, ends),
            profile.min(axis=1),
        ),
        rotor_x=rig.rotor_x,
        channel_radius=rig.channel_radius,
        channel_x=rig.channel_x,
        channel_strength=unknown[:, h:n],
        bypass_speed=bypass if rig.channel_radius > 0.0 else np.empty(0),
    )


def _asked(rig: Rig, ch: Floats, speed_ratio: Floats, ends: list[FarWake]) -> Floats:
    """Force coefficient on duct and hub that momentum asks for."""
    if rig.channel_radius == 0.0:
        return momentum_force(ch, speed_ratio)
    area, channel = rig.annulus_area, np.pi * rig.channel_radius**2
    total = [channel_thrust(one, float(u) * area, channel) / area for one, u in zip(ends, speed_ratio, strict=True)]
    return np.array(total) - ch


def _profile(
    rig: Rig,
    body: Surfaces,
    unknown: Floats,
    radius: Floats,
    wake_r: Floats,
    strength: Floats,
    far: float,
    bypass: float,
) -> Floats:
    ends = np.concatenate([body.ends, wake_ends(rig.wake_x, wake_r)])
    shapes = np.concatenate([body.shapes, np.zeros(strength.size, dtype=np.int64)])
    elements = (ends, shapes, np.concatenate([body.element_strength(unknown), strength]))
    tail = closing_cylinders(float(rig.wake_x[-1]), float(wake_r[-1]), far, rig.channel_radius, bypass)
    wall_x, wall_r = inner_side(rig.duct_x, rig.duct_r)
    inner = unknown[wall_x.size - 2 :: -1]
    at_wall = wall_axial_speed(wall_x, wall_r, inner, rig.rotor_x)
    at_hub = None
    if rig.hub_radius > 0.0:
        nodes = np.concatenate([[0.0], unknown[body.duct_panels : unknown.size - body.wall_panels], [0.0]])
        at_hub = wall_axial_speed(rig.hub_x, rig.hub_r, 0.5 * (nodes[1:] + nodes[:-1]), rig.rotor_x)
    near = int(np.argmin(np.abs(0.5 * (wall_x[1:] + wall_x[:-1]) - rig.rotor_x)))
    spared = math.hypot(wall_x[near + 1] - wall_x[near], wall_r[near + 1] - wall_r[near])
    spared = min(spared, 0.25 * (radius[-1] - radius[0]))
    speed = station_speed(rig.rotor_x, radius, at_hub, at_wall, spared, elements, tail)
    return speed / area_mean(radius, speed)


def _remarks(
    solutions: list[Solution], loads: Floats, speed_ratio: Floats, mismatch: Floats, slowest: Floats
) -> tuple[Remark, ...]:
    remarks = []
    last = solutions[-1]
    if not last.converged:
        left_out = loads.size - len(solutions)
        tail = f"; {left_out} higher loads were not tried" if left_out else ""
        if len(solutions) > 2:
            fall = (speed_ratio[-3] - speed_ratio[-2]) / (
                solutions[-2].head_coefficient - solutions[-3].head_coefficient
            )
            stop = solutions[-2].head_coefficient + speed_ratio[-2] / fall if fall > 0.0 else np.inf
            if stop < last.head_coefficient + 0.05:
                tail += f"; the duct clogs, its flow falls to nothing near {stop:.3g}"
        remarks.append(
            Remark(
                "warning",
                f"The free wake did not converge at a head coefficient of {last.head_coefficient:.4g}{tail}. "
                f"At {solutions[-2].head_coefficient:.4g}, the last that did, the speed ratio was "
                f"{speed_ratio[-2]:.3f}.",
                "convergence",
            )
        )
    good = np.array([one.converged for one in solutions])
    worst = float(np.max(np.abs(mismatch[good])))
    if worst > 0.02:
        remarks.append(
            Remark(
                "caution",
                f"Surface pressures and momentum differ by {worst:.3f} in the force on duct and hub; "
                "more panels, or panels shorter where the contour turns, would mend it.",
                "panels",
            )
        )
    turned = good & (slowest <= 0.0)
    if np.any(turned):
        load = solutions[int(np.argmax(turned))].head_coefficient
        remarks.append(
            Remark(
                "caution",
                f"From a head coefficient of {load:.4g} the flow turns back at some radius of the rotor.",
                "reverse flow",
            )
        )
    return tuple(remarks)
