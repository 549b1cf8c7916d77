"""Why a layout does not hold, as data."""

from __future__ import annotations

import math

from racewright.holding.checked import Floats
from racewright.holding.layout import Layout
from racewright.holding.stability import diverging_motion
from racewright.holding.statics_reach import shortest_line
from racewright.holding.statics_result import PRECEDENCE, LineLoad, Reason, ReasonCode
from racewright.holding.statics_solve import GOOD, Found
from racewright.holding.stream import Stream

_TOUCH = 1e-6
"""Depth over the body's size at which it counts as touching bed or surface [-]."""
CAPSIZED = 60.0
"""Tilt of the body's up axis that counts as capsized even where a balance is found: little righting moment is left
beyond. Own choice [deg]."""
_UPLIFT = 1e-3
"""Uplift over line tension that counts as none: the elements' own error [-]."""


def reasons(
    layout: Layout,
    stream: Stream,
    found: Found,
    lines: tuple[LineLoad, ...],
    heights: tuple[float, float],
    stiffness: Floats,
) -> tuple[Reason, ...]:
    """All reasons against the pose where a search ended, in the order of `PRECEDENCE`.

    Parameters
    ----------
    layout, stream
    found : Found
    lines : tuple of LineLoad
    heights : tuple of float
        Of the outline's lowest and highest point [m].
    stiffness : ndarray, shape (6, 6)
        Of the body at that pose.
    """
    told: list[Reason] = []
    parts = [_parts(line) for line in lines if line.utilisation > 1.0]
    if parts or not found.settled:
        short = shortest_line(layout, stream.depth)
        if short is not None:
            text = (
                f"'{short.name}' is too short: reaching the body in the water takes {short.tension:.3g} N without "
                f"any stream, and it bears {short.strength:.3g} N."
            )
            told.append(Reason("line too short", short.name, short.tension, short.strength, "N", text))
    told += _body(layout, stream, found, heights, stiffness)
    told += [_lifts(line) for line in lines if line.uplift > line.uplift_limit + _UPLIFT * line.anchor_tension]
    told += parts
    if not found.settled and not found.overturned:
        text = f"No balance was found in {found.steps} steps; {found.residual:.2g} of the load is left over."
        told.append(Reason("not converged", "", found.residual, GOOD, "1", text))
    return tuple(sorted(told, key=lambda reason: PRECEDENCE.index(reason.code)))


def _body(
    layout: Layout, stream: Stream, found: Found, heights: tuple[float, float], stiffness: Floats
) -> list[Reason]:
    told = []
    lowest, highest = heights
    touch = _TOUCH * layout.body.size
    tilt = math.degrees(math.acos(max(-1.0, min(1.0, float(found.pose.turn[2, 2])))))
    if found.overturned:
        text = "The body overturns: no upright balance of the roll and pitch moments was found."
        told.append(Reason("capsizes", "roll or pitch", tilt, CAPSIZED, "deg", text))
    elif tilt > CAPSIZED:
        text = f"The body lies over by {tilt:.0f} degrees; more than {CAPSIZED:.0f} counts as capsized."
        told.append(Reason("capsizes", "roll or pitch", tilt, CAPSIZED, "deg", text))
    if found.settled and not found.stable:
        motion, value = diverging_motion(layout.body, stiffness, found.pose.turn, stream.gravity)
        code: ReasonCode = "capsizes" if motion in ("roll", "pitch") else "unstable"
        text = f"A small {motion} drives the body further off (stiffness along that motion {value:.3g} N/m)."
        told.append(Reason(code, motion, value, 0.0, "N/m", text))
    if lowest < -touch:
        text = f"The body lies on the bed: its lowest point would be {-lowest:.3g} m below it."
        told.append(Reason("sinks", "", lowest, 0.0, "m", text))
    if highest > stream.depth + touch:
        text = f"The body's highest point comes {highest - stream.depth:.3g} m out of the water."
        told.append(Reason("surfaced", "", highest, stream.depth, "m", text))
    return told


def _lifts(line: LineLoad) -> Reason:
    text = f"'{line.name}' lifts its fixed point with {line.uplift:.3g} N; it bears {line.uplift_limit:.3g} N."
    return Reason("anchor lifts", line.name, line.uplift, line.uplift_limit, "N", text)


def _parts(line: LineLoad) -> Reason:
    text = f"The slow tension of '{line.name}' is {line.tension:.3g} N, above its strength of {line.strength:.3g} N."
    return Reason("line parts", line.name, line.tension, line.strength, "N", text)
