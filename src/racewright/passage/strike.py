"""Strike: the chance that fish of a class are touched by vanes and rotor, how fast, and what is known of the harm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, get_args

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import row
from racewright.errors import InputError
from racewright.passage.crossing import RowCrossing
from racewright.passage.injury import injury
from racewright.passage.species import FishClass
from racewright.passage.strike_chance import LONGEST, strike_chance
from racewright.passage.strike_remarks import strike_remarks
from racewright.passage.strike_result import RowStrike, Strike
from racewright.safety import safety_basis

Floats = NDArray[np.float64]
Heading = Literal["worse", "axial", "along the water"]

_BASIS = (
    "closed form: straight body of the class's girth, drifting with the water without steering or turning, crossing "
    "edges as thick as the sections' noses; von Raben (1957) where body and edge have no thickness"
)


def strike(
    rows: Sequence[RowCrossing],
    fish: FishClass,
    length: ArrayLike,
    *,
    heading: Heading = "worse",
    duct_length: float | None = None,
) -> Strike:
    """Chance of a strike in each row and in all of them, and the range of what it does.

    Fish come evenly with the water. Blows in different rows are taken as independent. Nothing is taken off for
    avoidance: that belongs to how many come in (see `fish_passage`).

    Parameters
    ----------
    rows : sequence of RowCrossing
        In the order in which they are met; one for a bare rotor.
    fish : FishClass
    length : array_like, shape (m,)
        Of the fish, 1e-4 to 50; lengths outside the class are taken and remarked [m].
    heading : {'worse', 'axial', 'along the water'}
        How the body lies: along the axis, along the water that carries it (behind vanes it is turned by their swirl),
        or at each radius whichever is struck more often. The default is the last, the safe side: nobody knows.
    duct_length : float, optional
        A fish longer than this is refused; without it none is [m].

    Raises
    ------
    InputError
        No row, a length that is not finite or out of range, a fish longer than the duct, an unknown heading.
    """
    if not rows:
        raise InputError("a strike wants one row or more", key="rows")
    if heading not in get_args(Heading):
        raise InputError(f"{heading!r} must be one of {', '.join(get_args(Heading))}", key="heading")
    lengths = row("length", length, 1e-4, LONGEST, "m")
    if duct_length is not None and np.any(lengths > duct_length):
        raise InputError(
            f"a fish of {lengths.max():.3g} m is longer than the duct of {duct_length:.3g} m: it cannot be taken as "
            "drifting through; ask for shorter fish",
            key="length",
        )
    struck = tuple(_row(one, fish, lengths, heading) for one in rows)

    def together(name: str) -> Floats:
        free = np.ones(lengths.shape)
        for one in struck:
            free = free * (1.0 - getattr(one, name))
        return np.asarray(np.clip(1.0 - free, 0.0, 1.0), dtype=np.float64)

    return Strike(
        fish=fish.name,
        length=lengths,
        heading=heading,
        rows=struck,
        chance=together("mean_chance"),
        death_low=together("death_low"),
        death=together("death"),
        death_high=together("death_high"),
        fastest=max(float(one.relative_speed.max()) for one in struck),
        remarks=strike_remarks(fish, lengths, struck),
        safety=(
            safety_basis("fish", _BASIS, "1957 form, extended here", "closed form"),
            injury(0.0, lengths, 0.0, 0.0).safety,
            fish.safety,
        ),
    )


def _row(one: RowCrossing, fish: FishClass, lengths: Floats, heading: Heading) -> RowStrike:
    long = lengths[:, None]
    along = np.arctan2(one.swirl, one.axial_speed)

    def chance(angle: Floats | float) -> Floats:
        return strike_chance(
            one.count,
            one.rotor_speed,
            one.axial_speed,
            one.radius,
            long,
            swirl=one.swirl,
            body_angle=angle,
            body_width=fish.girth_share * long,
            edge_thickness=one.edge_thickness,
        )

    axial, water = chance(0.0), chance(along)
    taken = {"axial": axial, "along the water": water, "worse": np.maximum(axial, water)}[heading]
    speed = one.relative_speed
    harm = injury(speed, long, one.edge_thickness, one.slant)
    return RowStrike(
        name=one.name,
        radius=one.radius,
        relative_speed=speed,
        edge_thickness=one.edge_thickness,
        slant=one.slant,
        chance=taken,
        chance_axial=axial,
        chance_along=water,
        injury_low=harm.low,
        injury=harm.value,
        injury_high=harm.high,
        mean_chance=one.mean(taken),
        mean_axial=one.mean(axial),
        mean_along=one.mean(water),
        mean_speed=float(one.mean(speed)),
        death_low=one.mean(taken * harm.low),
        death=one.mean(taken * harm.value),
        death_high=one.mean(taken * harm.high),
    )
