"""Slow tension of each line against what it may carry, with the load case that decides and slack flagged."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
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
from racewright.holding.statics_sweep import Statics
from racewright.holding.statics_worst import WorstLine


@in_house_style
def draw(
    worst: Sequence[WorstLine], width: float, *, tables: Sequence[Statics] = (), invented: bool = False
) -> Figure:
    """One bar a line and case, as a share of what its strongest factor leaves of the strength.

    A bar ends at factor x tension over strength, each factor of its case a mark of its own; 100 % is the limit.

    Parameters
    ----------
    worst : sequence of WorstLine
        Of `worst_lines`, one row or more.
    width : float
        Width of the figure [in].
    tables : sequence of Statics
        Sweeps in which lines are looked at for going slack.
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    title = invented_title(_title(worst), invented=invented)
    figure = sheet(width, 1.0 + (0.62 if narrow else 0.5) * len(worst), title)
    axes = figure.add_subplot()
    top = max(1.0, *(_most(w) for w in worst))
    for y, line in enumerate(worst):
        _bar(axes, y, line, top, narrow=narrow)
        slack = slack_states(line.name, tables) if line.case == "intact" else ""
        said = f"{_case(line)}; slack: {slack}" if slack else _case(line)
        axes.text(
            0.0,
            y + 0.3,
            label(said, 38 if narrow else 78),
            ha="left",
            va="center",
            fontsize=7.0,
            color=SOFT,
            bbox=halo(),
        )
    axes.axvline(1.0, color=INK, linewidth=1.0)
    axes.set_yticks(range(len(worst)), [label(w.name, 14 if narrow else 24) for w in worst])
    axes.set_ylim(len(worst) - 0.35, -0.55)
    axes.set_xlim(0.0, 1.28 * top)
    axes.xaxis.set_major_formatter(lambda x, _: f"{100.0 * x:g}")
    bare_names(axes)
    axes.set_xlabel("factor × slow tension, % of strength" + ("" if narrow else "; the limit is 100 %"))
    grid(axes, "x")
    return figure


def slack_states(name: str, tables: Sequence[Statics]) -> str:
    """States and speeds in which a line goes slack, such as 'parked 0.5 to 1.0 m/s'; '' for none."""
    found: dict[str, list[float]] = {}
    for table in tables:
        if name not in table.lines:
            continue
        place = table.lines.index(name)
        for s, state in enumerate(table.states):
            for u, speed in enumerate(table.stream_speed):
                if table.slack[s, u, place]:
                    found.setdefault(state, []).append(float(speed))
    return ", ".join(f"{state} {_range(speeds)}" for state, speeds in found.items())


def _range(speeds: list[float]) -> str:
    low, high = (fmt.number(v, 1) for v in (min(speeds), max(speeds)))
    return fmt.join(low if low == high else f"{low} to {high}", fmt.SPEED[0])


def _most(line: WorstLine) -> float:
    """Longest bar of a line, 0 without strength or factor [-]."""
    shares = [u.value for u in line.utilisations] or [line.tension / line.strength]
    return max(v for v in shares if math.isfinite(v))


def _bar(axes: Axes, y: int, line: WorstLine, top: float, *, narrow: bool) -> None:
    share = line.tension / line.strength
    most = _most(line)
    colour = SECOND if most > 1.0 else (ACCENT if line.case == "intact" else BODY)
    axes.barh(y, most, height=0.26, color=colour, alpha=0.35, linewidth=0)
    axes.barh(y, share, height=0.26, color=colour, linewidth=0)
    for used in line.utilisations:
        axes.plot([used.value] * 2, [y - 0.13, y + 0.13], color=INK, linewidth=0.9)
    tension = fmt.quantity(line.tension, fmt.FORCE)
    if not math.isfinite(line.strength):
        said = f"{tension}, strength not known"
    else:
        factors = "/".join(f"{u.factor:g}" for u in sorted(line.utilisations, key=lambda u: u.value))
        of = fmt.quantity(line.strength, fmt.FORCE)
        said = tension if narrow else f"{tension} of {of}" + (f", × {factors}" if factors else "")
    axes.text(max(most, share) + 0.012 * top, y, said, ha="left", va="center", fontsize=7.5, color=INK, bbox=halo())


def _case(line: WorstLine) -> str:
    speed = fmt.fixed(line.stream_speed, fmt.SPEED, 2)
    gone = f"{line.lost} lost, " if line.lost else ""
    return f"{gone}{line.state}, {speed}"


def _title(worst: Sequence[WorstLine]) -> str:
    known = [w for w in worst if math.isfinite(w.strength)]
    if not known:
        return "Slow tension of the lines; no strength is known"
    first = max(known, key=_most)
    use = fmt.quantity(_most(first), fmt.SHARE, 2)
    verb = "passes its limit" if _most(first) > 1.0 else "is used most"
    name = label(first.name, 22)
    return f"{name[0].upper()}{name[1:]} {verb}: {use} of what its factor leaves, {label(_case(first), 40)}"
