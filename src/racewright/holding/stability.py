"""Small motions about an equilibrium: stiffness with following loads, inertia, quasi-steady water forces."""

from __future__ import annotations

import math

import numpy as np

from racewright.holding.body import Body
from racewright.holding.checked import Floats
from racewright.holding.safety import STABILITY_CAUTION, computed
from racewright.holding.statics_result import Mode, Stability

NAMES = ("surge", "sway", "heave", "roll", "pitch", "yaw")
_GROWS = 1e-6
"""Growth over the fastest rate that counts as none [-]."""
STILL = 1e-7
"""Negative eigenvalue over the greatest that counts as none [-]."""


def divergence(stiffness: Floats, inertia: Floats) -> tuple[float, Floats]:
    """Least real eigenvalue of inertia^-1 stiffness and its motion: below zero, a small push drives the body off.

    Eigenvalues in pairs are left out: they swing, and whether that grows is the modes' to say. Unlike those of the
    stiffness alone they do not hang on the point that motions are counted about.
    """
    values, shapes = np.linalg.eig(np.linalg.solve(inertia, stiffness))
    straight = np.flatnonzero(np.abs(values.imag) <= 1e-9 * np.abs(values).max())
    if straight.size == 0:
        return 0.0, np.zeros(len(stiffness))
    least = straight[int(np.argmin(values.real[straight]))]
    return float(values.real[least]) / float(np.abs(values).max()), np.real(shapes[:, least])


def condensed(matrix: Floats) -> Floats:
    """Stiffness of the body alone, joints of bridles free to follow, shape (6, 6)."""
    if matrix.shape[0] == 6:
        return matrix.copy()
    own, across, back, joints = matrix[:6, :6], matrix[:6, 6:], matrix[6:, :6], matrix[6:, 6:]
    return np.asarray(own - across @ np.linalg.solve(joints, back))


def to_body_axes(matrix: Floats, turn: Floats) -> Floats:
    """A matrix of forces and moments over shifts and turns, from earth to body axes."""
    both = np.zeros((6, 6))
    both[:3, :3] = both[3:, 3:] = turn
    return np.asarray(both.T @ matrix @ both)


def body_inertia(body: Body, gravity: float) -> Floats:
    """The body's inertia, or that of its bare mass spread over a ball of its size."""
    if body.inertia.size:
        return body.inertia
    mass = body.weight / gravity
    x, y, z = body.centre_of_weight
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    inertia = np.zeros((6, 6))
    inertia[:3, :3] = mass * np.eye(3)
    inertia[:3, 3:], inertia[3:, :3] = -mass * cross, mass * cross
    inertia[3:, 3:] = mass * (0.1 * body.size**2 * np.eye(3) - cross @ cross)
    return inertia


def stability(body: Body, stiffness: Floats, damping: Floats, turn: Floats, gravity: float) -> Stability:
    """Modes of inertia x acceleration + damping x speed + stiffness x displacement = 0.

    Parameters
    ----------
    body : Body
    stiffness, damping : ndarray, shape (6, 6)
        About the origin, earth axes; not symmetric where loads follow the body.
    turn : ndarray, shape (3, 3)
        The body's rotation.
    gravity : float
        [m/s2]
    """
    k, c = to_body_axes(stiffness, turn), to_body_axes(damping, turn)
    m = body_inertia(body, gravity)
    scale = np.array([1.0, 1.0, 1.0, *[1.0 / body.size] * 3])
    m, c, k = (_without_dust(a * scale[:, None] * scale) for a in (m, c, k))
    system = np.zeros((12, 12))
    system[:6, 6:] = np.eye(6)
    system[6:, :6], system[6:, 6:] = -np.linalg.solve(m, k), -np.linalg.solve(m, c)
    rates, shapes = np.linalg.eig(system)
    fastest = float(np.abs(rates).max())
    upper = np.flatnonzero(rates.imag >= 0.0)
    order = upper[np.argsort(-rates[upper].real)]
    modes = tuple(_mode(complex(rates[i]), np.abs(shapes[:6, i])) for i in order)
    raw = to_body_axes(stiffness, turn)
    return Stability(
        holds_still=divergence(k, m)[0] > -STILL,
        stable=bool(rates.real.max() <= _GROWS * fastest),
        modes=modes,
        sway_from_yaw=float(raw[1, 5]),
        yaw_from_sway=float(raw[5, 1]),
        heave_from_pitch=float(raw[2, 4]),
        pitch_from_heave=float(raw[4, 2]),
        size=body.size,
        safety=computed(STABILITY_CAUTION, "eigenvalues of the linear motions about the computed pose"),
    )


def _without_dust(matrix: Floats) -> Floats:
    """Entries at the limit of arithmetic to zero: what is left of them spoils the eigenvectors' scaling."""
    return np.where(np.abs(matrix) < 1e-16 * np.abs(matrix).max(), 0.0, matrix)


def _mode(rate: complex, shape: Floats) -> Mode:
    greatest = int(np.argmax(shape))
    period = 2.0 * math.pi / rate.imag if rate.imag > 1e-9 * max(abs(rate), 1e-300) else math.inf
    share = shape / max(float(shape[greatest]), 1e-300)
    return Mode(NAMES[greatest], rate.real, period, tuple(float(v) for v in share))


def diverging_motion(body: Body, stiffness: Floats, turn: Floats, gravity: float) -> tuple[str, float]:
    """The motion that a small push drives furthest, and the stiffness along it [N/m, turns over the size]."""
    scale = np.array([1.0, 1.0, 1.0, *[1.0 / body.size] * 3])
    k = _without_dust(to_body_axes(stiffness, turn) * scale[:, None] * scale)
    m = _without_dust(body_inertia(body, gravity) * scale[:, None] * scale)
    shape = divergence(k, m)[1]
    return NAMES[int(np.argmax(np.abs(shape)))], float(shape @ k @ shape) / max(float(shape @ shape), 1e-300)
