"""Rules of records, histograms and debris that need no numerical library: `check` and the readers keep the same."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from racewright.errors import InputError

SHORTEST = 19
"""Fewest values from which the plotting position m/(N+1) gives both Q95 and Q5."""


def too_short(values: int) -> str:
    """What to say of a record with fewer values."""
    return f"the record has {values} values; at least {SHORTEST} are needed to tell low and high water (Q95, Q5)"


FASTEST = 20.0
"""No water here is faster [m/s]."""
SUM_TOLERANCE = 0.01
"""Shares are scaled to exactly 1 when their sum is this near to it [-]."""


def check_joined(low: Sequence[float], high: Sequence[float]) -> None:
    """Raise InputError when a bin does not start where the one before it ends [m/s]."""
    for i in range(1, len(low)):
        if not abs(low[i] - high[i - 1]) <= 1e-9:
            raise InputError(
                f"bin {i + 1} starts at {low[i]:g} m/s but bin {i} ends at {high[i - 1]:g} m/s; bins must "
                "follow on, without gap or overlap, in growing order"
            )


def check_bins(edge: Sequence[float], share: Sequence[float]) -> None:
    """Raise InputError unless edges grow from 0 m/s or more to at most 20 m/s and shares sum to 1 within 0.01.

    Parameters
    ----------
    edge : sequence of float
        One more than shares [m/s].
    share : sequence of float
        Fraction of time in each bin [-].
    """
    if len(edge) != len(share) + 1:
        raise InputError(f"{len(share)} shares want {len(share) + 1} bin edges; there are {len(edge)}")
    if edge[0] < 0.0 or edge[-1] > FASTEST or any(b <= a for a, b in pairwise(edge)):
        raise InputError("the histogram's edges must grow, from 0 m/s or more to at most 20 m/s")
    total = sum(share)
    if any(s < 0.0 for s in share) or abs(total - 1.0) > SUM_TOLERANCE + 1e-12:
        raise InputError(
            f"the histogram's shares must be 0 or more and sum to 1 (100 %) within 0.01; they sum to {total:.4g}"
        )


def check_grid(speed: Sequence[float], current: Sequence[float]) -> None:
    """Raise InputError unless a generator's rows hold every speed with every current once, currents from 0 on.

    Parameters
    ----------
    speed, current : sequence of float
        One of each a row: generator speed [rad/s], direct current [A].
    """
    speeds, currents, pairs = set(speed), set(current), set(zip(speed, current, strict=True))
    if len(speeds) < 2 or len(currents) < 2:
        raise InputError(
            f"the generator's rows hold {len(speeds)} speeds and {len(currents)} currents; two or more of each are"
            " wanted"
        )
    if min(speeds) <= 0.0 or min(currents) != 0.0:
        raise InputError("a generator's rows want speeds above 0, and currents from 0 A (turning without load) on")
    if len(speeds) * len(currents) != len(speed) or len(pairs) != len(speed):
        raise InputError(
            f"the generator's {len(speeds)} speeds and {len(currents)} currents ask for {len(speeds) * len(currents)}"
            f" rows, every speed with every current once; found {len(speed)}, of them {len(pairs)} different"
        )


OUTCOMES = ("passed", "struck and passed", "lodged", "missed the duct")
PLACES = ("none", "inlet", "vane row", "rotor", "between rows", "behind the rotor")
CLEARINGS = ("not needed", "by itself", "rotor stopped", "rotor reversed", "by hand", "not cleared")
"""What may be said of a piece of debris: its outcome, where it was struck or lodged, how it came out."""


def check_piece(dose: str, outcome: str, where: str, cleared: str, held: float) -> None:
    """Refuse words off the lists and stories that contradict themselves; `held` in s, blank words as by default."""
    for word, words in ((outcome, OUTCOMES), (where, PLACES), (cleared, CLEARINGS)):
        if word not in words:
            raise InputError(f"dose {dose!r}: {word!r} is none of {', '.join(words)}")
    lodged, touched = outcome == "lodged", outcome in ("lodged", "struck and passed")
    if touched == (where == "none"):
        raise InputError(f"dose {dose!r}: a piece that {outcome} cannot stand with place {where!r}")
    if lodged == (cleared == "not needed"):
        raise InputError(f"dose {dose!r}: a piece that {outcome} cannot be cleared {cleared!r}")
    if not (math.isfinite(held) and held >= 0.0) or (held > 0.0 and not lodged):
        raise InputError(f"dose {dose!r}: held {held!r} s; wanted 0 or more, above 0 only if lodged")


def seconds_held(text: str, decimal: str) -> float:
    """Seconds that a piece stayed, a blank for none; InputError without file and line [s]."""
    try:
        return float(text.replace(",", ".") if decimal == "comma" else text) if text else 0.0
    except ValueError:
        raise InputError(f"{text!r} is no number of seconds; a number like '12.5' is wanted") from None
