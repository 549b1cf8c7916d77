"""A year of logs on the screen: how likely a first blow, and apart from it a slow tension, passes a level."""

from __future__ import annotations

import math
from typing import Any

from racewright.desk import look
from racewright.desk.parts.holding_safety import beside
from racewright.desk.parts.holding_strike import span
from racewright.dossier import format as fmt


def year(found: dict[str, Any] | None) -> None:
    """A section with both curves, the forces of one year in so many, and the chance that the first link parts.

    Parameters
    ----------
    found : dict or None
        `year` as the command `strike` prints it.
    """
    with look.section("A year of logs"):
        if found is None:
            look.empty(
                "No logs that pass in a year are given.",
                "Add a [holding.NAME.log.NAME] table with yearly, passing_width, length and diameter.",
            )
            return
        with look.figures():
            rate = found["encounters_1_per_yr"]
            look.figure("Logs that meet the machine", fmt.number(rate, fmt.decimals_for(rate, 2)), say="a year")
            for one in found["figures"]:
                look.figure(_capital(one["name"]), span(one))
            _parting(found)
        with look.columns():
            _blows(found)
            _lines(found)
        beside([*found["safety"], *(one["safety"] for one in found["figures"])])


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _parting(found: dict[str, Any]) -> None:
    if found["parting"] is None:
        look.figure("First link parts in a year", fmt.UNKNOWN, say="no weak link is given")
        return
    low, high = (fmt.quantity(found[f"parting_{end}"], fmt.SHARE, 2) for end in ("low", "high"))
    look.figure(
        "First link parts in a year",
        fmt.quantity(found["parting"], fmt.SHARE, 2),
        f"{low} to {high}",
        say=f"limits of what was drawn, {100.0 * found['confidence']:g}{fmt.THIN}%",
    )


def _share(values: list[float]) -> list[float]:
    """In per cent; a chance of nothing has no place on an axis of tenfold steps."""
    return [100.0 * v if v > 0.0 else math.nan for v in values]


_AXES = {
    "xaxis": {"type": "log", "dtick": 1, "exponentformat": "none"},
    "yaxis": {"type": "log", "dtick": 1, "exponentformat": "none"},
    "hovermode": "closest",
}


def _blows(found: dict[str, Any]) -> None:
    level = [v / 1e3 for v in found["level_N"]]
    look.chart(
        "First blow at the place struck, by contact: dashed softest, solid stiffest with its upper limit",
        [
            look.Line(level, _share(found["first_low"]), "softest", "second", dash="dash"),
            look.Line(
                level,
                _share(found["first_high"]),
                "stiffest",
                "second",
                low=_share(found["first_high"]),
                high=_share(found["first_high_upper"]),
            ),
        ],
        x="force of a first blow, kN",
        y="chance that a year passes it, %",
        name="year_first_blows",
        more=_AXES,
    )


def _lines(found: dict[str, Any]) -> None:
    level = [v / 1e3 for v in found["level_N"]]
    kept = [i for i, chance in enumerate(found["slow_high"]) if chance > 0.0 and found["slow"][i] > 0.0]
    look.chart(
        "Slow line tension, seconds after a blow, with the limits of what was drawn",
        [
            look.Line(
                [level[i] for i in kept],
                _share([found["slow"][i] for i in kept]),
                "slow tension",
                low=_share([max(found["slow_low"][i], 1e-6) for i in kept]),
                high=_share([found["slow_high"][i] for i in kept]),
            )
        ],
        x="slow line tension, kN",
        y="chance that a year passes it, %",
        name="year_slow_tension",
        more=_AXES,
    )
