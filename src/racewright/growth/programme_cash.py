"""Cash of a programme by quarter, over many draws of cost, time and gates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.growth.programme import QUARTER, DevelopmentStep, Programme
from racewright.supply.chance import Chance, draw
from racewright.supply.money import Terms
from racewright.supply.quantiles import Quantiles, quantiles
from racewright.supply.streams import stream
from racewright.tick import Tick, silent
from racewright.uncertainty.correlation import Correlation

Floats = NDArray[np.float64]

_AT_ONCE = 2000


@dataclass(frozen=True, slots=True)
class ProgrammeCash:
    """Cash by quarter from the first day, no prize in it; what comes in is above 0.

    Attributes
    ----------
    terms : Terms
    expected : ndarray, shape (q,)
        Mean cash of each quarter [currency].
    if_all_pass : ndarray, shape (q,)
        The same over the draws in which every gate is passed; zeros when there are none [currency].
    sum_low, sum_middle, sum_high : ndarray, shape (q,)
        10, 50 and 90 % of the draws lie below these sums up to the end of each quarter [currency].
    deepest : Quantiles
        Greatest sum that was ever out, as a positive number: what must be raised [currency].
    finished : float
        Share of draws in which every gate is passed [-].
    stopped_at : ndarray, shape (steps,)
        Share of draws that stop at each step's gate [-].
    time_to_prize : Quantiles or None
        Over the draws that finish [s].
    draws, seed : int
    """

    terms: Terms
    expected: Floats
    if_all_pass: Floats
    sum_low: Floats
    sum_middle: Floats
    sum_high: Floats
    deepest: Quantiles
    finished: float
    stopped_at: Floats
    time_to_prize: Quantiles | None
    draws: int
    seed: int


def programme_cash(
    programme: Programme,
    *,
    seed: int,
    draws: int = 10_000,
    correlations: Sequence[Correlation] = (),
    tick: Tick = silent,
) -> ProgrammeCash:
    """Draw a programme: each step spends evenly over its time, then its gate is passed or all stops.

    Parameters
    ----------
    programme : Programme
        Its name is the case of the draws.
    seed : int
        0 or more.
    draws : int
        100 to 1 000 000; default 10 000: a chance is good to half a percent.
    correlations : sequence of Correlation
        Between '<step>: cost' and '<step>: time' of any steps; costs that overrun together belong here.
    tick : Tick

    Raises
    ------
    InputError
        Unknown names in correlations, draws out of range.
    """
    if isinstance(draws, bool) or not isinstance(draws, int) or not 100 <= draws <= 1_000_000:
        raise InputError(f"{draws!r} draws; wanted 100 to 1000000")
    steps, name = programme.steps, programme.name
    drawn = draw([c for step in steps for c in _chances(step)], draws, seed, case=name, correlations=correlations)
    passes = np.array([stream(seed, "gate", name, step.name).random(draws) < step.chance for step in steps])
    cost, time = (np.array([drawn[f"{step.name}: {what}"] for step in steps]) for what in ("cost", "time"))
    end = np.cumsum(time, axis=0)
    going = np.vstack((np.ones((1, draws), dtype=bool), np.logical_and.accumulate(passes, axis=0)))
    quarters = int(np.ceil(float(np.where(going[:-1], end, 0.0).max()) / QUARTER + 1e-9))
    table = np.zeros((draws, quarters))
    for start in range(0, draws, _AT_ONCE):
        tick(start / draws)
        part = slice(start, start + _AT_ONCE)
        _spend(table[part], steps, cost[:, part], time[:, part], end[:, part], going[:, part])
    tick(1.0)
    total = np.cumsum(table, axis=1)
    done = going[-1]
    low, middle, high = np.quantile(total, (0.1, 0.5, 0.9), axis=0)
    return ProgrammeCash(
        terms=programme.terms,
        expected=table.mean(axis=0),
        if_all_pass=table[done].mean(axis=0) if done.any() else np.zeros(quarters),
        sum_low=low,
        sum_middle=middle,
        sum_high=high,
        deepest=quantiles(np.maximum(-total.min(axis=1), 0.0)),
        finished=float(done.mean()),
        stopped_at=np.mean(going[:-1] & ~passes, axis=1),
        time_to_prize=quantiles(end[-1][done]) if done.any() else None,
        draws=draws,
        seed=seed,
    )


def _chances(step: DevelopmentStep) -> tuple[Chance, Chance]:
    cost, time = step.cost.amount, step.time
    return (
        Chance(f"{step.name}: cost", step.cost_low * cost, cost, step.cost_high * cost),
        Chance(f"{step.name}: time", step.time_low * time, time, step.time_high * time),
    )


def _spend(
    table: Floats,
    steps: tuple[DevelopmentStep, ...],
    cost: Floats,
    time: Floats,
    end: Floats,
    going: NDArray[np.bool_],
) -> None:
    """Write the cash of each draw and quarter into `table`."""
    edge = QUARTER * np.arange(table.shape[1] + 1)
    rows = np.arange(table.shape[0])
    for i, step in enumerate(steps):
        spent = np.clip((edge - (end[i] - time[i])[:, None]) / time[i][:, None], 0.0, 1.0)
        table -= np.where(going[i], cost[i], 0.0)[:, None] * np.diff(spent, axis=1)
        quarter = np.minimum((end[i] / QUARTER).astype(np.int64), table.shape[1] - 1)
        for money, when in ((step.income, going[i + 1]), (step.rest, going[i] & ~going[i + 1])):
            if money is not None:
                table[rows[when], quarter[when]] += money.amount
