"""Where the power that the whole machine takes from the stream goes: the outside book as steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    RULE,
    SOFT,
    bare_names,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)


@dataclass(frozen=True)
class Part:
    """One part of the book.

    Attributes
    ----------
    name : str
        Who takes it.
    power : float
        [W]
    useful : bool
        True for shaft power.
    """

    name: str
    power: float
    useful: bool = False


@in_house_style
def draw(total: float, parts: Sequence[Part], width: float) -> Figure:
    """Drag times stream speed on top, then each part where the one before it ends.

    Parameters
    ----------
    total : float
        Total axial force times stream speed, > 0 [W].
    parts : sequence of Part
        Their sum is the total within the book's tolerance.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    rows = len(parts) + 1
    figure = sheet(width, 0.85 + 0.27 * rows, _title(total, parts))
    axes = figure.add_subplot()
    scale = fmt.pick(fmt.POWER, total)
    whole = total / scale.factor
    axes.barh(0, whole, height=0.62, color=BODY)
    _label(axes, whole, 0, f"{fmt.quantity(total, fmt.POWER)}", whole, narrow)
    left = 0.0
    for place, part in enumerate(parts, start=1):
        size = part.power / scale.factor
        axes.plot([left, left], [place - 1.31 + 0.62, place + 0.31], color=RULE, linewidth=0.8, zorder=0)
        axes.barh(place, size, left=left, height=0.62, color=ACCENT if part.useful else SOFT)
        left += size
        share = fmt.fixed(part.power / total, fmt.SHARE, 1)
        words = share if narrow else f"{fmt.quantity(_clear(part.power, total), fmt.POWER)}, {share}"
        _label(axes, max(left, left - size), place, words, whole, narrow)
    axes.set_yticks(range(rows), ["drag × stream speed", *(p.name for p in parts)])
    axes.set_ylim(rows - 0.45, -0.55)
    axes.set_xlim(min(0.0, left, *(0.0,)), whole * (1.3 if narrow else 1.22))
    bare_names(axes)
    axes.set_xlabel(f"power, {scale.unit}")
    grid(axes, "x")
    return figure


def _label(axes: object, x: float, y: float, words: str, whole: float, narrow: bool) -> None:
    axes.text(  # type: ignore[attr-defined]
        x + 0.012 * whole, y, words, ha="left", va="center", fontsize=7 if narrow else 7.5, color=INK
    )


def _clear(power: float, total: float) -> float:
    """Nought for what is below a millionth of the whole."""
    return 0.0 if abs(power) < 1e-6 * total else power


def _title(total: float, parts: Sequence[Part]) -> str:
    useful = sum(p.power for p in parts if p.useful) / total
    rest = [p for p in parts if not p.useful]
    worst = max(rest, key=lambda p: p.power) if rest else None
    said = f"Of the power that the stream loses to the machine {fmt.quantity(useful, fmt.SHARE, 2)} reach the shaft"
    return said if worst is None else f"{said}; most of the rest goes to {worst.name}"
