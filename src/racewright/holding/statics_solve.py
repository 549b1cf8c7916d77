"""The search for equilibrium: Newton's method near the answer, slow damped settling from afar.

Settling takes implicit steps of the motion that a body would make in a very thick fluid: it ends where the body
would come to rest, never at an unstable balance, and shows what happens when there is none.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.line_march import STIFFNESS
from racewright.holding.stability import STILL, body_inertia, divergence
from racewright.holding.statics_problem import Balance, Pose, Problem

EXACT = 1e-9
"""Residual over load at which a search ends [-]."""
GOOD = 1e-7
"""Residual over load that counts as settled when no step improves it [-]."""
_WHOLE_STEPS, _NEWTON_STEPS, _SETTLING_STEPS = 20, 30, 250
_SHORT, _SHORT_STEPS = 1.0 / 16.0, 4
"""Steps cut to this share, so many in a row, end a Newton search: it creeps towards no balance. Own choice [-]."""
_SOFT = 20.0
"""EA of the softest lines over what drives the body: they stretch about a twentieth. Own choice [-]."""
_LEAST_STEP = 1e-6
"""Steps below this share of the body's size are taken as they come: a kink is passed that way [-]."""
_JOINT = 0.1
"""Share of the body's mass that a bridle's joint is given in settling. Own choice [-]."""


@dataclass(slots=True)
class Found:
    """Where a search ended.

    Attributes
    ----------
    pose, balance
        The last ones that were computed.
    residual : float
        Greatest force left, moments over the body's size, over the load [-].
    settled : bool
        The residual is small and the body upright.
    overturned : bool
        The body's up axis points down: the search stopped there.
    stable : bool
        No small push is answered by a push the same way.
    steps : int
    """

    pose: Pose
    balance: Balance
    residual: float
    settled: bool
    overturned: bool
    stable: bool
    steps: int


def search(problem: Problem, start: Pose) -> Found | None:
    """Equilibrium from a start; None when a line has no answer at the start."""
    return _reshaped(problem, start, _search)


def near(problem: Problem, start: Pose) -> Found | None:
    """As `search`, from a pose that is close to the answer: Newton's method alone, which gives up soon."""
    return _reshaped(problem, start, _newton)


def _reshaped(problem: Problem, start: Pose, way: Callable[[Problem, Pose], Found | None]) -> Found | None:
    """The answer of one way of searching, asked again where the lines' shapes moved with it."""
    found = way(problem, start)
    if found is not None and found.settled and problem.reshaped(found.pose):
        again = way(problem, found.pose)
        return again if again is not None and again.settled else found
    return found


def _search(problem: Problem, start: Pose) -> Found | None:
    first = _newton(problem, start)
    if first is not None and first.settled and first.stable:
        return first
    nudged = _nudged(start, problem.size)
    soft = _from_soft_lines(problem, nudged)
    if soft is not None and soft.settled and soft.stable:
        return soft
    return more_telling(more_telling(first, soft), _settle(problem, nudged))


def _from_soft_lines(problem: Problem, start: Pose) -> Found | None:
    """Settle on soft lines, then follow the answer while they harden: stiff lines turn a small step aside into a
    great pull, and hold the search up.
    """
    stiffest = max(float(line.elements.rows[:, STIFFNESS].max()) for line in problem.lines)
    try:
        problem.soften(1e300)
        balance = problem.balance(start)
        if balance is None:
            return None
        body = problem.layout.body
        drive = float(np.linalg.norm(balance.stream_force)) + abs(body.buoyancy - body.weight) + 1e-3 * body.weight
        soft = _SOFT * drive
        problem.soften(soft)
        found = _settle(problem, start)
        while found is not None and soft < 100.0 * stiffest and not found.overturned:
            soft *= 6.0
            problem.soften(soft)
            found = _newton(problem, found.pose) or _settle(problem, found.pose)
    finally:
        problem.soften(1e300)
    if found is None or found.overturned:
        return found
    last = _newton(problem, found.pose)
    return last if last is not None and last.settled and last.stable else _settle(problem, found.pose)


def more_telling(old: Found | None, new: Found | None) -> Found | None:
    """Of two ends of a search a stable balance, then an overturned body, then any balance, then the nearer one."""
    if old is None or new is None:
        return old or new
    return new if _rank(new) > _rank(old) else old


def _rank(found: Found) -> tuple[bool, bool, bool, float]:
    return found.settled and found.stable, found.overturned, found.settled, -found.residual


def _nudged(pose: Pose, size: float) -> Pose:
    """A hair off, so that no symmetry holds the search on a ridge."""
    step = np.zeros(6 + pose.joints.size)
    step[1], step[3:6] = 1e-4 * size, (1.0e-3, 0.7e-3, 0.8e-3)
    return pose.moved(step)


def _scale(problem: Problem) -> Floats:
    scale = np.ones(6 + 3 * problem.joint_count)
    scale[3:6] = 1.0 / problem.size
    return scale


def _limited(step: Floats, problem: Problem, reach: float) -> Floats:
    """Scaled step cut to a length and a turn that derivatives still describe."""
    longest = max(float(np.abs(step[:3]).max()), float(np.abs(step[6:]).max(initial=0.0)))
    turn = float(np.abs(step[3:6]).max()) / problem.size
    share = min(1.0, reach * _span(problem) / max(longest, 1e-300), reach / max(turn, 1e-300))
    return step * share


def _span(problem: Problem) -> float:
    shortest = min(t.length for t in problem.layout.tethers)
    return max(problem.size, 0.2 * shortest)


def _residual(balance: Balance, scale: Floats) -> float:
    return float(np.abs(balance.total * scale).max()) / balance.load


def _metric(problem: Problem, pose: Pose, scale: Floats) -> Floats:
    """What resists motion in settling: the body's inertia over its mass, a tenth of it at each joint; scaled."""
    inertia = body_inertia(problem.layout.body, problem.stream.gravity)
    both = np.zeros((6, 6))
    both[:3, :3] = both[3:, 3:] = pose.turn
    found = np.eye(scale.size) * _JOINT
    found[:6, :6] = both @ inertia @ both.T / (np.trace(inertia[:3, :3]) / 3.0)
    return np.asarray(found * scale[:, None] * scale)


def is_stable(problem: Problem, pose: Pose, balance: Balance) -> bool:
    """Whether no small displacement drives itself further (see `stability.divergence`)."""
    scale = _scale(problem)
    matrix = balance.matrix * scale[:, None] * scale
    return divergence(matrix, _metric(problem, pose, scale))[0] > -STILL


def _closed(problem: Problem, pose: Pose, balance: Balance, steps: int) -> Found:
    residual = _residual(balance, _scale(problem))
    overturned = bool(pose.turn[2, 2] < 0.0)
    stable = is_stable(problem, pose, balance)
    return Found(pose, balance, residual, residual <= GOOD and not overturned, overturned, stable, steps)


def _newton(problem: Problem, start: Pose) -> Found | None:
    """Whole steps first; where they do not end in a balance, steps that each lower the forces left over."""
    balance = problem.balance(start)
    if balance is None:
        return None
    whole = _whole_steps(problem, start, balance)
    return whole if whole is not None and whole.settled else _lowering_steps(problem, start, balance)


def _whole_steps(problem: Problem, start: Pose, balance: Balance) -> Found | None:
    """A taut line stretches when the body goes straight to where it would go around: forces rise before they fall."""
    scale, pose = _scale(problem), start
    for count in range(_WHOLE_STEPS):
        if _residual(balance, scale) <= EXACT or pose.turn[2, 2] < 0.0:
            return _closed(problem, pose, balance, count)
        pose = pose.moved(_limited(_solved(balance, scale, 0.0, np.eye(scale.size)), problem, 0.3) * scale)
        found = problem.balance(pose)
        if found is None:
            return None
        balance = found
    return None


def _lowering_steps(problem: Problem, start: Pose, balance: Balance) -> Found:
    scale, pose, short = _scale(problem), start, 0
    for count in range(_NEWTON_STEPS):
        residual = _residual(balance, scale)
        if residual <= EXACT or pose.turn[2, 2] < 0.0 or short == _SHORT_STEPS:
            return _closed(problem, pose, balance, count)
        step = _limited(_solved(balance, scale, 0.0, np.eye(scale.size)), problem, 0.3)
        better = _halved(problem, pose, balance, step * scale, scale)
        if better is None:
            return _closed(problem, pose, balance, count)
        pose, balance, share = better
        short = short + 1 if share <= _SHORT else 0
    return _closed(problem, pose, balance, _NEWTON_STEPS)


def _halved(
    problem: Problem, pose: Pose, balance: Balance, step: Floats, scale: Floats
) -> tuple[Pose, Balance, float] | None:
    """The longest of halved steps that lowers the forces left over, and its share of the step."""
    before = float(np.linalg.norm(balance.total * scale))
    for halvings in range(8):
        share = 0.5**halvings
        trial = pose.moved(step * share)
        found = problem.balance(trial)
        if found is not None and float(np.linalg.norm(found.total * scale)) < (1.0 - 0.1 * share) * before:
            return trial, found, share
    return None


def _solved(balance: Balance, scale: Floats, shift: float, metric: Floats) -> Floats:
    matrix = balance.matrix * scale[:, None] * scale
    greatest = float(np.abs(matrix).max())
    matrix += shift * metric
    matrix[np.diag_indices_from(matrix)] += 1e-13 * greatest
    try:
        return np.asarray(np.linalg.solve(matrix, balance.total * scale))
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.lstsq(matrix, balance.total * scale, rcond=1e-12)[0])


def _settle(problem: Problem, start: Pose) -> Found | None:
    scale = _scale(problem)
    pose, balance = start, problem.balance(start)
    if balance is None:
        return None
    shift = float(np.linalg.norm(balance.total * scale)) / (0.1 * problem.size)
    for count in range(_SETTLING_STEPS):
        if pose.turn[2, 2] < 0.0 or _residual(balance, scale) <= EXACT:
            return _closed(problem, pose, balance, count)
        left = float(np.linalg.norm(balance.total * scale))
        metric = _metric(problem, pose, scale)
        rates = np.linalg.eigvals(np.linalg.solve(metric, balance.matrix * scale[:, None] * scale))
        straight = rates.real[np.abs(rates.imag) <= 1e-9 * np.abs(rates).max()]
        used = max(shift, -2.0 * float(straight.min(initial=0.0)))
        step = _limited(_solved(balance, scale, used, metric), problem, 0.2)
        trial = pose.moved(step * scale)
        found = problem.balance(trial)
        if found is None:
            shift = 4.0 * used
            continue
        # a linear law would leave total - K step
        expected = balance.total * scale - (balance.matrix * scale[:, None] * scale) @ step
        off = float(np.linalg.norm(found.total * scale - expected)) / left
        if off > 1.0 and float(np.abs(step).max()) > _LEAST_STEP * _span(problem):
            shift = 4.0 * used
            continue
        shift = used * (0.2 if off < 0.3 else (1.0 if off < 0.6 else 2.0 if off < 1.0 else 0.01))
        pose, balance = trial, found
    return _closed(problem, pose, balance, _SETTLING_STEPS)
