"""Fouling: a slow loss of torque at equal flow and rotor speed, its time and size, and what cleaning gives back.

What it cannot tell apart: a speed probe that fouls by itself, a torque calibration that changes by more than its
zero, and a real change of the machine.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtri

from racewright.errors import InputError
from racewright.trials.trend import Tried, enough, fits

Floats = NDArray[np.float64]
Z_ALARM = 4.0
LEAST_LOSS = 0.01
LOOK = 300.0
FIRST_LOOK = 900.0
"""An alarm wants a loss above 1 % and above 4 standard uncertainties, looked for every 5 minutes from minute 15 on.
Own choices, set by counting on invented records: nine onsets and ten looks an hour multiply false alarms."""


@dataclass(frozen=True)
class Fouling:
    """What a run shows of fouling.

    Attributes
    ----------
    found : bool
        Whether any look raised the alarm.
    alarm_time : float or None
        The first look that did, after the record's start [s].
    loss, loss_low, loss_high : float
        Share of the torque lost at the end of the run or just before cleaning, with its 95 % interval; the
        interval spans every onset and exponent that fits [-].
    onset : float
        Best fitting beginning of the loss [s].
    recovered, recovered_low, recovered_high : float or None
        Share of the torque that the cleaning gave back, with its 95 % interval; None where nothing was cleaned [-].
    threshold : str
        What an alarm wants, in words.
    """

    found: bool
    alarm_time: float | None
    loss: float
    loss_low: float
    loss_high: float
    onset: float
    recovered: float | None
    recovered_low: float | None
    recovered_high: float | None
    threshold: str


def fouling(
    time: ArrayLike,
    stream_speed: ArrayLike,
    rotor_speed: ArrayLike,
    torque: ArrayLike,
    *,
    cleaned: float | None = None,
    zero_wander: float = 0.0,
    tare_after: bool = False,
    exponents: tuple[float, float] = (1.0, 4.0),
) -> Fouling:
    """Look for fouling in a run at one load.

    Parameters
    ----------
    time, stream_speed, rotor_speed, torque : array_like, shape (n,)
        Means over equal stretches, e.g. 10 s, of a run without change of load: [s], cube mean [m/s], [rad/s],
        [N m] with the zero taken off.
    cleaned : float, optional
        When the machine was cleaned, inside the run [s].
    zero_wander : float
        Random walk of the torque's zero after one second [N m / s^0.5].
    tare_after : bool
        Whether a tare after the run has tied the zero down too. Alarms are looked for as they would have been
        raised during the run, from the tare before alone.
    exponents : tuple of float
        Range of the torque's exponent in the stream speed at held rotor speed, 2 - dlnCQ/dlnTSR;
        `torque_exponent` narrows it by readings at other loads. Without slow changes of the flow to learn from,
        this range decides how much of a steady drift of the flow may be fouling [-].

    Returns
    -------
    Fouling

    Raises
    ------
    InputError
        Rows that do not fit together, too few of them, or speeds and torques that are not above 0.
    """
    t, u, w, q = _door(time, stream_speed, rotor_speed, torque)
    end = math.inf if cleaned is None else float(cleaned)
    before = t < end
    if not 0.0 <= exponents[0] < exponents[1] <= 20.0:
        raise InputError(f"exponents are {exponents!r}; wanted two rising numbers of 0 or more, e.g. (1.0, 4.0)")
    if not enough(int(before.sum())):
        raise InputError("fouling wants at least 24 rows before the cleaning, e.g. 4 minutes of 10 s means")
    if cleaned is not None and int((~before).sum()) < 3:
        raise InputError("a cleaning wants at least 3 rows after it; leave it out where the run ended")
    alarm = _first_alarm(t[before], u[before], w[before], q[before], zero_wander, exponents)
    tried = fits(t, u, w, q, exponents, end)
    doubt = _zero_doubt(zero_wander, float(t[before][-1] - t[0]), float(q[before].mean()), tare_after)
    best = tried.best()
    loss = _interval(tried, tried.fall, np.hypot(tried.fall_error, doubt))
    back: tuple[float | None, float | None, float | None] = (None, None, None)
    if cleaned is not None:
        back = _interval(tried, tried.fall - tried.after, tried.gap_error)
    return Fouling(
        found=alarm is not None,
        alarm_time=alarm,
        loss=loss[0],
        loss_low=loss[1],
        loss_high=loss[2],
        onset=float(tried.onset[best[0]]),
        recovered=back[0],
        recovered_low=back[1],
        recovered_high=back[2],
        threshold=f"loss above {100 * LEAST_LOSS:g} % and above {Z_ALARM:g} standard uncertainties, looked for every "
        f"{LOOK / 60:g} min from minute {FIRST_LOOK / 60:g} on",
    )


def _interval(tried: Tried, value: Floats, error: Floats) -> tuple[float, float, float]:
    """Best share of torque and the 95 % interval over every onset and exponent that fits."""
    k = float(ndtri(0.975))
    near = tried.near(k)
    low, high = float((value - k * error)[near].min()), float((value + k * error)[near].max())
    return -math.expm1(-float(value[tried.best()])), -math.expm1(-low), -math.expm1(-high)


def _door(*rows: ArrayLike) -> tuple[Floats, Floats, Floats, Floats]:
    t, u, w, q = (np.asarray(r, np.float64) for r in rows)
    if t.ndim != 1 or not (t.shape == u.shape == w.shape == q.shape):
        raise InputError("time, stream speed, rotor speed and torque must be rows of equal length")
    for name, x in (("time", t), ("stream speed", u), ("rotor speed", w), ("torque", q)):
        if not np.isfinite(x).all():
            raise InputError(f"{name} holds a number that is not finite; leave such rows out")
        if name != "time" and not (x > 0.0).all():
            raise InputError(f"{name} must stay above 0 through a run at one load")
    if not (np.diff(t) > 0.0).all():
        raise InputError("time must rise from row to row")
    return t, u, w, q


def _zero_doubt(wander: float, seconds: float, torque: float, tied: bool) -> float:
    """Standard deviation of the fall that a wandering zero feigns [-].

    A random walk of variance s^2 T over the run gives a least-squares line a rise of variance 6/5 s^2 T; with
    the zero tied down at both ends 1/5 s^2 T.
    """
    return wander * math.sqrt((0.2 if tied else 1.2) * seconds) / torque


def _first_alarm(
    t: Floats, u: Floats, w: Floats, q: Floats, wander: float, exponents: tuple[float, float]
) -> float | None:
    looks: Sequence[float] = np.arange(t[0] + FIRST_LOOK, t[-1] + LOOK, LOOK).tolist()
    for look in looks:
        seen = t <= look
        if enough(int(seen.sum())):
            doubt = _zero_doubt(wander, float(t[seen][-1] - t[0]), float(q[seen].mean()), False)
            tried = fits(t[seen], u[seen], w[seen], q[seen], exponents)
            if _alarm(tried, doubt):
                return float(min(look, t[-1]))
    return None


def _alarm(tried: Tried, doubt: float) -> bool:
    """Whether, whatever the exponent, some onset wants the alarm."""
    limit = np.maximum(LEAST_LOSS, Z_ALARM * np.hypot(tried.fall_error, doubt))
    wanted = (tried.fall > limit)[:, tried.kept]
    return all(bool(column.any()) for column in wanted.T)
