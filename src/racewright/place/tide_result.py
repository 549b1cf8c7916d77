"""What a harmonic analysis gives: constituents with their errors, mean, trend, and what is left."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from racewright.remark import Remark

TideKind = Literal["level", "along", "east north"]
"""Water level; speed along the channel, flood positive; speed to the east and to the north."""


@dataclass(frozen=True)
class TideConstituent:
    """One constituent; for speeds to east and north its ellipse.

    Attributes
    ----------
    name : str
        As on a tide table, 'M2'.
    origin : {'fitted', 'inferred', 'table'}
        Found in the record; taken from a larger neighbour by the ratio of the equilibrium tide; taken from a table.
    angular_speed : float
        [rad/s]
    amplitude, amplitude_error : float
        Of level [m] or along-channel speed [m/s]; of an ellipse the larger half axis [m/s]; with it the half width
        of its 95 % interval.
    minor, minor_error : float
        Smaller half axis, positive where the stream turns anticlockwise; 0 for one component [m/s].
    inclination, inclination_error : float
        Of the larger half axis, anticlockwise from east, 0 to pi; 0 for one component [rad].
    phase, phase_error : float
        Lag on the equilibrium tide at Greenwich, 0 to 2 pi; of an ellipse, of its larger half axis [rad].
    signal_to_noise : float or None
        Squared amplitude over the variance of its error; None from a table [-].
    share : float
        Of the summed squares of all constituents [-].
    kept : bool
        True where prediction uses it: from a table, or signal to noise at least `tide_solve.LEAST_SIGNAL`.
    """

    name: str
    origin: Literal["fitted", "inferred", "table"]
    angular_speed: float
    amplitude: float
    amplitude_error: float
    minor: float
    minor_error: float
    inclination: float
    inclination_error: float
    phase: float
    phase_error: float
    signal_to_noise: float | None
    share: float
    kept: bool


@dataclass(frozen=True)
class Unseparated:
    """A constituent of weight that the record is too short for.

    Attributes
    ----------
    name, neighbour : str
        The constituent, and the larger one that it cannot be told from.
    wanted : float
        Length of record that tells them apart, one cycle between them [s].
    inferred : bool
        True where the equilibrium tide's ratio stands in for it; else its part stays in the neighbour.
    """

    name: str
    neighbour: str
    wanted: float
    inferred: bool


@dataclass(frozen=True)
class Tide:
    """Harmonic analysis of one record; all times UTC.

    Attributes
    ----------
    kind : {'level', 'along', 'east north'}
    latitude : float
        Positive north [rad].
    nodal : bool
        True where the 18.6-year factors were taken out.
    first, last : int
        Stamps; both 0 from a table [s since 1970-01-01 UTC].
    values : int
    missing : float
        Share of the time from first to last that no stamp stands for [-].
    longest_gap : float
        [s]
    told_apart : float
        Length of a record without gaps that tells as many constituents apart; 0 from a table [s].
    constituents : tuple of TideConstituent
        By falling energy.
    unseparated : tuple of Unseparated
    mean : tuple of float
        Level [m], or residual current along the channel, or to east and north [m/s]; one or two numbers.
    trend : tuple of float
        Per time; zeros where none was asked for [m/s, or m/s2].
    residual : float or None
        None from a table; root mean square of what the kept constituents, mean and trend leave over [m or m/s].
    explained : float or None
        None from a table; share of the record's variance about mean and trend that the kept constituents explain [-].
    cube_ratio : float or None
        For records of speed: their mean cube over that of kept constituents and mean at the same stamps [-].
    form_factor : float or None
        (K1 + O1) / (M2 + S2); None where one of them was not fitted [-].
    remarks : tuple of Remark
    """

    kind: TideKind
    latitude: float
    nodal: bool
    first: int
    last: int
    values: int
    missing: float
    longest_gap: float
    told_apart: float
    constituents: tuple[TideConstituent, ...]
    unseparated: tuple[Unseparated, ...]
    mean: tuple[float, ...]
    trend: tuple[float, ...]
    residual: float | None
    explained: float | None
    cube_ratio: float | None
    form_factor: float | None
    remarks: tuple[Remark, ...]

    def named(self, name: str) -> TideConstituent | None:
        """The constituent of that name, or None."""
        return next((row for row in self.constituents if row.name == name), None)
