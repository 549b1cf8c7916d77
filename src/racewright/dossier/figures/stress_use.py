"""How much of its design strength each part uses, factors in."""

from __future__ import annotations

from collections.abc import Mapping

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    SECOND,
    SOFT,
    bare_names,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.strength.stress_check import StressCheck


@in_house_style
def draw(checks: Mapping[str, StressCheck], width: float, *, invented: bool = False) -> Figure:
    """One bar a part, most used first; 100 % is the limit.

    Parameters
    ----------
    checks : mapping of StressCheck
        One or more, by part and load case.
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    rows = sorted(checks.items(), key=lambda row: -row[1].use)
    title = invented_title(_title(rows), invented=invented)
    figure = sheet(width, 1.0 + (0.56 if narrow else 0.46) * len(rows), title)
    axes = figure.add_subplot()
    top = max(1.0, rows[0][1].use)
    for y, (_, check) in enumerate(rows):
        axes.barh(y, check.use, height=0.28, color=ACCENT if check.passes else SECOND, linewidth=0)
        stress, allowed = (fmt.quantity(v, fmt.PRESSURE) for v in (check.factored_stress, check.design_strength))
        of, load, strength = f"{stress} of {allowed}", check.load_factor.single(), check.material_factor.single()
        beside = fmt.quantity(check.use, fmt.SHARE, 2) if narrow else of
        axes.text(check.use + 0.012 * top, y, beside, ha="left", va="center", fontsize=7.5, bbox=halo())
        said = f"{of}: × {load:g}, ÷ {strength:g}" if narrow else _factors(check.limit_state, load, strength)
        axes.text(0.0, y + 0.32, said, ha="left", va="center", fontsize=7.0, color=SOFT, bbox=halo())
    axes.axvline(1.0, color=INK, linewidth=1.0, zorder=0.9)
    axes.set_yticks(range(len(rows)), [label(name, 18 if narrow else 30) for name, _ in rows])
    axes.set_ylim(len(rows) - 0.4, -0.5)
    axes.set_xlim(0.0, 1.32 * top)
    axes.xaxis.set_major_formatter(lambda x, _: f"{100.0 * x:g}")
    bare_names(axes)
    axes.set_xlabel("factored stress, % of design strength" + ("" if narrow else "; the limit is 100 %"))
    grid(axes, "x")
    return figure


def _factors(limit_state: str, load: float, strength: float) -> str:
    return f"{limit_state}: load × {load:g}, strength ÷ {strength:g}"


def _title(rows: list[tuple[str, StressCheck]]) -> str:
    name, first = rows[0]
    use = fmt.quantity(first.use, fmt.SHARE, 2)
    fails = sum(not check.passes for _, check in rows)
    most = f"{label(name, 22)} uses most of its design strength: {use}"
    most = f"{most[0].upper()}{most[1:]}"
    return f"{fails} of {len(rows)} do not pass. {most}" if fails else most
