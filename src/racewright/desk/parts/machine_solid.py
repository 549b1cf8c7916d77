"""The machine in the round: lines that are revolved, and the surface of one vane and one blade."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.desk.parts.machine_now import there
from racewright.desk.seam import Asked
from racewright.ledger.convert import UNIT_KEYS, duct_of, hub_of
from racewright.ledger.graph import plan
from racewright.ledger.inputs import case_of
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.row_ends import standing
from racewright.machine.row_mesh import row_grid

Floats = NDArray[np.float64]

SIDE, SPAN = 18, 12
"""Steps along each side of a section, and from hub to tip."""
PANELS = 48
"""Steps along each side of duct and hub."""


@dataclass(frozen=True)
class Revolved:
    """A line that is turned about the axis: axial places and radii [m]."""

    x: Floats
    r: Floats


@dataclass(frozen=True)
class Stood:
    """Vanes or blades that stand evenly around the axis.

    Attributes
    ----------
    count : int
    points : ndarray, shape (m, n, 3)
        Surface of the one at angle 0, around its outline and from hub to tip: x downstream, y up, z [m].
    """

    count: int
    points: Floats


UNITS = {"Revolved": {"x": "m", "r": "m"}, "Stood": {"count": "-", "points": "m"}}


def solid(asked: Asked) -> dict[str, Any]:
    """Duct, hub, vanes and rotor of the case's machine, each ending on hub and duct as `export` has them."""
    if not there(asked):
        return {"duct": None, "hub": None, "vanes": None, "rotor": None}
    name, case = case_of(asked.loaded, asked.options.case)
    given = plan(asked.loaded, name, case, ("design_point",)).given["design_point"]
    keys = {key: given.keys[key] for key in UNIT_KEYS}
    duct, hub = duct_of(keys), hub_of(keys)
    vanes, blades = asked.values("rows")["rows"]

    def stood(row: Row) -> Stood:
        return Stood(row.count, row_grid(standing(row, duct, hub, rooted=False), SIDE, SPAN))

    return {
        "duct": Revolved(*duct_contour(duct, PANELS)),
        "hub": Revolved(*hub_contour(hub, PANELS)),
        "vanes": stood(vanes),
        "rotor": stood(blades),
    }
