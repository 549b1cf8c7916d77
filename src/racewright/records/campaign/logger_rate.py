"""The rate at which a logger's rows come, by their times; loads no numerical library."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median

from racewright.errors import InputError

FEWEST = 20
"""Rows from which a rate is told."""
OFF = 0.1
"""Share by which the rate of the times may differ from the one that is stated. Own choice: less shows as gaps."""


def rate_of(times: Sequence[float]) -> float | None:
    """Rows a second by their times, gaps and a coarse clock borne; None of too few rows or a standing clock [Hz]."""
    if len(times) < FEWEST:
        return None
    half = len(times) // 2
    long = median(times[i + half] - times[i] for i in range(len(times) - half))
    return half / long if long > 0.0 else None


def check_rate(times: Sequence[float], stated: float, file: str) -> None:
    """Refuse a stated rate that the times contradict.

    Parameters
    ----------
    times : sequence of float
        Of some hundred rows [s].
    stated : float
        [Hz]
    file : str
        Its name, for the message.

    Raises
    ------
    InputError
        Its key is 'logger.rate'.
    """
    found = rate_of(times)
    if found is None or abs(found / stated - 1.0) <= OFF:
        return
    word = "faster" if found > stated else "slower"
    message = (
        f"{file}: its rows come {word} than the stated rate of {stated:g} Hz; by its times they come at about"
        f" {found:.3g} Hz, so rate = '{found:.3g} Hz' may be meant"
    )
    raise InputError(message, key="trials.logger.rate")
