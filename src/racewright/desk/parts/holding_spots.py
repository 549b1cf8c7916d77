"""The layout as the drawing needs it: what can be moved, and one rest in its stream."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation

from racewright.dossier.figures.holding_shape import LinePoints, hull, hung
from racewright.holding.layout import Layout
from racewright.holding.statics_result import Equilibrium
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle
from racewright.safety import SafetyBasis

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class HoldingSpot:
    """An anchor or a fairlead, where it is now.

    Attributes
    ----------
    kind : str
        'anchor' or 'fairlead'.
    name : str
        Of its scheme table.
    at : ndarray, shape (3,)
        Downstream and left of the machine's intended place, above the bed [m].
    """

    kind: str
    name: str
    at: Floats


@dataclass(frozen=True)
class HoldingLine:
    """One line at rest. Its tension is a slow one.

    Attributes
    ----------
    name, form : str
        Form as in `LineLoad`: 'taut', 'suspended', 'grounded', 'slack'.
    at : ndarray, shape (k, 3)
        From the fixed point up, as `HoldingSpot.at` [m].
    legs : tuple of ndarray, shape (2, 3)
        Of a bridle [m].
    length : float
        Unstretched, without legs [m].
    apart : float
        Straight, between its ends [m].
    tension, strength : float
        [N]
    use : float
        Factor of the intact case x tension over strength [-].
    safety : SafetyBasis
    """

    name: str
    form: str
    at: Floats
    legs: tuple[Floats, ...]
    length: float
    apart: float
    tension: float
    strength: float
    use: float
    safety: SafetyBasis


@dataclass(frozen=True)
class HoldingRest:
    """The machine on its lines in one state and stream; without a state as it is meant to hang, without lines.

    Attributes
    ----------
    state : str
    stream_speed, depth, height : float
        [m/s], of the water, of the axis as it is meant to hang [m].
    settled, feasible : bool
    reason : str
        Why it does not hold, '' where it does.
    side, plan : ndarray, shape (n, 2)
        Outline of the machine, x with z and x with y [m].
    axis : ndarray, shape (2, 3)
        Inlet and exit end [m].
    lines : tuple of HoldingLine
    cover, bed_clearance, offset : float
        [m]
    roll, pitch, yaw : float
        [rad]
    factor : float
        Wanted of the lines, intact [-].
    safety : SafetyBasis or None
        Of pose and clearances.
    """

    state: str
    stream_speed: float
    depth: float
    height: float
    settled: bool
    feasible: bool
    reason: str
    side: Floats
    plan: Floats
    axis: Floats
    lines: tuple[HoldingLine, ...]
    cover: float
    bed_clearance: float
    offset: float
    roll: float
    pitch: float
    yaw: float
    factor: float
    safety: SafetyBasis | None


@dataclass(frozen=True)
class HoldingPeak:
    """The line that comes nearest to its strength in one state, fastest water and first depth, all lines there.

    Attributes
    ----------
    state, line : str
        Line '' where nothing settled.
    tension, use : float or None
        Slow [N], factor x tension over strength [-].
    """

    state: str
    line: str
    tension: float | None
    use: float | None


UNITS = {
    "HoldingSpot": {"at": "m"},
    "HoldingLine": {
        "at": "m", "legs": "m", "length": "m", "apart": "m", "tension": "N", "strength": "N", "use": "-",
    },
    "HoldingRest": {
        "stream_speed": "m/s", "depth": "m", "height": "m", "side": "m", "plan": "m", "axis": "m", "cover": "m",
        "bed_clearance": "m", "offset": "m", "roll": "rad", "pitch": "rad", "yaw": "rad", "factor": "-",
    },
    "HoldingPeak": {"tension": "N", "use": "-"},
}  # fmt: skip


def spots_of(keys: Mapping[str, Any], height: float, found: Equilibrium | None) -> tuple[HoldingSpot, ...]:
    """Anchors and fairleads by name; fairleads on the machine at rest, or as it is meant to hang.

    Parameters
    ----------
    keys : mapping
        Plain 'holding.anchor' and 'holding.fairlead'.
    height : float
        Of the axis above the bed, as it is meant to hang [m].
    found : Equilibrium or None
    """
    there = found is not None and found.settled
    place = np.array(found.position if found is not None and there else (0.0, 0.0, height))
    turned = [found.yaw, found.pitch, found.roll] if found is not None and there else [0.0, 0.0, 0.0]
    turn = Rotation.from_euler("ZYX", turned)
    anchors = [
        HoldingSpot("anchor", name, np.array([-a["ahead"], a["left"], a["height"]]))
        for name, a in sorted(keys["holding.anchor"].items())
    ]
    leads = [
        HoldingSpot("fairlead", name, place + turn.apply(np.array([f["x"], f["left"], f["up"]])))
        for name, f in sorted(keys["holding.fairlead"].items())
    ]
    return (*anchors, *leads)


def rest_of(layout: Layout, stream: Stream, found: Equilibrium | None, factor: float) -> HoldingRest:
    """One rest to draw; the machine as it is meant to hang where there is none, or where the search found none."""
    height = layout.position[2]
    if found is None or not found.settled:
        outline = layout.body.outline + np.array(layout.position)
        ends = np.array([[outline[:, 0].min(), 0.0, height], [outline[:, 0].max(), 0.0, height]])
        why = "" if found is None else found.reason.text if found.reason else "no rest found"
        nothing = math.nan
        return HoldingRest(
            "" if found is None else found.state, stream.speed, stream.depth, height, False, False, why,
            hull(outline[:, [0, 2]]), hull(outline[:, [0, 1]]), ends, (),
            nothing, nothing, nothing, nothing, nothing, nothing, factor, None if found is None else found.safety,
        )  # fmt: skip
    shown = hung(layout, found)
    lines = tuple(
        _line(one, layout.tethers[i].fairlead, sum(s.length for s in layout.tethers[i].segments), factor)
        for i, one in enumerate(shown.lines)
    )
    return HoldingRest(
        found.state, found.stream_speed, found.depth, height, True, found.feasible,
        found.reason.text if found.reason else "",
        hull(shown.outline[:, [0, 2]]), hull(shown.outline[:, [0, 1]]), shown.axis, lines,
        found.cover, found.bed_clearance, found.offset, found.roll, found.pitch, found.yaw, factor, found.safety,
    )  # fmt: skip


def _line(one: LinePoints, lead: Any, length: float, factor: float) -> HoldingLine:
    load = one.load
    end = np.mean([leg[1] for leg in one.legs], axis=0) if isinstance(lead, Bridle) else one.main[-1]
    return HoldingLine(
        load.name, load.form, one.main, one.legs, length, float(np.linalg.norm(end - one.main[0])), load.tension,
        load.strength, factor * load.utilisation, load.safety,
    )  # fmt: skip
