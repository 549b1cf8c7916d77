"""The equilibrium of a floating machine on its lines, in one state and stream."""

from __future__ import annotations

import math

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.line_load import line_load
from racewright.holding.load_state import LoadState
from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.stability import condensed, stability
from racewright.holding.statics_problem import Pose, Problem
from racewright.holding.statics_reasons import reasons
from racewright.holding.statics_result import Equilibrium, LineLoad, Reason, Stability
from racewright.holding.statics_solve import GOOD, Found, more_telling, search
from racewright.holding.stream import Stream
from racewright.remark import Remark

_RAMP = 6
"""Steps in which the stream is raised when the search at once finds nothing. Own choice [-]."""


def equilibrium(layout: Layout, stream: Stream, state: LoadState) -> Equilibrium:
    """Pose, line loads, stiffness and stability of a machine on its lines.

    The search starts at the intended pose. When it finds no upright balance, the stream is raised from still water in
    steps and each answer starts the next. What it cannot answer, or what should not be, stands in `reasons`.

    Parameters
    ----------
    layout : Layout
    stream : Stream
    state : LoadState
        Thrust, roll moment and drag over stream speed.

    Returns
    -------
    Equilibrium

    Raises
    ------
    InputError
        From the dataclasses of the arguments, for numbers out of range.

    Examples
    --------
    A body of 369 N net buoyancy on one light line of 12 m holds 2 m over its anchor against 2182 N.

    >>> import math
    >>> from racewright.holding import Body, FixedPoint, Layout, Segment, Stream, Tether, equilibrium, steady_state
    >>> rope = Segment("light", 12.0, 0.01, 1e-6, 1e-9, 1e9, math.inf, 0.0)
    >>> body = Body(1000.0, 1368.768, (0.0, 0.0, -0.1), (0.0, 0.0, 0.1), [[0.0, 0.0, 0.5], [0.0, 0.0, -0.5]])
    >>> anchor = FixedPoint((0.0, 0.0, 0.0), uplift_limit=math.inf)
    >>> layout = Layout(body, (Tether("front", anchor, (rope,), (0.0, 0.0, 0.0)),), (11.8, 0.0, 2.0))
    >>> stream = Stream(2.5, depth=6.0, reference_height=2.0, profile=math.inf)
    >>> found = equilibrium(layout, stream, steady_state("held", 0.0, 0.0, 2181.66, 2.5))
    >>> round(found.position[2], 4), round(found.lines[0].tension, 1)
    (2.0, 2212.6)
    """
    problem = Problem(layout, stream, state)
    return told(problem, searched(problem, None))


def searched(problem: Problem, start: Pose | None) -> Found | None:
    """Search from a pose, then from the intended one, then by raising the stream from still water."""
    best: Found | None = None
    for pose in ([start] if start is not None else []) + [problem.start()]:
        found = search(problem, pose)
        best = more_telling(best, found)
        if found is not None and found.settled and found.stable:
            return found
    return more_telling(best, _raised(problem))


def _raised(problem: Problem) -> Found | None:
    stream, state = problem.stream, problem.state
    pose, found = problem.start(), None
    for step in range(_RAMP + 1):
        problem.meet(_slower(stream, step / _RAMP), state)
        found = search(problem, pose)
        if found is None or not found.settled:
            break
        pose = found.pose
    problem.meet(stream, state)
    if found is not None and found.balance is not None:
        problem.balance(found.pose)
    return found


def _slower(stream: Stream, share: float) -> Stream:
    return Stream(
        stream.speed * math.sqrt(share),
        stream.depth,
        stream.reference_height,
        stream.heading,
        stream.profile,
        stream.density,
        stream.gravity,
    )


def told(problem: Problem, found: Found | None) -> Equilibrium:
    """The result of a search that ended at `found`; the problem's lines must hold that pose."""
    if found is None:
        text = "A line has no shape between its ends at the intended place."
        why = Reason("not converged", "", math.inf, GOOD, "1", text)
        return unsettled(problem.layout, problem.stream, problem.state.name, why)
    pose, stream, body = found.pose, problem.stream, problem.layout.body
    problem.balance(pose)
    lines = tuple(line_load(problem, pose, i) for i in range(len(problem.layout.tethers)))
    height = pose.place[2] + body.outline @ pose.turn[2]
    stiffness = condensed(found.balance.matrix)
    against = reasons(problem.layout, stream, found, lines, (float(height.min()), float(height.max())), stiffness)
    thrust_height = float(pose.place[2] + pose.turn[2] @ np.array(body.thrust_centre))
    still = stability(body, stiffness, problem.damping(pose), pose.turn, stream.gravity) if found.settled else None
    offset = pose.place - np.array(problem.layout.position)
    roll, pitch, yaw = angles(pose.turn)
    return Equilibrium(
        state=problem.state.name,
        stream_speed=stream.speed,
        heading=stream.heading,
        depth=stream.depth,
        settled=found.settled,
        feasible=found.settled and not against,
        reasons=against,
        position=_three(pose.place),
        offset=float(np.hypot(offset[0], offset[1])),
        roll=roll,
        pitch=pitch,
        yaw=yaw,
        cover=float(stream.depth - height.max()),
        bed_clearance=float(height.min()),
        local_speed=stream.speed_at(thrust_height),
        stream_force=_three(found.balance.stream_force),
        lines=lines,
        residual=found.residual,
        load=found.balance.load,
        steps=found.steps,
        stiffness=stiffness,
        stability=still,
        remarks=_remarks(problem, lines, still),
        safety=computed(POSE_CAUTION),
    )


def angles(turn: Floats) -> tuple[float, float, float]:
    """Roll, pitch and yaw of a rotation: yaw first, then pitch, then roll [rad]."""
    return (
        math.atan2(float(turn[2, 1]), float(turn[2, 2])),
        -math.asin(max(-1.0, min(1.0, float(turn[2, 0])))),
        math.atan2(float(turn[1, 0]), float(turn[0, 0])),
    )


def _three(values: Floats) -> tuple[float, float, float]:
    return float(values[0]), float(values[1]), float(values[2])


def unsettled(layout: Layout, stream: Stream, state: str, why: Reason) -> Equilibrium:
    """No balance to tell of: the layout as it is meant, and why."""
    height = layout.position[2] + layout.body.outline[:, 2]
    return Equilibrium(
        state=state,
        stream_speed=stream.speed,
        heading=stream.heading,
        depth=stream.depth,
        settled=False,
        feasible=False,
        reasons=(why,),
        position=layout.position,
        offset=0.0,
        roll=0.0,
        pitch=0.0,
        yaw=layout.yaw,
        cover=float(stream.depth - height.max()),
        bed_clearance=float(height.min()),
        local_speed=stream.speed_at(layout.position[2]),
        stream_force=(0.0, 0.0, 0.0),
        lines=(),
        residual=math.inf,
        load=0.0,
        steps=0,
        stiffness=np.zeros((6, 6)),
        stability=None,
        remarks=(),
        safety=computed(POSE_CAUTION),
    )


def _remarks(problem: Problem, lines: tuple[LineLoad, ...], still: Stability | None) -> tuple[Remark, ...]:
    body, found = problem.layout.body, []
    slack = [line.name for line in lines if line.form == "slack"]
    if slack:
        names = ", ".join(slack)
        found.append(
            Remark("caution", f"Slack: {names}. A slack line that snatches sees far more than this.", "slack")
        )
    for line, tether in zip(lines, problem.layout.tethers, strict=True):
        if line.strum.cross_flow and tether.drag_factor == 1.0 and line.form != "slack":
            text = (
                f"'{line.name}' may strum (shedding at {line.strum.shedding_frequency:.3g} Hz, mode "
                f"{line.strum.mode:.0f}); its drag may be {line.strum.drag_factor:.2g} times what is counted."
            )
            found.append(Remark("caution", text, "strumming"))
        if line.drag == "on its chord":
            text = f"The shape of '{line.name}' in the current was not found; drag as on a straight line."
            found.append(Remark("note", text, "line drag"))
    if still is not None and still.holds_still and not still.stable:
        worst = still.modes[0]
        text = (
            f"A small {worst.name} grows by itself ({worst.growth_rate:.2g} 1/s, period {worst.period:.3g} s) in the "
            "quasi-steady model: the machine may gallop or fishtail."
        )
        found.append(Remark("warning", text, "stability"))
    if not body.inertia.size:
        found.append(Remark("note", "No inertia was given: periods are those of the bare mass.", "inertia"))
    return tuple(found)
