"""Numbers and names of the trials for tables and sentences."""

from __future__ import annotations

import math
import re

from racewright.dossier import format as fmt
from racewright.dossier.document import Heading, Text
from racewright.dossier.text import clean, signs
from racewright.dossier.trials_view import Shown, half_width
from racewright.trials.result import Measured

TIME = (fmt.Scale("s", 1.0), fmt.Scale("min", 60.0), fmt.Scale("h", 3600.0))
FAST_WATER = (
    "Beside and over a channel of fast water: rails, life jackets, a second person who watches, and a way out of the"
    " water downstream. The rules of the channel's owner and local rules for work on and near water decide."
)
HANDS = (
    "No hand and no diver near the rotor while water can turn it: a stopped rotor starts when a piece comes loose."
    " Stop the water or lift the model, lock the shaft, then clear. Local rules for machines and for diving decide."
)


def with_half(value: float, half: float) -> str:
    """'0.498 ± 0.011': three decimals, four where the half-width is below 0.002."""
    if not (math.isfinite(value) and math.isfinite(half)):
        return fmt.UNKNOWN
    if half <= 0.0:
        return fmt.number(value, 3)
    places = 4 if half < 0.002 else 3
    return f"{fmt.number(value, places)} \u00b1 {fmt.number(half, places)}"


def percent(confidence: float) -> str:
    """A confidence in words."""
    return f"{100.0 * confidence:g}{fmt.THIN}%"


def measured(one: Measured, confidence: float) -> str:
    """A coefficient with half of its interval at a confidence."""
    return with_half(one.value, half_width(one, confidence))


def coefficient(value: float | None, places: int = 3) -> str:
    """A coefficient, or a dash where there is none."""
    return "\u2013" if value is None else fmt.number(value, places)


def named(shown: Shown) -> str:
    """Run and number of a reading."""
    return f"{clean(shown.run)} {shown.number}"


def percent_off(value: float) -> str:
    """A signed share in percent."""
    sign = "+" if value > 0.0 else ""
    return f"{sign}{fmt.fixed(value, fmt.SHARE, 1)}"


def counted(count: int, word: str) -> str:
    """'1 reading', '2 readings'."""
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def without_figures(reason: str) -> str:
    """A reason of refusal without its figures, so that like reasons meet."""
    bare = re.sub(r"(?:^|\s)[+\-]?\d[\d.]*(?:e[+\-]?\d+)?(?:-fold|\s*%(?: of)?)?", "", signs(reason))
    return re.sub(r"\s+", " ", bare).strip(" ,;")


def section(title: str, why: str) -> tuple[Heading, Text]:
    """A heading with the sentence that stands for what is not there."""
    return Heading(title), Text(why)
