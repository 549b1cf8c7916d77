"""House style of the drawings: palette, type, sheet."""

from __future__ import annotations

import functools
import textwrap
from collections.abc import Callable
from typing import Any, ParamSpec, TypeVar

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.colors import ListedColormap, to_rgba
from matplotlib.figure import Figure

P = ParamSpec("P")
T = TypeVar("T")

WIDE = 6.5
"""Width on a page and on a desk screen [in]."""
NARROW = 3.7
"""Width on a phone [in]."""

PAPER = "#fefefe"
INK = "#1d2429"
SOFT = "#59656d"
RULE = "#c6cdd2"
ACCENT = "#0e5a6b"
SECOND = "#a85a14"
WATER = "#e5eff2"
BED = "#cdbfa3"
BODY = "#46525a"

DARK = {
    PAPER: "#14191c",
    INK: "#e6eaec",
    SOFT: "#a3aeb5",
    RULE: "#39434a",
    ACCENT: "#74c5d4",
    SECOND: "#e3a55c",
    WATER: "#1c2a30",
    BED: "#4a4233",
    BODY: "#b4bfc6",
}
"""What each colour becomes on a dark screen."""

_RC: dict[str, Any] = {
    "font.family": ["DejaVu Sans"],
    "font.size": 8.0,
    "text.color": INK,
    "text.parse_math": False,
    "axes.edgecolor": SOFT,
    "axes.linewidth": 0.6,
    "axes.labelcolor": INK,
    "axes.labelsize": 8.0,
    "axes.facecolor": "none",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.unicode_minus": True,
    "axes.axisbelow": True,
    "figure.facecolor": "none",
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "xtick.labelsize": 7.5,
    "ytick.labelsize": 7.5,
    "xtick.major.width": 0.6,
    "ytick.major.width": 0.6,
    "xtick.major.size": 3.0,
    "ytick.major.size": 3.0,
    "grid.color": RULE,
    "grid.linewidth": 0.5,
    "lines.linewidth": 1.6,
    "lines.solid_capstyle": "round",
    "hatch.linewidth": 0.5,
    "svg.fonttype": "path",
    "svg.hashsalt": "racewright",
    "path.simplify": True,
}


def in_house_style(draw: Callable[P, T]) -> Callable[P, T]:
    """Run a drawing (or saving) function under the house style; the settings of the process are put back."""

    @functools.wraps(draw)
    def styled(*args: P.args, **kwargs: P.kwargs) -> T:
        with mpl.rc_context():
            mpl.rcdefaults()
            mpl.rcParams.update(_RC)  # type: ignore[arg-type]
            return draw(*args, **kwargs)

    return styled


def is_narrow(width: float) -> bool:
    """True where the drawing is for a phone."""
    return width < 5.0


def sheet(width: float, height: float, title: str) -> Figure:
    """An empty figure with its title at the top left, broken to the width."""
    figure = Figure(figsize=(width, height), layout="constrained")
    figure.get_layout_engine().set(w_pad=0.05, h_pad=0.05)  # type: ignore[union-attr, call-arg]
    figure.suptitle(
        _balanced(title, int(width * 12.2)),
        x=0.012,
        ha="left",
        fontsize=9.0,
        fontweight="bold",
        linespacing=1.25,
    )
    return figure


def _balanced(text: str, width: int) -> str:
    """Lines of about equal length: the narrowest setting that takes no more lines than `width` does."""
    lines = _lines(text, width)
    while width > 12 and len(_lines(text, width - 1)) == len(lines):
        width -= 1
    return "\n".join(_lines(text, width))


def _lines(text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, break_on_hyphens=False)


def grid(axes: Axes, which: str = "y") -> None:
    """Faint lines across."""
    axes.grid(visible=True, axis=which)  # type: ignore[arg-type]
    axes.tick_params(length=0, axis=which)  # type: ignore[arg-type]


def bare_names(axes: Axes) -> None:
    """Names of rows at the left without an axis line or ticks beside them."""
    axes.spines["left"].set_visible(False)
    axes.tick_params(axis="y", length=0)


def halo(colour: str = PAPER) -> dict[str, Any]:
    """Box behind a label that stands on lines."""
    return {"facecolor": colour, "edgecolor": "none", "pad": 1.4, "alpha": 1.0}


def shades(colour: str, steps: int) -> ListedColormap:
    """Steps from faint to full of one colour of the palette, by opacity, so that they turn dark with the page.

    Parameters
    ----------
    colour : str
        Of the palette.
    steps : int
        1 or more.
    """
    return ListedColormap([to_rgba(colour, (k + 1.0) / steps) for k in range(steps)])
