"""A row given outright by its sections instead of by a design intent."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.over_radius import read
from racewright.machine.row import Row
from racewright.machine.sections import CAMBER_LIMIT, THICKNESS_LIMITS, checked_family

Floats = NDArray[np.float64]

DENSEST = 3.0
"""Largest chord over pitch, about the proven range of the row factor [-]."""

SHORT = 0.02
"""Share of the span that a table may leave out at hub or tip; values there follow its end slopes. Own choice."""

_LIMITS = {
    "radius": (1e-4, 100.0, "m", 0.3),
    "chord": (1e-4, 100.0, "m", 0.2),
    "stagger": (-math.radians(89.0), math.radians(89.0), "rad", 0.5),
    "camber": (-CAMBER_LIMIT, CAMBER_LIMIT, "rad", 0.3),
    "thickness": (*THICKNESS_LIMITS, "of the chord", 0.12),
    "sweep": (-math.radians(60.0), math.radians(60.0), "rad", 0.1),
    "lean": (-math.radians(60.0), math.radians(60.0), "rad", 0.1),
}


@dataclass(frozen=True)
class SectionTable:
    """Sections of a row as they are drawn, shape (n,) each, n >= 2; angles as in `Row`.

    Attributes
    ----------
    radius : ndarray
        Growing, from the hub to the tip or beyond [m].
    chord : ndarray
        [m]
    stagger : ndarray
        Angle of the chord line from axial, positive in the direction of rotation [rad].
    camber : ndarray
        Turning of the mean line [rad].
    thickness : ndarray
        Over chord [-].
    sweep, lean : ndarray
        Angles of the stacking line from radial; 0 when not given [rad].
    """

    radius: Floats
    chord: Floats
    stagger: Floats
    camber: Floats
    thickness: Floats
    sweep: Floats = field(default_factory=lambda: np.zeros(0))
    lean: Floats = field(default_factory=lambda: np.zeros(0))


def given_row(
    table: SectionTable,
    *,
    kind: Literal["vanes", "blades"],
    count: int,
    place_x: float,
    hub_radius: float,
    wall_radius: float,
    clearance: float = 0.0,
    family: str = "circular_arc",
) -> Row:
    """Row from hub to wall less clearance; its sections are the table's, and hub and tip between or next to them.

    Monotone cubics between the table's radii (no overshoot); at most 2 % of the span follows the end slopes.

    Parameters
    ----------
    table : SectionTable
    kind : {'vanes', 'blades'}
    count : int
        1 to 60.
    place_x : float
        Axial place of the innermost section's mid-chord, from the duct's leading edge [m].
    hub_radius, wall_radius : float
        Where the row stands [m].
    clearance : float
        Gap between tip and wall, 0 for a row held at both ends [m].
    family : str
        A name of `sections.FAMILIES`.

    Raises
    ------
    InputError
        A column is short, out of range or not finite; radii do not grow or do not reach from hub to tip; chords
        do not fit the pitch. Place, duct and the other row are checked by `row_fit`.
    """
    checked_family(family)
    if not 1 <= count <= 60:
        raise InputError(f"A row has 1 to 60 {kind}; found {count}.", key="count")
    if not 0.0 < hub_radius < wall_radius < math.inf:
        raise InputError(f"The {kind} need 0 < hub < wall; found {hub_radius} and {wall_radius} m.", key="radius")
    if not 0.0 <= clearance < 0.2 * (wall_radius - hub_radius):
        raise InputError(
            f"{clearance} m is outside 0 to a fifth of the {wall_radius - hub_radius:.4g} m from hub to wall; try "
            f"{0.01 * wall_radius:.2g}",
            key="clearance",
        )
    if not (math.isfinite(place_x) and abs(place_x) <= 100.0):
        raise InputError(f"{place_x} is outside -100 to 100 m; try 0.2", key="place_x")
    columns = _columns(table)
    tip = wall_radius - clearance
    radius = _stations(columns["radius"], hub_radius, tip, kind)
    at = {key: read(columns["radius"], values, radius) for key, values in columns.items() if key != "radius"}
    row = Row(kind, count, place_x, radius, **at, clearance=clearance, family=family)
    _check_pitch(row)
    return row


def _columns(table: SectionTable) -> dict[str, Floats]:
    size = np.asarray(table.radius).size
    columns = {}
    for key, (low, high, unit, example) in _LIMITS.items():
        values = np.asarray(getattr(table, key), dtype=np.float64)
        if values.size == 0 and key in ("sweep", "lean"):
            values = np.zeros(size)
        if values.shape != (size,) or size < 2:
            raise InputError(f"holds {values.size} values for {size} radii; give one each, 2 or more", key=key)
        wrong = np.flatnonzero(~((values >= low) & (values <= high)))
        if wrong.size:
            raise InputError(
                f"{values[wrong[0]]} in section {wrong[0] + 1} is outside {low:.4g} to {high:.4g} {unit}; "
                f"try {example:g}",
                key=key,
            )
        columns[key] = values
    fall = np.flatnonzero(np.diff(columns["radius"]) <= 0.0)
    if fall.size:
        first = columns["radius"][fall[0]]
        raise InputError(
            f"section {fall[0] + 2} at {columns['radius'][fall[0] + 1]:g} m does not lie beyond the one before it at "
            f"{first:g} m; sort them from hub to tip",
            key="radius",
        )
    return columns


def _stations(radius: Floats, hub: float, tip: float, kind: str) -> Floats:
    slack = SHORT * (tip - hub)
    if radius[0] > hub + slack:
        raise InputError(
            f"the first section lies at {radius[0]:.4g} m, the hub at {hub:.4g} m; add a section at the hub",
            key="radius",
        )
    if radius[-1] < tip - slack:
        raise InputError(
            f"the last section lies at {radius[-1]:.4g} m, the tip of the {kind} at {tip:.4g} m; add a section there",
            key="radius",
        )
    near = 1e-9 * tip
    between = radius[(radius > hub + near) & (radius < tip - near)]
    return np.concatenate([[hub], between, [tip]])


def _check_pitch(row: Row) -> None:
    pitch = 2.0 * np.pi * row.radius / row.count
    dense = row.chord / pitch
    worst = int(np.argmax(dense))
    if dense[worst] > DENSEST:
        raise InputError(
            f"{row.count} {row.kind} of {row.chord[worst]:.3g} m chord fill {dense[worst]:.1f} pitches at radius "
            f"{row.radius[worst]:.3g} m; a row may reach {DENSEST:g}: fewer or shorter {row.kind} would do.",
            key="chord",
        )
    opening = pitch * np.cos(row.stagger) - row.thickness * row.chord
    worst = int(np.argmin(opening))
    if opening[worst] <= 0.0:
        raise InputError(
            f"neighbouring {row.kind} touch at radius {row.radius[worst]:.3g} m, where each is "
            f"{row.thickness[worst] * row.chord[worst]:.3g} m thick; fewer, thinner or less turned ones would do.",
            key="thickness",
        )
