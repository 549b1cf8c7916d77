"""Pieces against the means of transport: who takes which, the heaviest and the longest."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.remark import Remark
from racewright.upkeep.pieces import MUD_DENSITY, LiftedPiece, PieceWeights, piece_weights

LIFTING = Remark(
    "warning",
    "Weights for planning only: weigh before lifting. Lifting gear, slings, lifting points, boats and aircraft are "
    "chosen and checked by people licensed for it, by the local code; suction of mud, waves and jerks add to a lift "
    "and are not counted.",
    "lifting",
)


@dataclass(frozen=True, slots=True)
class Carrying:
    """A means of transport or a lifting gear.

    Attributes
    ----------
    name : str
        Such as 'small plane', 'canoe', 'sled', 'hand winch'.
    most_mass : float
        Of one piece, > 0 [kg].
    space : tuple of float or None
        Three clear measures in any order, the piece is turned to fit; None: no limit [m].
    carries : {'dry', 'drained', 'wet', 'mud_filled'}
        State in which the piece is carried.
    """

    name: str
    most_mass: float
    space: tuple[float, float, float] | None = None
    carries: str = "drained"

    def __post_init__(self) -> None:
        within(f"the greatest mass for {self.name}", self.most_mass, 1e-3, 1e8, "kg")
        for measure in self.space or ():
            within(f"a clear measure of {self.name}", measure, 1e-3, 1e3, "m")
        if self.carries not in ("dry", "drained", "wet", "mud_filled"):
            raise InputError(f"{self.name} carries pieces {self.carries!r}; wanted dry, drained, wet or mud_filled")


@dataclass(frozen=True, slots=True)
class CarryingRow:
    """One means of transport.

    Attributes
    ----------
    name : str
    heaviest, longest : str
        The pieces that try it most.
    heaviest_mass, longest_length : float
        [kg], [m]
    mass_left : float
        Greatest mass less the heaviest piece, below 0 when it is too heavy [kg].
    refused : tuple of str
        Pieces that do not go, with the reason.
    """

    name: str
    heaviest: str
    longest: str
    heaviest_mass: float
    longest_length: float
    mass_left: float
    refused: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Carried:
    """Pieces against the means of transport.

    Attributes
    ----------
    weights : tuple of PieceWeights
    rows : tuple of CarryingRow
    remarks : tuple of Remark
        With the caution on lifting.
    """

    weights: tuple[PieceWeights, ...]
    rows: tuple[CarryingRow, ...]
    remarks: tuple[Remark, ...]


def carried(
    pieces: tuple[LiftedPiece, ...],
    means: tuple[Carrying, ...],
    water_density: float,
    mud_density: float = MUD_DENSITY,
) -> Carried:
    """Hold every piece against every means of transport.

    Raises
    ------
    InputError
        No piece, a piece named twice, densities out of range.
    """
    names = [piece.name for piece in pieces]
    if not pieces or len(set(names)) != len(names):
        raise InputError(f"pieces are {', '.join(names) or 'missing'}; wanted one or more, each named once")
    weights = tuple(piece_weights(piece, water_density, mud_density) for piece in pieces)
    rows = tuple(_row(one, pieces, weights) for one in means)
    told = [LIFTING]
    for row in rows:
        if row.refused:
            told.append(Remark("warning", f"{row.name} does not take: {'; '.join(row.refused)}.", "transport"))
    floating = [one.name for one in weights if one.in_water < 0.0]
    if floating:
        told.append(Remark("caution", f"Floats when it is let go under water: {', '.join(floating)}.", "buoyancy"))
    return Carried(weights, rows, tuple(told))


def _row(means: Carrying, pieces: tuple[LiftedPiece, ...], weights: tuple[PieceWeights, ...]) -> CarryingRow:
    masses = [getattr(one, means.carries) for one in weights]
    heaviest, longest = masses.index(max(masses)), max(range(len(weights)), key=lambda i: weights[i].longest)
    refused = []
    for piece, mass in zip(pieces, masses, strict=True):
        why = []
        if mass > means.most_mass:
            why.append(f"{mass:.4g} kg {means.carries.replace('_', ' ')}, {means.most_mass:.4g} kg allowed")
        if means.space is not None and not _fits(piece, means.space):
            size = " x ".join(f"{side:.3g}" for side in sorted((piece.length, piece.width, piece.height)))
            why.append(f"{size} m in {' x '.join(f'{side:.3g}' for side in sorted(means.space))} m")
        if why:
            refused.append(f"{piece.name} ({', '.join(why)})")
    return CarryingRow(
        name=means.name,
        heaviest=weights[heaviest].name,
        longest=weights[longest].name,
        heaviest_mass=masses[heaviest],
        longest_length=weights[longest].longest,
        mass_left=means.most_mass - masses[heaviest],
        refused=tuple(refused),
    )


def _fits(piece: LiftedPiece, space: tuple[float, float, float]) -> bool:
    """Square to the walls, turned in any of six ways."""
    sides = sorted((piece.length, piece.width, piece.height))
    return all(side <= clear or math.isclose(side, clear) for side, clear in zip(sides, sorted(space), strict=True))
