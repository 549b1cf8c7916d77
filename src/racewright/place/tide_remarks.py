"""What a reader must know of a harmonic analysis."""

from __future__ import annotations

from racewright.place.tide_result import Tide
from racewright.place.tide_table import form_word
from racewright.remark import Remark

DAY = 86400.0
MONTH = 29.53 * DAY
"""Two fortnights of springs and neaps [s]."""
SURVEY = 35.0 * DAY
"""Record that a first study wants, longer for the layout of machines (IEC TS 62600-201, from memory) [s]."""
WIDE_GAP = 0.20
"""Missing share from which it is told; own rule [-]."""
LEAST_EXPLAINED = 0.80
"""Explained variance below which the site is not mainly tidal; own rule [-]."""
CUBE_OFF = 0.03
"""Difference of the mean cubes from which it is told; own rule [-]."""


def tide_remarks(tide: Tide, *, coloured: bool) -> tuple[Remark, ...]:
    """Length, gaps, constituents not told apart, unexplained variance, mean cube, errors."""
    remarks = [*_length(tide), *_apart(tide), *_form(tide)]
    if tide.missing > WIDE_GAP:
        text = f"{100.0 * tide.missing:.0f} % of the time between first and last stamp is missing."
        remarks.append(Remark("caution", text, "tidal record"))
    if tide.explained is not None and tide.explained < LEAST_EXPLAINED:
        text = (
            f"The tide explains {100.0 * max(0.0, tide.explained):.0f} % of the record's variance; the rest is "
            "weather, river, turbulence or a fault of the instrument, and no prediction holds it."
        )
        remarks.append(Remark("warning", text, "tidal record"))
    if tide.cube_ratio is not None and abs(tide.cube_ratio - 1.0) > CUBE_OFF:
        text = (
            f"The record's mean cube is {tide.cube_ratio:.3f} times that of its tide: turbulence, noise and "
            "weather are not in a prediction."
        )
        remarks.append(Remark("note", text, "mean cube"))
    if not coloured:
        text = "The stamps are many and uneven: errors are those of white noise, too small near slow weather."
        remarks.append(Remark("note", text, "errors"))
    return tuple(remarks)


def _length(tide: Tide) -> list[Remark]:
    span = float(tide.last - tide.first)
    if span >= SURVEY:
        return []
    text = (
        f"The record is {span / DAY:.3g} d long; about 35 d are wanted for a first study, 90 d later (from memory)."
    )
    return [Remark("caution" if span >= MONTH else "warning", text, "tidal record")]


def _apart(tide: Tide) -> list[Remark]:
    """One remark for each constituent that the record is too short for."""
    held = f"{(tide.last - tide.first) / DAY:.3g} d"
    if tide.told_apart < tide.last - tide.first:
        held += f" with such gaps, which tell no more than {tide.told_apart / DAY:.3g} d without"
    remarks = []
    for row in tide.unseparated:
        text = f"{row.name} cannot be told from {row.neighbour} in {held}; {row.wanted / DAY:.4g} d are wanted. " + (
            "It follows its neighbour by the ratio of the equilibrium tide."
            if row.inferred
            else "What it does is left in its neighbour."
        )
        severe = row.name in ("S2", "O1") or not row.inferred
        remarks.append(
            Remark("warning" if row.name == "S2" else "caution" if severe else "note", text, "constituents")
        )
    return remarks


def _form(tide: Tide) -> list[Remark]:
    if tide.form_factor is None:
        return []
    text = f"The tide is {form_word(tide.form_factor)}: (K1 + O1) / (M2 + S2) is {tide.form_factor:.2f}."
    return [Remark("note", text, "form of the tide")]
