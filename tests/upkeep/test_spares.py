"""Spares by the cost of lost energy: against all combinations, and at the ends."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.upkeep.parts import YEAR, MachinePart, sure_band
from racewright.upkeep.parts_availability import parts_availability
from racewright.upkeep.spares import choose_spares

DAY, KWH = 86400.0, 3.6e6


def part(name: str, between: float, wait: float, price: float, count: int = 1) -> MachinePart:
    rate = sure_band(1.0 / (between * DAY))
    return MachinePart(name, rate, sure_band(0.5 * DAY), sure_band(wait * DAY), count=count, price=price)


PARTS = (
    part("seal", 200.0, 20.0, 60.0),
    part("bearing", 900.0, 30.0, 300.0),
    part("generator", 3000.0, 90.0, 6000.0),
)
POWER, WORTH, HOLDING = 2.5e3, 0.5 / KWH, 0.12


def money(parts: tuple[MachinePart, ...], power: float = POWER, holding: float = HOLDING) -> float:
    share = parts_availability(parts).share.value
    return power * YEAR * WORTH * share - holding * sum(p.held * p.price for p in parts)


@settings(max_examples=25, deadline=None)
@given(
    st.tuples(st.floats(20.0, 4000.0), st.floats(1.0, 120.0), st.floats(1.0, 9e3)),
    st.tuples(st.floats(20.0, 4000.0), st.floats(1.0, 120.0), st.floats(1.0, 9e3)),
    st.floats(100.0, 1e4),
)
def test_no_other_choice_is_worth_more(one, other, power) -> None:
    parts = (part("one", *one), part("other", *other, count=3))
    found = choose_spares(parts, power, WORTH, HOLDING)
    chosen = tuple(replace(p, held=row.held) for p, row in zip(parts, found.rows, strict=True))
    best = max(
        money(tuple(replace(p, held=h) for p, h in zip(parts, held, strict=True)), power)
        for held in product(range(7), repeat=2)
    )
    assert money(chosen, power) >= best * (1.0 - 1e-4)


def test_what_is_told_adds_up() -> None:
    found = choose_spares(PARTS, POWER, WORTH, HOLDING)
    chosen = tuple(replace(p, held=row.held) for p, row in zip(PARTS, found.rows, strict=True))
    assert found.with_spares == parts_availability(chosen)
    assert found.without == parts_availability(PARTS)
    assert found.money_kept == pytest.approx(money(chosen) - money(PARTS))
    assert found.tied_up == pytest.approx(sum(p.held * p.price for p in chosen))
    assert found.holding == pytest.approx(HOLDING * found.tied_up)
    assert found.rows[0].held >= 1  # the seal fails twice a year and costs little
    assert found.rows[2].held == 0  # the generator hardly ever fails and costs most
    assert found.with_spares.share.value > found.without.share.value


def test_nothing_to_lose_holds_nothing_and_free_spares_are_held() -> None:
    assert choose_spares(PARTS, 0.0, WORTH, HOLDING).tied_up == 0.0
    assert choose_spares(PARTS, POWER, 0.0, HOLDING).tied_up == 0.0
    free = choose_spares(PARTS, POWER, WORTH, 0.0)
    assert min(row.held for row in free.rows) >= 2
    assert choose_spares((), POWER, WORTH, HOLDING).rows == ()


def test_dearer_energy_never_holds_fewer() -> None:
    held = [
        [row.held for row in choose_spares(PARTS, POWER, worth / KWH, HOLDING).rows]
        for worth in (0.1, 0.5, 2.0, 10.0)
    ]
    assert all(a <= b for few, many in pairwise(held) for a, b in zip(few, many, strict=True))


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ((PARTS, -1.0, WORTH, HOLDING), "mean power"),
        ((PARTS, POWER, float("nan"), HOLDING), "worth of energy"),
        ((PARTS, POWER, WORTH, 2.0), "holding rate"),
        (((PARTS[0], PARTS[0]), POWER, WORTH, HOLDING), "named twice"),
    ],
)
def test_bad_input_is_refused(given, words: str) -> None:
    with pytest.raises(InputError, match=words):
        choose_spares(*given)
