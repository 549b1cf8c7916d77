"""Charts: a title that says what is shown, axes with quantity and unit, lines named where they run."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from nicegui import ui
from numpy.typing import ArrayLike, NDArray

from racewright.desk.look.lettering import button, words
from racewright.desk.look.palette import NAMED


@dataclass(frozen=True)
class Line:
    """One line, or row of marks, of a chart.

    Attributes
    ----------
    x, y : array_like, shape (n,)
        In the units that the axes name; None or NaN leaves a gap.
    label : str
        Written where the line ends.
    colour : str
        A name of `palette.NAMED`.
    mark : {'line', 'points', 'both', 'steps', 'bars'}
    dash : str
        'solid', 'dash' or 'dot': lines differ by more than colour.
    low, high : array_like, shape (n,), optional
        The band that the values lie in, drawn behind.
    """

    x: ArrayLike
    y: ArrayLike
    label: str = ""
    colour: str = "accent"
    mark: str = "line"
    dash: str = "solid"
    low: ArrayLike | None = None
    high: ArrayLike | None = None


def chart(
    title: str,
    lines: Sequence[Line],
    *,
    x: str,
    y: str,
    name: str,
    height: int = 320,
    more: dict[str, Any] | None = None,
    traces: Sequence[dict[str, Any]] = (),
) -> ui.plotly:
    """A chart that can be saved as SVG, PNG and CSV.

    Parameters
    ----------
    title : str
        A sentence that says what is seen.
    lines : sequence of Line
    x, y : str
        Quantity and unit, like 'stream speed, m/s'.
    name : str
        File name of what is saved, without ending.
    height : int
        [px]
    more : dict, optional
        Further layout of the chart library, laid over the house style.
    traces : sequence of dict
        Further traces of the chart library.
    """
    with ui.element("figure").classes("chart"):
        with ui.element("figcaption"):
            words("span", title, "title")
        drawn = [t for line in lines for t in _traces(line)]
        plot = ui.plotly({"data": [*drawn, *traces], "layout": _layout(lines, x, y, more), "config": _CONFIG})
        plot.style(f"height: {height}px; width: 100%").props("role=img")
        plot.props["aria-label"] = f"{title}. Horizontal: {x}; vertical: {y}."
        with ui.element("div").classes("saves"):
            _save(plot, "SVG", "svg", name, height)
            _save(plot, "PNG", "png", name, height)
            content = _csv(lines, x, y).encode()
            button("CSV", lambda: ui.download.content(content, f"{name}.csv"), "copy", title=f"save {name} as CSV")
    return plot


_CONFIG = {"displayModeBar": False, "scrollZoom": False, "displaylogo": False, "responsive": False}
"""`static/desk.js` gives charts their size: the kit would size one that is being taken away, and complain."""


def _layout(lines: Sequence[Line], x: str, y: str, more: dict[str, Any] | None) -> dict[str, Any]:
    axis = {
        "zeroline": False,
        "showline": True,
        "linecolor": NAMED["soft"],
        "gridcolor": NAMED["rule"],
        "tickcolor": NAMED["soft"],
        "ticks": "outside",
        "ticklen": 4,
        "automargin": True,
        "separatethousands": True,
    }
    named = [line for line in lines if line.label]
    layout: dict[str, Any] = {
        "paper_bgcolor": "rgba(0,0,0,0)",
        "plot_bgcolor": "rgba(0,0,0,0)",
        "font": {"family": "Race Sans, DejaVu Sans, sans-serif", "size": 12, "color": NAMED["ink"]},
        "margin": {"l": 56, "r": 16, "t": 10, "b": 44},
        "xaxis": {**axis, "title": {"text": x, "standoff": 8}, "showgrid": False},
        "yaxis": {**axis, "title": {"text": y, "standoff": 8}, "showline": False, "ticks": ""},
        "showlegend": False,
        "hovermode": "x unified",
        "hoverlabel": {"bgcolor": NAMED["paper"], "bordercolor": NAMED["rule"], "font": {"color": NAMED["ink"]}},
        "dragmode": "zoom",
        "annotations": [_label(line) for line in named] if len(named) > 1 else [],
        "separators": ". ",
    }
    for key, value in (more or {}).items():
        old = layout.get(key)
        layout[key] = {**old, **value} if isinstance(old, dict) and isinstance(value, dict) else value
    return layout


def _numbers(values: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(values, dtype=np.float64)


def _traces(line: Line) -> list[dict[str, Any]]:
    colour = NAMED[line.colour]
    x = _horizontal(line.x)
    found: list[dict[str, Any]] = []
    if line.low is not None and line.high is not None:
        edge = {"type": "scatter", "mode": "lines", "x": x, "line": {"width": 0}, "hoverinfo": "skip"}
        shade = {"fill": "tonexty", "fillcolor": _faint(colour)}
        found += [{**edge, "y": _numbers(line.low)}, {**edge, "y": _numbers(line.high), **shade}]
    trace: dict[str, Any] = {"x": x, "y": _numbers(line.y), "name": line.label}
    if line.mark == "bars":
        return [*found, {**trace, "type": "bar", "marker": {"color": colour}}]
    modes = {"line": "lines", "steps": "lines", "points": "markers", "both": "lines+markers"}
    trace |= {
        "type": "scatter",
        "mode": modes[line.mark],
        "line": {"color": colour, "width": 2, "dash": line.dash, "shape": "hv" if line.mark == "steps" else "linear"},
        "marker": {"color": colour, "size": 7},
    }
    return [*found, trace]


def _horizontal(values: ArrayLike) -> Any:
    """Numbers as an array; words and dates as they are."""
    array = np.asarray(values)
    return array if array.dtype.kind in "fiu" else array.tolist()


def _label(line: Line) -> dict[str, Any]:
    """The name of a line where it ends."""
    x, y = np.asarray(line.x), _numbers(line.y)
    last = int(np.flatnonzero(np.isfinite(y))[-1]) if np.isfinite(y).any() else 0
    return {
        "x": x[last].item() if x.size else 0,
        "y": float(y[last]) if y.size and np.isfinite(y[last]) else 0.0,
        "text": line.label,
        "font": {"color": NAMED[line.colour], "size": 12},
        "showarrow": False,
        "xanchor": "right",
        "yanchor": "bottom",
        "bgcolor": "rgba(0,0,0,0)",
    }


def _faint(colour: str) -> str:
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},0.18)"


def _csv(lines: Sequence[Line], x: str, y: str) -> str:
    """Every line one below the other: its label, x, y and band."""
    out = io.StringIO()
    write = csv.writer(out)
    write.writerow(["line", x, y, "low", "high"])
    for line in lines:
        across, values = np.asarray(line.x).tolist(), _numbers(line.y)
        low = [None] * len(values) if line.low is None else _numbers(line.low).tolist()
        high = [None] * len(values) if line.high is None else _numbers(line.high).tolist()
        for row in zip(across, values.tolist(), low, high, strict=True):
            write.writerow([_cell(line.label), *row])
    return out.getvalue()


def _cell(text: str) -> str:
    """Text that no sheet takes for a formula."""
    return f"'{text}" if text[:1] in "=+-@" else text


def _save(plot: ui.plotly, word: str, kind: str, name: str, height: int) -> None:
    made = words("button", word, "copy").props("type=button")
    made.props["title"] = f"save {name} as {word}"
    options = f"{{format: '{kind}', filename: '{name}', width: 900, height: {max(height, 420)}}}"
    made.on("click", js_handler=f"() => getElement({plot.id}).run_plot_method('downloadImage', {options})")
