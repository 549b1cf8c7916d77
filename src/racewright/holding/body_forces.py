"""Forces of water and weight on the body, and how they change with its pose and its motion."""

from __future__ import annotations

from math import cos, sin, sqrt

import numpy as np
from numba import njit
from numpy.typing import NDArray

from racewright.holding.body import Body
from racewright.holding.stream import Stream

Floats = NDArray[np.float64]

WEIGHT, BUOYANCY, WING, SIDE, BED = 0, 1, 2, 3, 4
"""The body's numbers: [N], [N], wing force over speed squared [N s2/m2], the same of side drag, bed's stiffness at
each outline point [N/m]."""
OF_WEIGHT, OF_BUOYANCY, OF_THRUST, OF_DRAG, OF_WING, OF_SIDE = 5, 8, 11, 14, 17, 20
"""Points in body axes, three numbers each [m]."""
LEAD = 23
"""How far the wing's force stands ahead of mid-chord [m]."""
_COUNT = 24
_SUBLAYER = 0.02


def body_numbers(body: Body, stream: Stream) -> Floats:
    """A body in a stream as the kernel takes it."""
    found = np.zeros(_COUNT)
    found[WEIGHT], found[BUOYANCY] = body.weight, body.buoyancy
    half = 0.5 * stream.density
    height = max(float(np.ptp(body.outline[:, 2])), 0.1 * body.size)
    found[SIDE] = half * body.side_drag_area
    found[BED] = (body.weight + body.buoyancy) / (0.01 * height)
    found[OF_WEIGHT : OF_WEIGHT + 3] = body.centre_of_weight
    found[OF_BUOYANCY : OF_BUOYANCY + 3] = body.centre_of_buoyancy
    found[OF_THRUST : OF_THRUST + 3] = body.thrust_centre
    found[OF_DRAG : OF_DRAG + 3] = body.drag_centre
    found[OF_SIDE : OF_SIDE + 3] = body.side_drag_centre
    if body.duct is not None:
        wing = body.duct
        found[WING] = half * wing.diameter * wing.chord * wing.slope
        found[OF_WING : OF_WING + 3] = wing.middle
        found[LEAD] = (0.5 - wing.force_place) * wing.chord
    return found


@njit(cache=True, error_model="numpy", inline="always")
def _speed(z: float, flow: Floats) -> float:
    """Stream speed at a height; `flow` as in `line_march`."""
    if flow[4] == 0.0:
        return float(flow[0])
    low = _SUBLAYER * flow[5]
    at = min(max(z, low), flow[5])
    speed = float(flow[0] * (at / flow[3]) ** flow[4])
    return speed * max(z, 0.0) / low if z < low else speed


@njit(cache=True, error_model="numpy")
def _at(speed: float, table: Floats, row: int) -> float:
    """Coefficient at a speed, held beyond the ends."""
    last = table.shape[1] - 1
    if last == 0 or speed <= table[0, 0]:
        return float(table[row, 0])
    if speed >= table[0, last]:
        return float(table[row, last])
    i = np.searchsorted(table[0], speed)
    share = (speed - table[0, i - 1]) / (table[0, i] - table[0, i - 1])
    return float(table[row, i - 1] + share * (table[row, i] - table[row, i - 1]))


@njit(cache=True, error_model="numpy")
def _place(place: Floats, turn: Floats, body: Floats, first: int, arm: Floats) -> float:
    """Arm from the origin to a body point, earth axes; returns its height."""
    for a in range(3):
        arm[a] = turn[a, 0] * body[first] + turn[a, 1] * body[first + 1] + turn[a, 2] * body[first + 2]
    return float(place[2] + arm[2])


@njit(cache=True, error_model="numpy")
def _add(arm: Floats, x: float, y: float, z: float, out: Floats) -> None:
    """Add a force and its moment about the origin."""
    out[0] += x
    out[1] += y
    out[2] += z
    out[3] += arm[1] * z - arm[2] * y
    out[4] += arm[2] * x - arm[0] * z
    out[5] += arm[0] * y - arm[1] * x


@njit(cache=True, error_model="numpy")
def _wind(arm: Floats, height: float, motion: Floats, flow: Floats, wind: Floats) -> None:
    """Water's speed past a body point that moves with `motion` (speed of the origin, rate of turn)."""
    speed = _speed(height, flow)
    wind[0] = speed * flow[1] - motion[0] - (motion[4] * arm[2] - motion[5] * arm[1])
    wind[1] = speed * flow[2] - motion[1] - (motion[5] * arm[0] - motion[3] * arm[2])
    wind[2] = -motion[2] - (motion[3] * arm[1] - motion[4] * arm[0])


@njit(cache=True, error_model="numpy")
def forces(
    place: Floats,
    turn: Floats,
    motion: Floats,
    body: Floats,
    outline: Floats,
    flow: Floats,
    table: Floats,
    out: Floats,
    stream_part: Floats,
) -> None:
    """Six forces on the body: three forces, three moments about its origin, earth axes [N], [N m].

    `stream_part` (3) gets the force of the stream alone. `table`: rows of `LoadState.coefficients`.
    """
    out[:] = 0.0
    arm, wind = np.empty(3), np.empty(3)
    axis = turn[:, 0]
    # stream: thrust and roll moment along the axis, drag along the stream, side forces of duct and body
    for part in range(4):
        first = OF_THRUST + 3 * part
        height = _place(place, turn, body, first, arm)
        _wind(arm, height, motion, flow, wind)
        along = axis[0] * wind[0] + axis[1] * wind[1] + axis[2] * wind[2]
        if part == 0:
            c = along * abs(along) * _at(abs(along), table, 1)
            _add(arm, c * axis[0], c * axis[1], c * axis[2], out)
            c = along * abs(along) * _at(abs(along), table, 2)
            for a in range(3):
                out[3 + a] += c * axis[a]
            continue
        if part == 1:
            speed = sqrt(wind[0] ** 2 + wind[1] ** 2 + wind[2] ** 2)
            c = speed * _at(speed, table, 3)
            _add(arm, c * wind[0], c * wind[1], c * wind[2], out)
            continue
        x, y, z = wind[0] - along * axis[0], wind[1] - along * axis[1], wind[2] - along * axis[2]
        if part == 2:
            c = body[WING] * abs(along)
            lead = body[LEAD] if along >= 0.0 else -body[LEAD]
            for a in range(3):
                arm[a] -= lead * axis[a]
        else:
            c = body[SIDE] * sqrt(x * x + y * y + z * z)
        _add(arm, c * x, c * y, c * z, out)
    for a in range(3):
        stream_part[a] = out[a]
    # bed under the outline, buoyancy lost above the surface
    lowest, highest = 1e300, -1e300
    for k in range(outline.shape[0]):
        for a in range(3):
            arm[a] = turn[a, 0] * outline[k, 0] + turn[a, 1] * outline[k, 1] + turn[a, 2] * outline[k, 2]
        z = place[2] + arm[2]
        lowest, highest = min(lowest, z), max(highest, z)
        if z < 0.0:
            _add(arm, 0.0, 0.0, -body[BED] * z, out)
    wet = 1.0
    if highest > flow[5]:
        wet = min(max((flow[5] - lowest) / max(highest - lowest, 1e-6), 0.0), 1.0)
    _place(place, turn, body, OF_WEIGHT, arm)
    _add(arm, 0.0, 0.0, -body[WEIGHT], out)
    _place(place, turn, body, OF_BUOYANCY, arm)
    _add(arm, 0.0, 0.0, wet * body[BUOYANCY], out)


@njit(cache=True, error_model="numpy")
def turned(turn: Floats, x: float, y: float, z: float, out: Floats) -> None:
    """Rotation by the vector (x, y, z), earth axes, after `turn`."""
    angle = sqrt(x * x + y * y + z * z)
    if angle < 1e-300:
        for i in range(3):
            for j in range(3):
                out[i, j] = turn[i, j]
        return
    a, b, c = x / angle, y / angle, z / angle
    s, v = sin(angle), 1.0 - cos(angle)
    r = np.empty((3, 3))
    r[0, 0], r[0, 1], r[0, 2] = 1.0 - v * (b * b + c * c), v * a * b - s * c, v * a * c + s * b
    r[1, 0], r[1, 1], r[1, 2] = v * a * b + s * c, 1.0 - v * (a * a + c * c), v * b * c - s * a
    r[2, 0], r[2, 1], r[2, 2] = v * a * c - s * b, v * b * c + s * a, 1.0 - v * (a * a + b * b)
    for i in range(3):
        for j in range(3):
            out[i, j] = r[i, 0] * turn[0, j] + r[i, 1] * turn[1, j] + r[i, 2] * turn[2, j]


@njit(cache=True, error_model="numpy")
def slopes(
    place: Floats, turn: Floats, body: Floats, outline: Floats, flow: Floats, table: Floats, size: float, moving: bool
) -> Floats:
    """Negative derivatives (6, 6) of `forces` with the pose, or with the motion, by central differences."""
    found = np.empty((6, 6))
    high, low, part = np.empty(6), np.empty(6), np.empty(3)
    motion, at, tilt, shift = np.zeros(6), np.empty(3), np.empty((3, 3)), np.zeros(6)
    for k in range(6):
        step = 1e-5 if moving else 1e-6 * (size if k < 3 else 1.0)
        for sign in (1.0, -1.0):
            out = high if sign > 0.0 else low
            shift[:] = 0.0
            shift[k] = sign * step
            if moving:
                forces(place, turn, shift, body, outline, flow, table, out, part)
                continue
            for a in range(3):
                at[a] = place[a] + shift[a]
            turned(turn, shift[3], shift[4], shift[5], tilt)
            forces(at, tilt, motion, body, outline, flow, table, out, part)
        for a in range(6):
            found[a, k] = -(high[a] - low[a]) / (2.0 * step)
    return found
