"""A year of logs on the screen: how likely a first blow, and apart from it a slow tension, passes a level."""

from __future__ import annotations

import math
from typing import Any

from racewright.desk import look
from racewright.desk.look.palette import NAMED
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
            _parting(found)
        with look.columns():
            _blows(found)
            _lines(found)
        rows = [[_capital(one["name"]), _most(one)] for one in found["figures"]]
        columns = [look.Column("passed in one year of so many"), look.Column("force", number=True)]
        look.table("Forces of a year, by what contact may be and by what was drawn", columns, rows)
        beside([*found["safety"], *(one["safety"] for one in found["figures"])])


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _parting(found: dict[str, Any]) -> None:
    if found["parting"] is None:
        look.figure(
            "First link parts in a year", fmt.UNKNOWN, say="neither weak link nor strength of a line is known"
        )
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


def _most(figure: dict[str, Any]) -> str:
    """Range of a force; one that may be nothing has no lower end."""
    if figure["low_SI"] > 0.0:
        return span(figure)
    return f"up to {fmt.quantity(figure['high_SI'], fmt.FORCE)}" if figure["high_SI"] > 0.0 else "none drawn"


def _axes(level: list[float], names: list[tuple[float, float, str, str]]) -> dict[str, Any]:
    """Both axes by tenfold steps, ticks at 1, 2 and 5, and names of lines where (level, per cent) says."""
    near = [m * 10.0**n for n in range(-3, 8) for m in (1.0, 2.0, 5.0)]
    ticks = [t for t in near if 0.99 * min(level) <= t <= 1.01 * max(level)]
    said = [
        {
            "x": math.log10(x), "y": math.log10(y), "text": text, "showarrow": False, "xanchor": "left",
            "yanchor": "bottom", "font": {"color": NAMED[colour], "size": 12},
        }
        for x, y, text, colour in names
    ]  # fmt: skip
    chances = [100.0, 10.0, 1.0, 0.1, 0.01]
    return {
        "xaxis": {"type": "log", "tickvals": ticks, "ticktext": [f"{t:g}" for t in ticks]},
        "yaxis": {"type": "log", "tickvals": chances, "ticktext": [f"{c:g}" for c in chances]},
        "hovermode": "closest",
        "annotations": said,
    }


def _half(level: list[float], share: list[float]) -> tuple[float, float]:
    """Where a name stands: at the last level with half of the first chance or more."""
    known = [(x, y) for x, y in zip(level, share, strict=True) if math.isfinite(y)]
    return max((p for p in known if p[1] >= 0.5 * known[0][1]), key=lambda p: p[0])


def _blows(found: dict[str, Any]) -> None:
    level = [v / 1e3 for v in found["level_N"]]
    soft, stiff, upper = (_share(found[key]) for key in ("first_low", "first_high", "first_high_upper"))
    names = [
        (*_half(level, share), text, "second")
        for share, text in ((soft, "softest"), (stiff, "stiffest"))
        if any(map(math.isfinite, share))
    ]
    look.chart(
        "First blow at the place struck: dashed softest contact, solid stiffest with its upper limit",
        [
            look.Line(level, soft, "softest", "second", dash="dash"),
            look.Line(level, stiff, "stiffest", "second", low=stiff, high=upper),
        ],
        x="force of a first blow, kN",
        y="chance that a year passes it, %",
        name="year_first_blows",
        more=_axes(level, names),
    )


def _lines(found: dict[str, Any]) -> None:
    kept = [i for i, chance in enumerate(found["slow_low"]) if chance > 0.0 and found["slow"][i] > 0.0]
    if not kept:
        look.note("No log that was drawn pulls on the lines.", "soft")
        return
    level, slow, low, high = ([found[k][i] for i in kept] for k in ("level_N", "slow", "slow_low", "slow_high"))
    level = [v / 1e3 for v in level]
    look.chart(
        "Slow line tension, seconds after a blow, with the limits of what was drawn",
        [look.Line(level, _share(slow), "slow tension", low=_share(low), high=_share(high))],
        x="slow line tension, kN",
        y="chance that a year passes it, %",
        name="year_slow_tension",
        more=_axes(level, []),
    )
