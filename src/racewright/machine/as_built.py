"""A row as it was built: what was measured on it, laid over its design."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.over_radius import row_at
from racewright.machine.row import Row
from racewright.remark import Remark

Floats = NDArray[np.float64]

MEASURED = ("chord", "stagger", "thickness")
"""Columns that may be measured; each is optional."""

_CAUTION = {"chord": 0.03, "stagger": math.radians(1.0), "thickness": 0.10, "clearance": 0.25}
"""Deviation from which a caution is said, of the design value (stagger: rad). Own choice; no source."""

_REFUSED = {"chord": 0.5, "stagger": math.radians(30.0), "thickness": 1.0}
"""Deviation that is taken for a wrong column or unit. Own choice."""


@dataclass(frozen=True)
class Measurement:
    """What was measured on one row, at m >= 1 radii; a column of size 0 was not measured.

    Attributes
    ----------
    part : str
        Part number of the thing that was measured.
    radius : ndarray, shape (m,)
        Growing, within the row's radii [m]; size 0 when only the clearance was measured.
    chord : ndarray, shape (m,) or (0,)
        [m]
    stagger : ndarray, shape (m,) or (0,)
        Angle of the chord line from axial, positive in the direction of rotation [rad].
    thickness : ndarray, shape (m,) or (0,)
        Largest thickness over the measured chord, or the design chord where that was not measured [-].
    clearance : float, optional
        Mean gap between tip and duct [m].
    """

    part: str
    radius: Floats
    chord: Floats = field(default_factory=lambda: np.zeros(0))
    stagger: Floats = field(default_factory=lambda: np.zeros(0))
    thickness: Floats = field(default_factory=lambda: np.zeros(0))
    clearance: float | None = None


@dataclass(frozen=True)
class Deviation:
    """The largest deviation of one quantity at the radii where it was measured.

    Attributes
    ----------
    quantity : str
        'chord', 'stagger', 'thickness' or 'clearance'.
    radius : float
        Where [m].
    designed, measured : float
        [m] for chord and clearance, [rad] for stagger, [-] for thickness.
    mean : float
        Mean of measured less designed over the radii, in the same unit.
    """

    quantity: str
    radius: float
    designed: float
    measured: float
    mean: float


@dataclass(frozen=True)
class BuiltRow:
    """A row as built.

    Attributes
    ----------
    part : str
        Part number.
    row : Row
        The design with the measured differences.
    deviations : tuple of Deviation
        One for each quantity that was measured.
    remarks : tuple of Remark
        The same in words; a caution where a deviation is large.
    """

    part: str
    row: Row
    deviations: tuple[Deviation, ...]
    remarks: tuple[Remark, ...]


def as_built(design: Row, measured: Measurement) -> BuiltRow:
    """Lay what was measured over the design.

    The *difference* to the design is interpolated over radius, linearly between the measured radii and held beyond
    them, and added to the design's own values: few measured radii keep the design's shape. A measured clearance
    moves the tip; the sections between hub and tip move in proportion, with values of the design at their new radii.

    Parameters
    ----------
    design : Row
    measured : Measurement

    Raises
    ------
    InputError
        Radii do not grow or lie outside the row; a column is short, not finite, or so far from the design that its
        unit must be wrong; nothing was measured.
    """
    _check(design, measured)
    row = design if measured.clearance is None else with_clearance(design, measured.clearance)
    deviations = []
    for key in MEASURED:
        values = getattr(measured, key)
        if not values.size:
            continue
        own = np.interp(measured.radius, design.radius, getattr(design, key))
        difference = values - own
        row = replace(row, **{key: getattr(row, key) + np.interp(row.radius, measured.radius, difference)})
        worst = int(np.argmax(np.abs(difference)))
        deviations.append(
            Deviation(
                key, float(measured.radius[worst]), float(own[worst]), float(values[worst]), float(difference.mean())
            )
        )
    if measured.clearance is not None:
        gap = measured.clearance
        deviations.append(
            Deviation("clearance", float(row.radius[-1]), design.clearance, gap, gap - design.clearance)
        )
    said = tuple(_remark(design, measured.part, one) for one in deviations)
    return BuiltRow(measured.part, row, tuple(deviations), said)


def with_clearance(row: Row, clearance: float) -> Row:
    """The row with another gap at its tips [m]: sections between hub and tip move in proportion."""
    hub, tip = float(row.radius[0]), float(row.radius[-1])
    share = (tip + row.clearance - clearance - hub) / (tip - hub)
    return replace(row_at(row, hub + (row.radius - hub) * share), clearance=clearance)


def _remark(design: Row, part: str, found: Deviation) -> Remark:
    off = found.measured - found.designed
    if found.quantity == "stagger":
        amount = f"{math.degrees(found.measured):.2f} degrees, {math.degrees(off):+.2f} degrees off the design"
        size = abs(off)
    else:
        size = abs(off) / found.designed if found.designed > 0.0 else math.inf
        value = f"{found.measured:.3g} of the chord" if found.quantity == "thickness" else f"{found.measured:.4g} m"
        share = f"{100.0 * off / found.designed:+.1f} %" if found.designed > 0.0 else "none by design"
        amount = f"{value} ({share})"
    severe = size > _CAUTION[found.quantity]
    where = "" if found.quantity == "clearance" else f" at radius {found.radius:.3g} m"
    text = f"Part {part}: {found.quantity} of the {design.kind}{where} measured {amount}"
    text += "; the largest of its deviations." if found.quantity != "clearance" else "."
    return Remark("caution" if severe else "note", text, "as built")


def _check(design: Row, measured: Measurement) -> None:
    radius = measured.radius
    columns = {key: getattr(measured, key) for key in MEASURED if getattr(measured, key).size}
    if not columns and measured.clearance is None:
        raise InputError("nothing was measured; give chord, stagger, thickness or clearance", key="radius")
    if columns or radius.size:
        _check_radius(design, radius)
    for key, values in columns.items():
        if values.shape != radius.shape or not np.all(np.isfinite(values)):
            raise InputError(f"holds {values.size} values for {radius.size} radii; give a finite one each", key=key)
        own = np.interp(radius, design.radius, getattr(design, key))
        size = np.abs(values - own) / (1.0 if key == "stagger" else own)
        worst = int(np.argmax(size))
        if size[worst] > _REFUSED[key]:
            raise InputError(
                f"{values[worst]:.4g} at radius {radius[worst]:.4g} m, where the design has {own[worst]:.4g}; check "
                "column and unit",
                key=key,
            )
    gap = measured.clearance
    span = float(design.radius[-1] + design.clearance - design.radius[0])
    if gap is not None and not 0.0 <= gap < 0.2 * span:
        raise InputError(f"{gap} m is outside 0 to a fifth of the span, {0.2 * span:.3g} m", key="clearance")


def _check_radius(design: Row, radius: Floats) -> None:
    low, high = float(design.radius[0]), float(design.radius[-1])
    slack = 0.02 * (high - low)
    if radius.size == 0 or not np.all((radius >= low - slack) & (radius <= high + slack)):
        raise InputError(f"measured radii lie within the row, {low:.4g} to {high:.4g} m", key="radius")
    if np.any(np.diff(radius) <= 0.0):
        raise InputError("measured radii grow from hub to tip; sort them", key="radius")
