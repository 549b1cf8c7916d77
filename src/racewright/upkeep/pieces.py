"""Pieces that are carried and lifted: weights dry, drained, wet and full of mud, in air and under water."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.place.guard import within

GRAVITY = 9.80665
"""Standard gravity [m/s2]."""

MUD_DENSITY = 1600.0
"""Density of settled wet mud, between 1300 (soft silt) and 1900 (sandy) kg/m3 (common practice, no source)
[kg/m3]."""

FILM_SHARE = 0.03
"""Water that stays in corners of drained hollows, over their volume (own choice) [-]."""


@dataclass(frozen=True, slots=True)
class LiftedPiece:
    """A piece that is moved in one go.

    Attributes
    ----------
    name : str
    dry_mass : float
        Clean and dry, in air, > 0 [kg].
    length, width, height : float
        Outside, > 0 [m].
    hollow_volume : float
        That floods and drains, >= 0 [m3].
    solid_volume : float
        Of material and closed spaces, which buoys it up under water, >= 0 [m3].
    """

    name: str
    dry_mass: float
    length: float
    width: float
    height: float
    hollow_volume: float = 0.0
    solid_volume: float = 0.0

    def __post_init__(self) -> None:
        within(f"the dry mass of {self.name}", self.dry_mass, 1e-3, 1e8, "kg")
        for what in ("length", "width", "height"):
            within(f"the {what} of {self.name}", getattr(self, what), 1e-3, 1e3, "m")
        within(f"the hollow volume of {self.name}", self.hollow_volume, 0.0, 1e6, "m3")
        within(f"the solid volume of {self.name}", self.solid_volume, 0.0, 1e6, "m3")


@dataclass(frozen=True, slots=True)
class PieceWeights:
    """Masses to lift and to carry.

    Attributes
    ----------
    name : str
    dry, drained, wet, mud_filled : float
        Clean; drained, a film left; hollows full of water, just lifted out; hollows full of mud [kg].
    in_water : float
        Weight under water, flooded; below 0: it floats [N].
    in_water_mud : float
        The same with hollows full of mud [N].
    longest : float
        Longest outside measure [m].
    """

    name: str
    dry: float
    drained: float
    wet: float
    mud_filled: float
    in_water: float
    in_water_mud: float
    longest: float


def piece_weights(piece: LiftedPiece, water_density: float, mud_density: float = MUD_DENSITY) -> PieceWeights:
    """Weights of a piece.

    Parameters
    ----------
    piece : LiftedPiece
    water_density : float
        900 to 1100 [kg/m3].
    mud_density : float
        `water_density` to 2300; default `MUD_DENSITY` [kg/m3].
    """
    water = within("the density of water", water_density, 900.0, 1100.0, "kg/m3")
    mud = within("the density of mud", mud_density, water, 2300.0, "kg/m3")
    dry, hollow = piece.dry_mass, piece.hollow_volume
    sunk = GRAVITY * (dry - water * piece.solid_volume)
    return PieceWeights(
        name=piece.name,
        dry=dry,
        drained=dry + FILM_SHARE * water * hollow,
        wet=dry + water * hollow,
        mud_filled=dry + mud * hollow,
        in_water=sunk,
        in_water_mud=sunk + GRAVITY * (mud - water) * hollow,
        longest=max(piece.length, piece.width, piece.height),
    )
