"""What a reader of a strike's figures must know."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.passage.injury import safe_speed
from racewright.passage.species import FishClass
from racewright.passage.strike_result import RowStrike
from racewright.remark import Remark

Floats = NDArray[np.float64]

_APART = 0.05
"""Difference of the two headings' chances, over the larger, that is told. Own choice [-]."""


def strike_remarks(fish: FishClass, lengths: Floats, rows: Sequence[RowStrike]) -> tuple[Remark, ...]:
    """Remarks on class, speeds and headings."""
    found = [
        Remark(
            "note",
            "A struck fish is not always a dead one; blows on flanks after the leading edge, jams between rows and "
            "wounds that do not kill are not counted.",
            "strike",
        )
    ]
    outside = (lengths < fish.shortest) | (lengths > fish.longest)
    if np.any(outside):
        found.append(
            Remark(
                "caution",
                f"{lengths[outside][0]:.3g} m is outside {fish.shortest:g} to {fish.longest:g} m, for which "
                f"the class {fish.title.lower()} is meant.",
                "fish length",
            )
        )
    if fish.borrowed:
        found.append(
            Remark(
                "caution",
                f"No laboratory strikes of {fish.title.lower()} are known here: those of {fish.strikes_on} stand in.",
                "injury",
            )
        )
    limit = safe_speed()
    for one in rows:
        fastest = float(one.relative_speed.max())
        meets = "meet" if one.name.endswith("s") else "meets"
        if fastest > limit:
            found.append(
                Remark(
                    "caution",
                    f"The {one.name} {meets} fish at up to {fastest:.1f} m/s; below {limit:g} m/s practically no "
                    f"struck {fish.strikes_on} died, above it thin edges kill.",
                    "strike",
                )
            )
        axial, along = one.mean_axial, one.mean_along
        worst = int(np.argmax(np.abs(along - axial)))
        if abs(along[worst] - axial[worst]) > _APART * max(along[worst], axial[worst]):
            found.append(
                Remark(
                    "note",
                    f"In the {one.name} a fish of {lengths[worst]:.2g} m is struck with chance {axial[worst]:.2f} "
                    f"when it lies along the axis, {along[worst]:.2f} along the water: swirl helps only a fish that "
                    "does not turn with it.",
                    "heading",
                )
            )
    return tuple(found)
