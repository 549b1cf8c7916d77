"""What becomes of debris that comes in: passes, may lodge, lodges, wraps; a measured dose overrides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.row import Row
from racewright.passage.crossing import RowCrossing
from racewright.passage.debris import DebrisClass
from racewright.passage.opening import ANGLES, sticks
from racewright.passage.strike_chance import strike_chance
from racewright.passage.wrap import hold_chance
from racewright.safety import SafetyBasis, safety_basis
from racewright.uncertainty import Band
from racewright.uncertainty.binomial import BinomialLimits, binomial_limits

Floats = NDArray[np.float64]
Outcome = Literal["passes", "may lodge", "lodges", "wraps"]

_STATIONS = 7
_EVEN = 1e-9


@dataclass(frozen=True, slots=True)
class DoseCount:
    """Pieces of one class that were let into a machine or a model of it, counted.

    Attributes
    ----------
    entered : int
        Pieces that entered the duct, 1 or more [-].
    stayed : int
        Of them those that lodged or wrapped [-].
    where : str
        On what they were counted, e.g. 'model, 1:2.5, run 14'.
    """

    entered: int
    stayed: int
    where: str

    def __post_init__(self) -> None:
        """Refuse a count without a place, or one that cannot be."""
        whole = all(isinstance(n, int) and not isinstance(n, bool) for n in (self.entered, self.stayed))
        if not whole or not 0 <= self.stayed <= self.entered or self.entered < 1:
            raise InputError(
                f"{self.stayed!r} of {self.entered!r} pieces: wanted whole numbers, 1 or more entered, no more stayed"
            )
        if not self.where.strip():
            raise InputError("a dose wants to say where it was counted, e.g. 'model, run 14'", key="where")


@dataclass(frozen=True, slots=True)
class Fate:
    """One class of debris; pairs are for its smallest and its largest piece.

    Attributes
    ----------
    name, title : str
    flexible : bool
    outcome : tuple of {'passes', 'may lodge', 'lodges', 'wraps'}
        By geometry.
    free_share : tuple of float
        Share of angles, radii weighted by area, at which a rigid piece fits through both rows; 1 for a flexible one
        [-].
    blow_chance : tuple of float
        That a piece is touched by an edge of either row, mean over the flow [-].
    wrap_chance : tuple of float
        That a flexible piece is caught and stays; 0 for a rigid one [-].
    staying : Band
        Chance that a piece which comes in stays: the measured dose where there is one, otherwise the range of the
        geometry for the class, its middle the mean of both ends [-].
    measured : BinomialLimits or None
    words : str
        The fate in a sentence.
    safety : SafetyBasis
    """

    name: str
    title: str
    flexible: bool
    outcome: tuple[Outcome, Outcome]
    free_share: tuple[float, float]
    blow_chance: tuple[float, float]
    wrap_chance: tuple[float, float]
    staying: Band
    measured: BinomialLimits | None
    words: str
    safety: SafetyBasis


def fates(
    vanes: Row,
    blades: Row,
    crossings: Sequence[RowCrossing],
    classes: Sequence[DebrisClass],
    *,
    doses: Mapping[str, DoseCount] | None = None,
) -> tuple[Fate, ...]:
    """Fate of each class in one machine at one operating point.

    A rigid piece is a straight stick as thick as its width; it fits or not at each of 18 even angles and at seven
    radii, turned any way with equal chance. It passes when all fit, lodges when none does. A flexible piece wraps
    when an edge catches it (as a fish is struck) and holds it (`hold_chance`). Water turns pieces and blades cut
    them: a dose counted on a model or the machine says more, and overrides.

    Parameters
    ----------
    vanes, blades : Row
    crossings : sequence of RowCrossing
        Of the vanes and the rotor at the operating point, from `row_crossings`.
    classes : sequence of DebrisClass
    doses : mapping of DoseCount, optional
        By name of the class.

    Raises
    ------
    InputError
        A dose of a class that is not asked.
    """
    counted = doses or {}
    unknown = [name for name in counted if name not in {one.name for one in classes}]
    if unknown:
        raise InputError(f"a dose belongs to '{unknown[0]}', which is not among the classes asked", key="doses")
    return tuple(_fate(vanes, blades, crossings, one, counted.get(one.name)) for one in classes)


def _fate(
    vanes: Row, blades: Row, crossings: Sequence[RowCrossing], one: DebrisClass, dose: DoseCount | None
) -> Fate:
    ends = (0, 1)
    blow = tuple(_met(crossings, one, i, hold=False) for i in ends)
    wrap = tuple(_met(crossings, one, i, hold=True) if one.flexible else 0.0 for i in ends)
    free = tuple(1.0 if one.flexible else _free(vanes, blades, one.length[i], one.width[i]) for i in ends)
    outcome = tuple(_outcome(one.flexible, free[i], wrap[i]) for i in ends)
    limits = None if dose is None else binomial_limits(dose.stayed, dose.entered)
    return Fate(
        name=one.name,
        title=one.title,
        flexible=one.flexible,
        outcome=(outcome[0], outcome[1]),
        free_share=(free[0], free[1]),
        blow_chance=(blow[0], blow[1]),
        wrap_chance=(wrap[0], wrap[1]),
        staying=_staying(one, free, blow, wrap, limits, dose),
        measured=limits,
        words=_words(one, outcome, limits),
        safety=safety_basis(
            "flood_and_debris",
            f"{one.title}: geometry of rows and pieces" + ("" if dose is None else f"; counted: {dose.where}"),
            one.edition,
            one.status if dose is None else "measured by the user",
        ),
    )


def _free(vanes: Row, blades: Row, length: float, width: float) -> float:
    """Share of angles and radii at which a stick fits through both rows."""
    angle = np.array(ANGLES)
    fits = np.ones((angle.size, _STATIONS), dtype=bool)
    weight = np.ones(_STATIONS)
    for row in (vanes, blades):
        edges = np.linspace(row.radius[0], row.radius[-1], _STATIONS + 1)
        radius = 0.5 * (edges[1:] + edges[:-1])
        weight = radius / radius.sum()
        fits &= sticks(row, radius, angle, width, 2.0 * length) >= length
    share = float(np.mean(fits, axis=0) @ weight)
    return 1.0 if share > 1.0 - _EVEN else share


def _met(crossings: Sequence[RowCrossing], one: DebrisClass, i: int, *, hold: bool) -> float:
    """Chance to be touched by an edge of any row, or touched and held."""
    free = 1.0
    for row in crossings:
        touched = np.maximum(
            *(
                strike_chance(
                    row.count,
                    row.rotor_speed,
                    row.axial_speed,
                    row.radius,
                    max(one.length[i], 1e-4),
                    swirl=row.swirl,
                    body_angle=angle,
                    body_width=one.width[i],
                    edge_thickness=row.edge_thickness,
                )
                for angle in (0.0, np.arctan2(row.swirl, row.axial_speed))
            )
        )
        if hold:
            touched = touched * hold_chance(one.length[i], row.edge_thickness, row.slant, one.friction)
        free *= 1.0 - float(row.mean(touched))
    return 1.0 - free


def _outcome(flexible: bool, free: float, wrap: float) -> Outcome:
    if flexible:
        return "wraps" if wrap > 0.0 else "passes"
    if free >= 1.0:
        return "passes"
    return "lodges" if free <= 0.0 else "may lodge"


def _staying(
    one: DebrisClass,
    free: tuple[float, ...],
    blow: tuple[float, ...],
    wrap: tuple[float, ...],
    limits: BinomialLimits | None,
    dose: DoseCount | None,
) -> Band:
    if limits is not None and dose is not None:
        return Band(limits.low, limits.share, limits.high, f"counted: {limits.label}; {dose.where}")
    if one.flexible:
        return Band(0.0, 0.5 * (wrap[0] + wrap[1]), max(blow), "belt over a nose; high end: all that is caught stays")
    stuck = [1.0 - share for share in free]
    low = min(1.0 if part >= 1.0 else 0.0 for part in stuck)
    high = max(0.0 if part <= 0.0 else 1.0 for part in stuck)
    return Band(low, 0.5 * sum(stuck), high, "share of angles and radii at which a piece does not fit; any between")


def _words(one: DebrisClass, outcome: tuple[Outcome, ...], limits: BinomialLimits | None) -> str:
    ends = [f"a piece {length:.2g} m long {said}" for length, said in zip(one.length, outcome, strict=True)]
    told = f"{one.title}: {ends[0]}, one {ends[1].removeprefix('a piece ')}, by geometry"
    return f"{told}." if limits is None else f"{told}; counted, of those that came in stayed {limits.label}."
