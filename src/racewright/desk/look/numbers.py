"""A number with its unit, its range, and a button that copies it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from nicegui import ui

from racewright.desk.look.lettering import words
from racewright.dossier import format as fmt
from racewright.uncertainty import Band


@contextmanager
def figures() -> Iterator[None]:
    """Figures beside each other, as many as fit."""
    with ui.element("dl").classes("figures"):
        yield


def figure(label: str, value: str, band: str = "", *, say: str = "") -> None:
    """One number, inside `figures`.

    Parameters
    ----------
    label : str
        What it is.
    value : str
        Number and unit, from `dossier.format`; the copy button gives just that.
    band : str
        Its range with the unit; '' where it has none.
    say : str
        A few words more.
    """
    with ui.element("div").classes("figure"):
        words("dt", label)
        with ui.element("dd"):
            with ui.element("span").classes("value"):
                words("span", value, "number")
                copy = words("button", "copy", "copy").props("type=button")
                copy.props["data-copy"] = f"{value} ({band})" if band else value
                copy.props["aria-label"] = f"copy {label}"
            if band:
                words("span", band, "band")
            if say:
                words("span", say, "say")


def banded(band: Mapping[str, Any], scales: tuple[fmt.Scale, ...]) -> fmt.BandText:
    """A band of a page's data in words: `.value` and `.range`."""
    return fmt.band(Band(band["low"], band["value"], band["high"], str(band.get("basis", ""))), scales)


def against_saved(value: float, before: float | None, digits: int) -> str:
    """The change against the saved version in per cent, to so many digits; '' without one or from nothing."""
    if not before:
        return ""
    share = 100.0 * (value / before - 1.0)
    if abs(share) < 0.005:
        return "as in the saved version"
    return f"{'+' if share > 0 else ''}{fmt.number(share, digits)}{fmt.THIN}% against the saved version"
