"""The two-row machine beside bare fast rotors: signed differences, whichever way they go."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    SECOND,
    SOFT,
    bare_names,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.dossier.neighbours_view import Against

_PARTS = (("struck_flow", "struck"), ("deadly_flow", "killed"))


@in_house_style
def draw(rows: Sequence[Against], width: float, *, invented: bool) -> Figure:
    """Of a stream that carries fish evenly: struck and killed, against each bare rotor.

    Parameters
    ----------
    rows : sequence of Against
        Not empty.
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the fish are invented.
    """
    narrow = is_narrow(width)
    rivals = list(dict.fromkeys(row.against for row in rows))
    fish = list(dict.fromkeys(row.fish for row in rows))
    bars = len(_PARTS) * len(fish)
    figure = sheet(
        width,
        (1.0 + 0.3 * bars) * (len(rivals) if narrow else 1) + 0.35,
        invented_title(_title(rows), invented=invented),
    )
    panels = figure.subplots(len(rivals), 1) if narrow else figure.subplots(1, len(rivals), sharey=True)
    reach = max(20.0, *(100.0 * abs(getattr(row, key)) for row in rows for key, _word in _PARTS))
    for axes, rival in zip(panels, rivals, strict=True):
        y, names = 0, []
        for row in (r for r in rows if r.against == rival):
            for key, word in _PARTS:
                value = 100.0 * getattr(row, key)
                axes.barh(y, value, height=0.62, color=SECOND if value > 0.0 else ACCENT)
                sign = "+" if round(value) > 0 else "\u2212" if round(value) < 0 else ""
                side = 1.0 if value >= 0.0 else -1.0
                axes.text(
                    value + side * 0.02 * reach, y, f"{sign}{abs(value):.0f}\u202f%", va="center",
                    ha="left" if value >= 0.0 else "right", fontsize=7.5, color=INK,
                )  # fmt: skip
                names.append(f"{label(row.fish, 14)}, {word}")
                y += 1
        axes.axvline(0.0, color=SOFT, linewidth=0.8)
        axes.set_yticks(range(len(names)), names)
        axes.set_ylim(len(names) - 0.4, -0.6)
        axes.set_xlim(-1.45 * reach, 1.45 * reach)
        axes.set_title(f"against a {rival}", fontsize=8.0, loc="left")
        bare_names(axes)
        axes.set_xlabel("machine less bare rotor, over it, %")
        grid(axes, "x")
    return figure


def _title(rows: Sequence[Against]) -> str:
    worse = [row for row in rows if row.struck_flow > 0.005]
    if not worse:
        return "Of a stream's fish the two-row machine strikes fewer than bare rotors do"
    names = " and ".join(dict.fromkeys(label(row.fish, 14) for row in worse))
    return f"Of {names} in the stream the two-row machine strikes more than a bare rotor"
