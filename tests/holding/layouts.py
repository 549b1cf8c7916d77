"""Layouts built backward from an equilibrium: pose and pulls are chosen, then everything is laid out to balance them.

Shares no formula with the solver: lines are integrated by Runge-Kutta from the fairlead to where they are fixed, the
body's forces are written down again here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from scipy.spatial.transform import Rotation

from racewright.holding import (
    Body,
    Equilibrium,
    FixedPoint,
    Layout,
    LoadState,
    Segment,
    Stream,
    Tether,
    cylinder_outline,
)
from racewright.holding.ring_wing import RingWing

G, RHO = 9.80665, 1000.0


@dataclass(frozen=True)
class Built:
    """A layout and the pose in which it was balanced."""

    layout: Layout
    stream: Stream
    state: LoadState
    position: np.ndarray
    turn: np.ndarray
    load: float


@dataclass(frozen=True)
class Pull:
    """A line chosen at the fairlead: body point, pull on the body, kind of line."""

    fairlead: np.ndarray
    pull: np.ndarray
    kind: str


class Nothing(Exception):
    """The draw gave no sensible layout."""


def speed_at(stream: Stream, z: float) -> float:
    if math.isinf(stream.profile):
        return stream.speed
    low = 0.02 * stream.depth
    speed = stream.speed * (min(max(z, low), stream.depth) / stream.reference_height) ** (1.0 / stream.profile)
    return speed * max(z, 0.0) / low if z < low else speed


def draw_segment(rng: np.random.Generator, kind: str, tension: float) -> Segment:
    """A line of about the right size for the tension, unit length."""
    strength = tension * rng.uniform(3.0, 10.0)
    if kind == "chain":
        mass = strength / 1e3 * rng.uniform(0.02, 0.04)
        return Segment("chain", 1.0, math.sqrt(mass / 2e4), mass, mass / 7850.0, 80.0 * strength, strength, 2.4)
    mass, over = {"heavy rope": (7e-4, 1380.0), "floating rope": (6e-4, 970.0)}[kind]
    d = math.sqrt(strength / 150.0)
    ea = strength * rng.uniform(12.0, 60.0)
    return Segment(kind, 1.0, 1e-3 * d, mass * d**2, mass * d**2 / over, ea, strength, 1.6)


def lay(
    rng: np.random.Generator, start: np.ndarray, pull: np.ndarray, segment: Segment, stream: Stream
) -> tuple[np.ndarray, float, bool]:
    """Follow a line from the fairlead to its fixed point: place, unstretched length, flat on a bed there."""
    drag = 0.5 * RHO * segment.drag_coefficient * segment.diameter
    weight = (segment.mass - RHO * segment.displaced_area) * G
    east, north = math.cos(stream.heading), math.sin(stream.heading)

    def slope(r: list[float], t: list[float]) -> list[float]:
        """Way along the line, then load per length."""
        size = math.sqrt(t[0] * t[0] + t[1] * t[1] + t[2] * t[2])
        x, y, z = t[0] / size, t[1] / size, t[2] / size
        u = speed_at(stream, r[2])
        along = u * (east * x + north * y)
        ax, ay, az = u * east - along * x, u * north - along * y, -along * z
        c = drag * math.sqrt(ax * ax + ay * ay + az * az)
        grow = 1.0 + size / segment.stiffness
        return [x * grow, y * grow, z * grow, c * ax, c * ay, c * az - weight]

    r, t, arc = start.tolist(), pull.tolist(), 0.0
    step = 0.02 * stream.depth
    reach = stream.depth * rng.uniform(2.0, 6.0)
    for _ in range(2000):
        old_r, old_t = r, t
        k = [slope(r, t)]
        for share in (0.5 * step, 0.5 * step, step):
            # down the line the pull that holds the rest is the pull less the loads passed
            k.append(
                slope([r[a] + share * k[-1][a] for a in range(3)], [t[a] - share * k[-1][3 + a] for a in range(3)])
            )
        mean = [(k[0][a] + 2.0 * k[1][a] + 2.0 * k[2][a] + k[3][a]) / 6.0 for a in range(6)]
        r, t = [r[a] + step * mean[a] for a in range(3)], [t[a] - step * mean[3 + a] for a in range(3)]
        arc += step
        if t[2] > 0.0 and weight > 0.0 and old_t[2] < 0.0:
            share = old_t[2] / (old_t[2] - t[2])
            flat = rng.uniform(0.05, 0.4) * arc
            size = math.hypot(t[0], t[1])
            out = flat * (1.0 / size + 1.0 / segment.stiffness)
            bed = np.array(old_r) + share * (np.array(r) - old_r)
            return bed + out * np.array([t[0], t[1], 0.0]), arc - step + share * step + flat, True
        if r[2] <= 0.0:
            share = old_r[2] / (old_r[2] - r[2])
            return np.array(old_r) + share * (np.array(r) - old_r), arc - step + share * step, False
        if r[2] > stream.depth - 0.05:
            raise Nothing
        if arc > reach and pull[2] > -0.05 * np.linalg.norm(pull):
            return np.array(r), arc, False
    raise Nothing


def draw_pulls(rng: np.random.Generator, radius: float, length: float, flow: float, drag: float) -> list[Pull]:
    """One to six lines, enough of them upstream to bear `drag`."""
    count = int(rng.choice([1, 1, 2, 2, 3, 4, 4, 6]))
    pulls = []
    width = rng.uniform(0.4, 1.0) * radius
    for i in range(count):
        front = count <= 2 or i % 2 == 0
        side = 0.0 if count == 1 else (1.0 if (i // (1 if count == 2 else 2)) % 2 == 0 else -1.0)
        azimuth = flow + (math.pi if front else 0.0) - (1.0 if front else -1.0) * side * rng.uniform(0.1, 0.9)
        size = drag / max(1, (count + 1) // 2) * (rng.uniform(0.8, 1.5) if front else rng.uniform(0.1, 0.5))
        down = rng.uniform(0.08, 0.7)
        kind = str(rng.choice(["heavy rope", "heavy rope", "chain", "floating rope"]))
        way = np.array([math.cos(azimuth) * math.cos(down), math.sin(azimuth) * math.cos(down), -math.sin(down)])
        at = np.array([(-0.5 if front else 0.5) * length * rng.uniform(0.6, 1.0), side * width, 0.0])
        if count == 1:
            at = np.array([-0.5 * length * rng.uniform(0.8, 1.2), 0.0, 0.0])
        pulls.append(Pull(at, size * way, kind))
    return pulls


def build(rng: np.random.Generator, height: tuple[float, float], *, on_axis: bool = False) -> Built:
    """One layout; `height` of the axis as shares between resting on the bed and touching the surface."""
    depth = float(10.0 ** rng.uniform(0.5, 1.6))
    radius = depth * rng.uniform(0.06, 0.2)
    length = radius * rng.uniform(0.8, 2.0)
    place = np.array([*rng.normal(0.0, 5.0, 2), radius + (depth - 2.0 * radius) * rng.uniform(*height)])
    if not 0.2 * radius < place[2] < depth - 0.2 * radius:
        raise Nothing
    flow = rng.uniform(-math.pi, math.pi)
    turn = Rotation.from_euler(
        "ZYX", [flow + rng.normal(0.0, 0.08), rng.normal(0.0, 0.05), rng.normal(0.0, 0.08)]
    ).as_matrix()
    profile = float(rng.choice([6.0, math.inf]))
    at = min(max(place[2], 0.1 * depth), depth)
    stream = Stream(rng.uniform(0.3, 3.5), depth, at, flow, profile, RHO, G)
    area = math.pi * radius**2
    drag = 0.5 * RHO * area * rng.uniform(0.4, 1.2) * stream.speed**2
    pulls = draw_pulls(rng, radius, length, flow, drag)
    if on_axis:
        pulls = [Pull(p.fairlead * [1.0, 0.0, 0.0], p.pull, p.kind) for p in pulls]
    wing = RingWing(2.0 * radius, length, rng.uniform(0.0, 3.0), 0.2, (0.0, 0.0, 0.0), "invented")
    body, state, stream, load = balance(rng, pulls, place, turn, stream, wing, (radius, length))
    tethers = []
    for i, p in enumerate(pulls):
        size = float(np.linalg.norm(p.pull))
        one = draw_segment(rng, p.kind, size)
        fixed, arc, flat = lay(rng, place + turn @ p.fairlead, p.pull, one, stream)
        on = "bed" if flat or fixed[2] < 1e-9 else "bank"
        segment = replace(one, length=arc)
        tethers.append(Tether(f"line {i}", FixedPoint(tuple(fixed), on, math.inf), (segment,), tuple(p.fairlead)))
    meant = place + rng.normal(0.0, 0.3 * radius, 3)
    layout = Layout(body, tuple(tethers), tuple(meant), flow + rng.normal(0.0, 0.1))
    return Built(layout, stream, state, place, turn, load)


def balance(
    rng: np.random.Generator,
    pulls: list[Pull],
    place: np.ndarray,
    turn: np.ndarray,
    stream: Stream,
    wing: RingWing,
    shape: tuple[float, float],
) -> tuple[Body, LoadState, Stream, float]:
    """Body and loads that answer the pulls: thrust and drag, net buoyancy, centres, the stream's heading."""
    radius, length = shape
    axis = turn[:, 0]
    force = sum(p.pull for p in pulls)
    moment = sum(np.cross(turn @ p.fairlead, p.pull) for p in pulls)
    speed = speed_at(stream, float(place[2]))
    thrust = rng.uniform(0.2, 0.8) * float(np.hypot(*force[:2]))
    side = np.zeros(3)
    left = -(force + thrust * axis)[:2]
    for _ in range(60):
        heading = math.atan2(left[1], left[0])
        wind = speed * np.array([math.cos(heading), math.sin(heading), 0.0])
        across = wind - (wind @ axis) * axis
        side = 0.5 * RHO * wing.diameter * wing.chord * wing.slope * abs(wind @ axis) * across
        old, left = left, -(force + thrust * axis + side)[:2]
        if np.hypot(*(left - old)) < 1e-12 * np.hypot(*left):
            break
    else:
        raise Nothing
    wing_moment = np.cross(-(0.5 - wing.force_place) * wing.chord * np.sign(wind @ axis) * axis, side)
    drag = float(np.hypot(*left))
    wind /= speed
    if axis @ wind < 0.8 or drag < 0.05 * np.linalg.norm(force):
        raise Nothing
    net = -(force + thrust * axis + side)[2]
    weight = RHO * G * math.pi * radius**2 * length * rng.uniform(0.1, 0.5)
    buoyancy = weight + net
    if not 0.3 * weight < buoyancy < 6.0 * weight:
        raise Nothing
    low = np.array([rng.normal(0.0, 0.05), 0.0, -rng.uniform(0.05, 0.3)]) * radius
    roll = rng.normal(0.0, 0.02) * drag * radius
    total = moment + wing_moment + roll * axis + np.cross(turn @ low, [0.0, 0.0, -weight])
    out = -total[2] / drag  # drag centre, square to the stream
    total = total + np.cross(out * np.array([-wind[1], wind[0], 0.0]), drag * wind) * [-1.0, -1.0, -1.0]
    out_place = -out * np.array([-wind[1], wind[0], 0.0])
    high = np.array([total[1] / buoyancy, -total[0] / buoyancy, rng.uniform(0.1, 0.4) * radius])
    if max(abs(out), abs(high[0]), abs(high[1])) > 0.7 * radius:
        raise Nothing
    along = speed * float(axis @ wind)
    body = Body(
        weight,
        buoyancy,
        tuple(low),
        tuple(turn.T @ high),
        cylinder_outline(radius, -0.5 * length, 0.5 * length, 8),
        drag_centre=tuple(turn.T @ out_place),
        duct=wing,
    )
    state = LoadState(
        "built",
        np.array([0.5, 1.0, 4.0]),
        np.array([0.5, 1.0, 4.0]) ** 2 * thrust / along**2,
        np.array([0.5, 1.0, 4.0]) ** 2 * roll / along**2,
        np.array([0.5, 1.0, 4.0]) ** 2 * drag / speed**2,
    )
    turned = Stream(stream.speed, stream.depth, stream.reference_height, heading, stream.profile, RHO, G)
    return body, state, turned, float(np.linalg.norm(force))


def left_over(built: Built, found: Equilibrium) -> float:
    """Force and moment (over the body's size) left at a pose, over the load, by the formulas of this file."""
    body, stream, state = built.layout.body, built.stream, built.state
    turn = Rotation.from_euler("ZYX", [found.yaw, found.pitch, found.roll]).as_matrix()
    place, axis = np.array(found.position), turn[:, 0]
    force, moment = np.zeros(3), np.zeros(3)

    def add(point: tuple[float, float, float], push: np.ndarray) -> None:
        nonlocal force, moment
        force, moment = force + push, moment + np.cross(turn @ np.array(point), push)

    def wind(point: tuple[float, float, float]) -> np.ndarray:
        speed = speed_at(stream, float((place + turn @ np.array(point))[2]))
        return speed * np.array([math.cos(stream.heading), math.sin(stream.heading), 0.0])

    for line, tether in zip(found.lines, built.layout.tethers, strict=True):
        add(tether.fairlead, np.array(line.pull_on_body))
    add(body.centre_of_weight, np.array([0.0, 0.0, -body.weight]))
    add(body.centre_of_buoyancy, np.array([0.0, 0.0, body.buoyancy]))
    along = float(wind(body.thrust_centre) @ axis)
    square = along * abs(along) / state.stream_speed[1] ** 2
    add(body.thrust_centre, square * state.thrust[1] * axis)
    moment = moment + square * state.roll_moment[1] * axis
    w = wind(body.drag_centre)
    add(body.drag_centre, float(np.linalg.norm(w)) * w * state.drag[1] / state.stream_speed[1] ** 2)
    wing = body.duct
    w = wind(wing.middle)
    slope = 0.5 * RHO * wing.diameter * wing.chord * wing.slope * abs(w @ axis)
    lead = (0.5 - wing.force_place) * wing.chord * np.sign(w @ axis)
    add((wing.middle[0] - lead, wing.middle[1], wing.middle[2]), slope * (w - (w @ axis) * axis))
    return float(max(np.abs(force).max(), np.abs(moment).max() / body.size)) / found.load


def layouts(count: int, seed: int, height: tuple[float, float] = (0.15, 0.85), **how: bool) -> Iterator[Built]:
    """`count` balanced layouts from one seed."""
    rng = np.random.default_rng(seed)
    given = 0
    while given < count:
        try:
            built = build(rng, height, **how)
        except Nothing:
            continue
        given += 1
        yield built
