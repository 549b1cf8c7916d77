"""Where the machine hangs over the speeds of the stream, by load state."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.holding_shape import Floats
from racewright.dossier.figures.house import INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import invented_title, label
from racewright.dossier.figures.state_lines import key, stroke
from racewright.holding.statics_sweep import Statics


class _Panel(NamedTuple):
    title: str
    axis: str
    values: Floats
    limit: float | None


@in_house_style
def draw(
    table: Statics,
    width: float,
    *,
    cover: float | None = None,
    bed_clearance: float | None = None,
    invented: bool = False,
) -> Figure:
    """Cover, bed clearance, pitch, roll, offset and greatest slow tension over stream speed.

    Crosses stand where the layout settled but does not hold; where it did not settle the line is broken.

    Parameters
    ----------
    table : Statics
    width : float
        Width of the figure [in].
    cover, bed_clearance : float, optional
        Least that is wanted, drawn as a line [m].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    panels = _panels(table, cover, bed_clearance)
    rows, columns = (6, 1) if narrow else (3, 2)
    figure = sheet(width, 1.55 * rows + 1.2, invented_title(_title(table), invented=invented))
    views = np.asarray(figure.subplots(rows, columns, sharex=True)).ravel()
    for axes, panel in zip(views, panels, strict=True):
        _panel(axes, table, panel)
    for axes in views[-columns:]:
        axes.set_xlabel("stream speed, m/s")
    key(figure, table.states, 2 if narrow else 3)
    return figure


def _panels(table: Statics, cover: float | None, clear: float | None) -> tuple[_Panel, ...]:
    with np.errstate(invalid="ignore"):
        pull = np.max(table.tension, axis=2)
    force = fmt.pick(fmt.FORCE, float(np.nanmax(pull)) if np.isfinite(pull).any() else 1.0)
    return (
        _Panel("cover over the highest point", "m", table.cover, cover),
        _Panel("water under the lowest point", "m", table.bed_clearance, clear),
        _Panel("pitch, nose up", "degrees", np.degrees(table.pitch), None),
        _Panel("roll", "degrees", np.degrees(table.roll), None),
        _Panel("offset from the intended place", "m", table.offset, None),
        _Panel("slow tension of the line that pulls most", force.unit, pull / force.factor, None),
    )


def _panel(axes: Axes, table: Statics, panel: _Panel) -> None:
    for s in range(len(table.states)):
        one = stroke(s)
        axes.plot(table.stream_speed, panel.values[s], color=one.colour, linestyle=one.dashes, linewidth=1.4)
        fails = table.settled[s] & ~table.feasible[s]
        at, value = table.stream_speed[fails], panel.values[s][fails]
        axes.plot(at, value, linestyle="none", marker="x", markersize=4.5, color=SECOND)
    if panel.limit is not None:
        axes.axhline(panel.limit, color=INK, linewidth=0.9, dashes=(2, 2))
        axes.annotate(
            "least wanted", (0.0, panel.limit), (3, 2), xycoords=("axes fraction", "data"),
            textcoords="offset points", ha="left", va="bottom", fontsize=7.0, color=SOFT, bbox=halo(),
        )  # fmt: skip
    axes.set_title(panel.title, fontsize=8, loc="left")
    axes.set_ylabel(panel.axis)
    axes.margins(y=0.12)
    grid(axes)


def _title(table: Statics) -> str:
    fails = table.settled & ~table.feasible
    lost = f" with {label(table.lost, 24)} lost" if table.lost else ""
    if not table.settled.any():
        return f"No rest was found at any speed{lost}"
    if fails.any():
        s, u = (int(i[0]) for i in np.nonzero(fails))
        speed = fmt.fixed(float(table.stream_speed[u]), fmt.SPEED, 2)
        where = f"{label(table.states[s], 30)} at {speed} ({table.reason[s][u]})"
        return f"Crosses: the layout does not hold{lost}, first in {where}"
    least = np.unravel_index(int(np.nanargmin(table.bed_clearance)), table.bed_clearance.shape)
    clear = fmt.fixed(float(table.bed_clearance[least]), fmt.LENGTH, 2)
    speed = fmt.fixed(float(table.stream_speed[int(least[1])]), fmt.SPEED, 2)
    unsettled = "" if table.settled.all() else "; gaps: no rest found"
    return f"Nearest to the bed{lost}: {clear} in {label(table.states[int(least[0])], 30)} at {speed}{unsettled}"
