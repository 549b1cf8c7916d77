"""Forces of the lines on the body and on the bridles' joints, and their stiffness, in one matrix."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Wholes = NDArray[np.int64]

LAND, BODY, JOINT = -1, 0, 1
"""What an end of a line meets; JOINT + i is the joint i."""


@njit(cache=True, error_model="numpy")
def gather(
    meets: Wholes, arm: Floats, force: Floats, stiff: Floats, body_force: Floats, body_stiff: Floats, joints: int
) -> tuple[Floats, Floats]:
    """Sum of forces and stiffness of all that can move.

    Parameters
    ----------
    meets : ndarray of int, shape (n, 2)
        What the lower and upper end of each line meets.
    arm : ndarray, shape (n, 2, 3)
        From the body's origin to ends that meet the body, earth axes [m].
    force, stiff : ndarray, shapes (n, 2, 3) and (n, 2, 2, 3, 3)
        Of the lines on their ends [N], [N/m].
    body_force, body_stiff : ndarray, shapes (6,) and (6, 6)
        All else on the body.
    joints : int
        Count of joints.

    Returns
    -------
    total : ndarray, shape (6 + 3 joints,)
        Forces and moments on the body, then forces on the joints.
    matrix : ndarray, shape (6 + 3 joints, 6 + 3 joints)
        Its negative derivative with motions of the body's origin, small turns, motions of the joints.
    """
    size = 6 + 3 * joints
    total, matrix = np.zeros(size), np.zeros((size, size))
    for i in range(6):
        total[i] = body_force[i]
        for j in range(6):
            matrix[i, j] = body_stiff[i, j]
    lever = np.zeros((2, 6, 3))
    first, width = np.zeros(2, dtype=np.int64), np.zeros(2, dtype=np.int64)
    for line in range(meets.shape[0]):
        for end in range(2):
            what = meets[line, end]
            lever[end] = 0.0
            for a in range(3):
                lever[end, a, a] = 1.0
            first[end], width[end] = (6 + 3 * (what - JOINT), 3) if what >= JOINT else (0, 6)
            if what == LAND:
                width[end] = 0
            if what == BODY:
                x, y, z = arm[line, end, 0], arm[line, end, 1], arm[line, end, 2]
                lever[end, 3, 1], lever[end, 3, 2] = -z, y
                lever[end, 4, 0], lever[end, 4, 2] = z, -x
                lever[end, 5, 0], lever[end, 5, 1] = -y, x
                f = force[line, end]
                # a turn by phi moves the force's arm: -d(arm x F)/d phi = -[F][arm]
                for a in range(3):
                    for b in range(3):
                        same = f[0] * x + f[1] * y + f[2] * z if a == b else 0.0
                        matrix[3 + a, 3 + b] -= arm[line, end, a] * f[b] - same
        for end in range(2):
            for i in range(width[end]):
                for a in range(3):
                    total[first[end] + i] += lever[end, i, a] * force[line, end, a]
            for other in range(2):
                for i in range(width[end]):
                    for j in range(width[other]):
                        entry = 0.0
                        for a in range(3):
                            for b in range(3):
                                entry += lever[end, i, a] * stiff[line, end, other, a, b] * lever[other, j, b]
                        matrix[first[end] + i, first[other] + j] += entry
    return total, matrix
