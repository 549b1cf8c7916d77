"""One log against one machine in the horizontal plane: where they touch, what pushes them, and how they move on.

x runs downstream, y across. The log is a bar with round ends and an added mass that differs along and across, so its
motion is written in momenta relative to the water (Kirchhoff's equations; Lamb, Hydrodynamics, art. 124). The machine
is a convex outline with constant masses on tethers. Each place of touch has a spring along the face's normal, which
unloads along a steeper line (Walton and Braun 1986, J. Rheology 30, 949), and Coulomb friction that truly sticks.
Steps are Runge-Kutta's of fourth order, fine near a touch and coarse away from it.
"""

from __future__ import annotations

from math import cos, hypot, sin, sqrt

import numpy as np
from numba import njit

from racewright.holding.contact_numbers import Floats, LogNumbers, MachineNumbers, Plane, Steps

STATES = 17
"""Log x, y, heading; log momenta; machine x, y, yaw; machine speeds; work of log drag, machine drag, tether, normal
contact, friction."""
NOTES = 11
FIRST_PEAK, FIRST_STEPS, FIRST_TIME, SECOND_PLACE, PEAK, SLOW, SLOW_TIME, TOUCHES, TOUCH_TIME, TIME, END = range(
    NOTES
)
"""Places in the notes of a run; SLOW is the greatest force of the law along the stream, above that at rest."""
CLEARED, TIME_UP, THROUGH, SWUNG_BACK = range(4)
"""Why a run ended: all of the log past the machine; time limit; log pressed in by its radius; machine back."""
TRACE = 9
"""Columns of a trace: time; log x, y, heading; machine x, y, yaw; greatest force since the row before; pull."""
_GAUSS_X, _GAUSS_W = np.polynomial.legendre.leggauss(6)


@njit(cache=True, error_model="numpy")
def places_of(z: Floats, log: LogNumbers, machine: MachineNumbers, out: Floats) -> float:
    """Fill one row a place: depth of touch, normal from machine to log, point; return the gap, negative in touch.

    Rows 0 to n-1 are corners against the log's side or end, rows n and n+1 the log's ends against a face. An end near
    a corner touches there only by what the corner does not yet carry, so that one touch is not counted twice.
    """
    corner = machine.corner
    n = corner.shape[0]
    c, s = cos(z[8]), sin(z[8])
    ex, ey, gap = cos(z[2]), sin(z[2]), 1e30
    for i in range(n):
        px = z[6] + c * corner[i, 0] - s * corner[i, 1]
        py = z[7] + s * corner[i, 0] + c * corner[i, 1]
        along = min(max((px - z[0]) * ex + (py - z[1]) * ey, -log.half), log.half)
        dx, dy = z[0] + along * ex - px, z[1] + along * ey - py
        away = max(sqrt(dx * dx + dy * dy), 1e-12)
        out[i, 0], out[i, 1], out[i, 2] = log.radius - away, dx / away, dy / away
        out[i, 3], out[i, 4] = px, py
        gap = min(gap, away - log.radius)
    for j in range(2):
        row = n + j
        out[row, 0] = -1e30
        if j == 1 and log.half == 0.0:
            continue
        side = log.half if j == 0 else -log.half
        qx, qy = z[0] + side * ex, z[1] + side * ey
        farthest, face = -1e30, 0
        for i in range(n):
            k = (i + 1) % n
            fx, fy = out[k, 3] - out[i, 3], out[k, 4] - out[i, 4]
            reach = ((qx - out[i, 3]) * fy - (qy - out[i, 4]) * fx) / sqrt(fx * fx + fy * fy)
            if reach > farthest:
                farthest, face = reach, i
        k = (face + 1) % n
        fx, fy = out[k, 3] - out[face, 3], out[k, 4] - out[face, 4]
        long = sqrt(fx * fx + fy * fy)
        on = ((qx - out[face, 3]) * fx + (qy - out[face, 4]) * fy) / long
        if on <= 0.0 or on >= long:
            continue
        depth = log.radius - farthest
        gap = min(gap, -depth)
        near, far = on / (2.0 * log.radius), (long - on) / (2.0 * log.radius)
        depth -= max(0.0, 1.0 - near * near) * max(out[face, 0], 0.0)
        depth -= max(0.0, 1.0 - far * far) * max(out[k, 0], 0.0)
        out[row, 0], out[row, 1], out[row, 2] = depth, fy / long, -fx / long
        out[row, 3], out[row, 4] = qx - farthest * fy / long, qy + farthest * fx / long
    return gap


@njit(cache=True, error_model="numpy")
def _log_speed(z: Floats, log: LogNumbers) -> tuple[float, float]:
    """Speed of the log's middle relative to the water."""
    c, s = cos(z[2]), sin(z[2])
    along, across = log.along * (c * z[3] + s * z[4]), log.across * (c * z[4] - s * z[3])
    return c * along - s * across, s * along + c * across


@njit(cache=True, error_model="numpy")
def _pull(displacement: float, machine: MachineNumbers) -> float:
    """Force along the stream by which the tether holds against a displacement; straight on beyond its law's ends."""
    x, force = machine.law_x, machine.law_force
    i = min(max(int(np.searchsorted(x, displacement)) - 1, 0), x.size - 2)
    return float(force[i] + (force[i + 1] - force[i]) * (displacement - x[i]) / (x[i + 1] - x[i]))


@njit(cache=True, error_model="numpy")
def _free(z: Floats, plane: Plane, dz: Floats) -> None:
    """Rates without any touch. The blunt trailing end halves the ideal-flow moment (slender-body theory)."""
    log, machine, stream = plane.log, plane.machine, plane.contact.stream
    c, s = cos(z[2]), sin(z[2])
    wx, wy = _log_speed(z, log)
    spin = log.spin * z[5]
    dz[0], dz[1], dz[2] = wx + stream, wy, spin
    along, across = c * wx + s * wy, c * wy - s * wx
    round_pull, reach, turn = log.drag_upright * sqrt(wx * wx + wy * wy), log.half + log.radius, 0.0
    pull_along, pull_across = -(log.drag_along * abs(along) + round_pull) * along, -round_pull * across
    if log.half > 0.0:
        for i in range(6):
            arm = reach * _GAUSS_X[i]
            local = across + spin * arm
            push = -log.drag_across * abs(local) * local * _GAUSS_W[i] * reach
            pull_across += push
            turn += arm * push
        tail = -reach if along > 0.0 else reach
        push = (1.0 / log.along - 1.0 / log.across) * 0.5 / reach * abs(along) * (across + spin * tail)
        pull_across, turn = pull_across + push, turn + tail * push
    dz[3], dz[4] = c * pull_along - s * pull_across, s * pull_along + c * pull_across
    dz[5] = turn + (across * along) * (1.0 / log.along - 1.0 / log.across)
    dz[12] = dz[3] * dz[0] + dz[4] * dz[1] + turn * spin
    u, v, r = z[9], z[10], z[11]
    dz[6], dz[7], dz[8] = u, v, r
    passing = sqrt((stream - u) ** 2 + v * v)
    fx = machine.drag[0] * (passing * (stream - u) - stream * abs(stream))
    fy, moment = -machine.drag[1] * passing * v, -machine.drag[2] * abs(r) * r
    dz[13] = fx * u + fy * v + moment * r
    k = machine.stiffness
    tx = -_pull(z[6], machine) - k[0, 1] * z[7] - k[0, 2] * z[8]
    ty = -k[1, 0] * z[6] - k[1, 1] * z[7] - k[1, 2] * z[8]
    tm = -k[2, 0] * z[6] - k[2, 1] * z[7] - k[2, 2] * z[8]
    dz[14] = tx * u + ty * v + tm * r
    dz[9], dz[10], dz[15:17] = machine.inverse[0] * (fx + tx), machine.inverse[1] * (fy + ty), 0.0
    dz[11] = machine.inverse[2] * (moment + tm)


@njit(cache=True, error_model="numpy")
def _normal(depth: float, deepest: float, k: float, restitution: float) -> float:
    """Force of one spring that was pressed to `deepest` before."""
    if depth <= 0.0:
        return 0.0
    e2 = restitution**2
    return max(0.0, min(k * depth, k / e2 * (depth - (1.0 - e2) * deepest)))


@njit(cache=True, error_model="numpy")
def _apply(place: Floats, push: float, drag: float, z: Floats, inverse: Floats, dz: Floats) -> None:
    """Add one place's normal force and friction to the rates."""
    nx, ny = place[1], place[2]
    fx, fy = push * nx - drag * ny, push * ny + drag * nx
    lx, ly = place[3] - z[0], place[4] - z[1]
    mx, my = place[3] - z[6], place[4] - z[7]
    dz[3], dz[4] = dz[3] + fx, dz[4] + fy
    dz[5] += lx * fy - ly * fx
    dz[9] -= inverse[0] * fx
    dz[10] -= inverse[1] * fy
    dz[11] -= inverse[2] * (mx * fy - my * fx)
    sx = dz[0] - dz[2] * ly - dz[6] + dz[8] * my
    sy = dz[1] + dz[2] * lx - dz[7] - dz[8] * mx
    dz[15] += push * (sx * nx + sy * ny)
    dz[16] += drag * (sy * nx - sx * ny)


@njit(cache=True, error_model="numpy")
def _rates(z: Floats, plane: Plane, k: float, memory: Floats, ratio: Floats, places: Floats, dz: Floats) -> float:
    """All rates; `ratio` is friction over normal force at each place, held over a step. Returns the gap."""
    gap = places_of(z, plane.log, plane.machine, places)
    _free(z, plane, dz)
    for i in range(places.shape[0]):
        push = _normal(places[i, 0] - memory[1, i], memory[0, i], k, plane.contact.restitution)
        if push > 0.0:
            _apply(places[i], push, ratio[i] * push, z, plane.machine.inverse, dz)
    return gap


@njit(cache=True, error_model="numpy")
def _shove(place: Floats, impulse: float, z: Floats, log: LogNumbers, inverse: Floats, v: Floats) -> float:
    """Change six speeds by an impulse along a place's tangent and return the slip speed after it."""
    tx, ty = -place[2], place[1]
    lx, ly = place[3] - z[0], place[4] - z[1]
    mx, my = place[3] - z[6], place[4] - z[7]
    c, s = cos(z[2]), sin(z[2])
    along, across = log.along * (c * tx + s * ty) * impulse, log.across * (c * ty - s * tx) * impulse
    v[0], v[1] = v[0] + c * along - s * across, v[1] + s * along + c * across
    v[2] += log.spin * (lx * ty - ly * tx) * impulse
    v[3] -= inverse[0] * tx * impulse
    v[4] -= inverse[1] * ty * impulse
    v[5] -= inverse[2] * (mx * ty - my * tx) * impulse
    return float((v[0] - v[2] * ly - v[3] + v[5] * my) * tx + (v[1] + v[2] * lx - v[4] - v[5] * mx) * ty)


@njit(cache=True, error_model="numpy")
def _ratios(z: Floats, dz: Floats, plane: Plane, places: Floats, push: Floats, h: float, ratio: Floats) -> None:
    """Friction over normal force that stops the slip within a step of h, or as much of it as friction allows."""
    log, machine, friction = plane.log, plane.machine, plane.contact.friction
    v, still = np.empty(6), np.zeros(6)
    c, s = cos(z[2]), sin(z[2])
    along, across = log.along * (c * dz[3] + s * dz[4]), log.across * (c * dz[4] - s * dz[3])
    v[0], v[1] = dz[0] + h * (c * along - s * across), dz[1] + h * (s * along + c * across)
    v[2] = dz[2] + h * log.spin * dz[5]
    for i in range(3):
        v[3 + i] = z[9 + i] + h * dz[9 + i]
    ratio[:] = 0.0
    for _ in range(4):
        for i in range(push.size):
            if push[i] > 0.0:
                still[:] = 0.0
                give = _shove(places[i], 1.0, z, log, machine.inverse, still)
                slip = _shove(places[i], 0.0, z, log, machine.inverse, v)
                new = min(max(ratio[i] - slip / (give * push[i] * h), -friction), friction)
                _shove(places[i], (new - ratio[i]) * push[i] * h, z, log, machine.inverse, v)
                ratio[i] = new


@njit(cache=True, error_model="numpy")
def touch(z: Floats, plane: Plane, places: Floats) -> bool:
    """Carry the log downstream, as it lies, to its first touch with the machine; False where it passes by."""
    log, machine = plane.log, plane.machine
    far = log.half + 2.0 * log.radius + np.sqrt((machine.corner**2).sum(axis=1).max())
    z[0] = z[6] - far
    while z[0] < z[6] + far:
        gap = places_of(z, log, machine, places)
        if gap < 1e-7:
            return True
        z[0] += gap
    return False


@njit(cache=True, error_model="numpy")
def run(z: Floats, plane: Plane, steps: Steps, trace: Floats, notes: Floats) -> int:
    """Move `z` on until the log has cleared, the time is up or (if asked) the machine is back; count traced rows."""
    log, machine = plane.log, plane.machine
    fine, coarse, until = steps.fine, steps.coarse, steps.until
    n = machine.corner.shape[0] + 2
    places, k = np.empty((n, 5)), np.empty((4, STATES))
    memory, ratio, push, stiffness = np.zeros((2, n)), np.zeros(n), np.zeros(n), plane.contact.stiffness
    notes[:] = 0.0
    notes[END] = TIME_UP
    rear = machine.corner[:, 0].max()
    span = hypot(machine.corner[:, 0].max(), np.abs(machine.corner[:, 1]).max())
    first, held, rows, greatest, last, gone, t = -1, False, 0, 0.0, -1e30, False, 0.0
    while t < until:
        ratio[:] = 0.0
        gap = _rates(z, plane, stiffness, memory, ratio, places, k[0])
        for i in range(n):
            memory[1, i] = memory[1, i] if places[i, 0] > 0.0 else 0.0
            depth = places[i, 0] - memory[1, i]
            memory[0, i] = max(memory[0, i], depth) if depth > 0.0 else 0.0
            push[i] = _normal(depth, memory[0, i], stiffness, plane.contact.restitution)
            gone = gone or (push[i] > 0.0 and depth > 0.9 * log.radius)
        total = push.sum()
        closing = hypot(k[0][0] - z[9], k[0][1] - z[10]) + abs(k[0][2]) * (log.half + log.radius) + abs(z[11]) * span
        h = fine if gap < 2.0 * closing * coarse else coarse
        h = min(h, until - t)
        if total > 0.0:
            first = int(np.argmax(push)) if first < 0 else first
            if not held:
                notes[TOUCHES] += 1.0
            notes[TOUCH_TIME] += h
            _ratios(z, k[0], plane, places, push, h, ratio)
            for i in range(n):
                if push[i] > 0.0:
                    _apply(places[i], 0.0, ratio[i] * push[i], z, machine.inverse, k[0])
        held = total > 0.0
        if first >= 0 and notes[FIRST_TIME] == 0.0:
            if held:
                notes[FIRST_PEAK] = max(notes[FIRST_PEAK], push.max())
                notes[FIRST_STEPS] += 1.0
                if total > push[first]:
                    notes[SECOND_PLACE] = 1.0
            else:
                notes[FIRST_TIME] = t
                if steps.later > 0.0:
                    stiffness, fine = steps.later, steps.later_fine
                    for i in range(n):
                        memory[0, i] = memory[1, i] = max(places[i, 0], 0.0)
        notes[PEAK] = max(notes[PEAK], push.max())
        pull = _pull(z[6], machine)
        if pull > notes[SLOW]:
            notes[SLOW], notes[SLOW_TIME] = pull, t
        greatest = max(greatest, total)
        if rows < trace.shape[0] and (t - last >= until / 500.0 or (held and notes[FIRST_TIME] == 0.0)):
            trace[rows, 0] = t
            for i in range(3):
                trace[rows, 1 + i], trace[rows, 4 + i] = z[i], z[6 + i]
            trace[rows, 7], trace[rows, 8] = greatest, pull
            rows, greatest, last = rows + 1, 0.0, t
        past = not held and z[0] - log.half * abs(cos(z[2])) - log.radius > z[6] + rear
        if gone or past or (steps.swing and first >= 0 and z[6] < 0.0 and z[9] < 0.0):
            notes[END] = THROUGH if gone else (CLEARED if past else SWUNG_BACK)
            break
        y = z + 0.5 * h * k[0]
        _rates(y, plane, stiffness, memory, ratio, places, k[1])
        y = z + 0.5 * h * k[1]
        _rates(y, plane, stiffness, memory, ratio, places, k[2])
        y = z + h * k[2]
        _rates(y, plane, stiffness, memory, ratio, places, k[3])
        z += h / 6.0 * (k[0] + 2.0 * k[1] + 2.0 * k[2] + k[3])
        t += h
    notes[TIME] = t
    return rows
