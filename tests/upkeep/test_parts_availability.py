"""Availability from parts and waits against a simulation, event by event, within 1 %."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.uncertainty import Band
from racewright.upkeep.parts import YEAR, MachinePart, rate_between_failures, sure_band
from racewright.upkeep.parts_availability import parts_availability
from tests.upkeep.renewal import Simulated, simulate

DAY = 86400.0


def part(between: float, wait: float, mend: float = 0.0, name: str = "part", **more) -> MachinePart:
    """All times in days."""
    return MachinePart(name, sure_band(1.0 / (between * DAY)), sure_band(mend * DAY), sure_band(wait * DAY), **more)


@pytest.mark.parametrize("spread", ["fixed", "exponential"])
@pytest.mark.parametrize(("between", "wait", "wanted"), [(120.0, 14.0, 0.8955), (60.0, 30.0, 0.6667)])
def test_one_part_flown_in(between: float, wait: float, wanted: float, spread) -> None:
    found = parts_availability((part(between, wait),)).share.value
    assert found == pytest.approx(wanted, abs=5e-5)
    seen = simulate([Simulated(between * DAY, wait * DAY, 0.0, spread=spread)], 40_000, 1)
    assert found == pytest.approx(seen, rel=0.01)


MIXES = {
    "one spare": [Simulated(60 * DAY, 30 * DAY, 1 * DAY, held=1)],
    "one spare, waits that vary": [Simulated(60 * DAY, 30 * DAY, 1 * DAY, held=1, spread="exponential")],
    "two spares, slow order": [Simulated(40 * DAY, 60 * DAY, 0.5 * DAY, held=2)],
    "six blades, one spare": [Simulated(400 * DAY, 45 * DAY, 2 * DAY, count=6, held=1)],
    "three kinds": [
        Simulated(200 * DAY, 21 * DAY, 1 * DAY),
        Simulated(90 * DAY, 14 * DAY, 0.5 * DAY, held=1),
        Simulated(700 * DAY, 60 * DAY, 3 * DAY, count=2, spread="exponential"),
    ],
    "spares beside long waits": [
        Simulated(68 * DAY, 83 * DAY, 5 * DAY, held=2),
        Simulated(140 * DAY, 41 * DAY, 8 * DAY, held=1, spread="exponential"),
        Simulated(200 * DAY, 120 * DAY, 0.3 * DAY, spread="exponential"),
    ],
    "with a life": [
        Simulated(300 * DAY, 21 * DAY, 1 * DAY, life=180 * DAY, planned=2 * DAY),
        Simulated(150 * DAY, 10 * DAY, 1 * DAY, held=1),
    ],
}


@pytest.mark.parametrize("name", MIXES)
def test_mixes_of_parts(name: str) -> None:
    mix = MIXES[name]
    parts = tuple(
        part(
            one.between / DAY,
            one.wait / DAY,
            one.mend / DAY,
            name=str(i),
            held=one.held,
            count=one.count,
            life=one.life,
            planned_time=one.planned,
        )
        for i, one in enumerate(mix)
    )
    assert parts_availability(parts).share.value == pytest.approx(simulate(mix, 60_000, 3), rel=0.01)


def test_times_that_vary_exponentially_are_exact() -> None:
    """Mending takes a third of the time between failures: each path of the chain counts. Noise 0.2 %."""
    mix = [Simulated(30 * DAY, 60 * DAY, 10 * DAY, held=1, spread="exponential")]
    found = parts_availability((part(30.0, 60.0, 10.0, held=1),)).share.value
    assert found == pytest.approx(simulate(mix, 150_000, 5), rel=0.006)


def test_no_parts_and_no_failures_are_always_up() -> None:
    assert parts_availability(()).share.value == 1.0
    never = MachinePart("x", sure_band(0.0), sure_band(DAY), sure_band(DAY))
    found = parts_availability((never,))
    assert (found.share.value, found.rows[0].mean_stop, found.failures) == (1.0, 0.0, 0.0)


def test_a_life_without_failures_is_a_plain_cycle() -> None:
    """180 days, two days' work: 180/182; two a year and a little."""
    worn = MachinePart(
        "x", sure_band(0.0), sure_band(0.0), sure_band(0.0), life=180 * DAY, planned_time=2 * DAY, price=100.0
    )
    found = parts_availability((worn,))
    assert found.share.value == pytest.approx(180.0 / 182.0)
    assert found.rows[0].planned == pytest.approx(365.0 / 182.0)
    assert found.parts_cost == pytest.approx(100.0 * 365.0 / 182.0)


def test_the_band_moves_each_part_alone() -> None:
    """Wait 7 to 28 days about 14 for one part, nothing for the other: ends of T/(T + w)."""
    wide = replace(part(120.0, 14.0), wait=Band(7 * DAY, 14 * DAY, 28 * DAY, "invented"))
    found = parts_availability((wide,))
    assert found.share.low == pytest.approx(120.0 / 148.0)
    assert found.share.high == pytest.approx(120.0 / 127.0)
    assert (found.worst, found.best) == pytest.approx((120.0 / 148.0, 120.0 / 127.0))
    both = parts_availability((wide, replace(wide, name="other")))
    assert found.share.value > both.share.value
    assert both.worst < both.share.low < both.share.value < both.share.high < both.best
    assert both.rows[0].low == both.rows[1].low


PARTS = st.builds(
    lambda b, w, m, held, count: part(b, w, m, held=held, count=count),
    st.floats(1.0, 3000.0),
    st.floats(0.0, 400.0),
    st.floats(0.0, 60.0),
    st.integers(0, 6),
    st.integers(1, 8),
)


@given(PARTS)
def test_bounds_and_directions(one: MachinePart) -> None:
    found = parts_availability((one,))
    assert 0.0 < found.share.value <= 1.0
    assert found.worst <= found.share.low <= found.share.value <= found.share.high <= found.best
    better = parts_availability((replace(one, held=one.held + 1),)).share.value
    assert better >= found.share.value - 1e-12
    row = found.rows[0]
    assert row.failures * row.mean_stop == pytest.approx(row.lost_share * YEAR, abs=1e-3)
    assert row.mean_wait <= one.wait.value * (1.0 + 1e-9)


def test_the_part_to_blame_is_named_first() -> None:
    found = parts_availability((part(600.0, 5.0, name="bearing"), part(60.0, 20.0, name="seal")))
    assert [row.name for row in found.rows] == ["seal", "bearing"]
    assert any("seal costs most" in remark.text for remark in found.remarks)
    assert any("safe water" in remark.text for remark in found.remarks)


def test_times_between_failures_become_a_rate() -> None:
    band = rate_between_failures(60 * DAY, 120 * DAY, 240 * DAY, "invented")
    assert (1.0 / band.high, 1.0 / band.value, 1.0 / band.low) == pytest.approx((60 * DAY, 120 * DAY, 240 * DAY))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: parts_availability((part(1.0, 1.0), part(2.0, 1.0))), "named twice"),
        (lambda: replace(part(1.0, 1.0), wait=Band(2.0, 1.0, 3.0, "x")), "low <= value <= high"),
        (lambda: replace(part(1.0, 1.0), failure_rate=sure_band(float("nan"))), "failure rate"),
        (lambda: part(1.0, 1.0, count=0), "count"),
        (lambda: part(1.0, 1.0, held=-1), "spares"),
        (lambda: part(1.0, 1.0, life=0.0), "life"),
        (lambda: part(1.0, 1.0, price=-1.0), "price"),
        (lambda: rate_between_failures(0.0, 1.0, 2.0, "x"), "times between"),
    ],
)
def test_bad_parts_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
