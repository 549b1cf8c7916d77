"""Populations of logs: draws, encounters, yearly chances."""

from __future__ import annotations

from dataclasses import replace
from math import exp, pi

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError, NoAnswerError
from racewright.holding.log_body import Log, wetted_height
from racewright.holding.log_draws import YEAR, Front, draw_logs
from racewright.holding.log_exceedance import figures_of, level_of_chance, yearly_chance
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_first_blow import first_blow
from racewright.holding.strike_tether import Tether, front_tether
from racewright.holding.strike_two_phase import two_phase
from tests.holding.machines import machine, strike

SPEEDS = np.array([1.0, 2.0, 3.0])
SHARES = np.array([0.3, 0.5, 0.2])
DRIFTWOOD = LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (1e-6, 2e-5))
DEAD_HEADS = LogKind("dead-heads", "upright", 3.0, 0.4, 0.25, 0.3, 6.0, 950.0, 1100.0, (0.0, 1e-6))
SUNKEN = LogKind("waterlogged", "submerged", 2.0, 0.5, 0.2, 0.3, 8.0, 980.0, 1050.0, (0.0, 1e-6))
POPULATION = LogPopulation(
    (DRIFTWOOD, DEAD_HEADS, SUNKEN),
    (Season("low water", 0.8, SPEEDS * 0.5, SHARES), Season("flood", 0.2, SPEEDS, SHARES)),
)
FRONT = Front(0.6, 0.1, 1.2)


def test_deep_water_lets_floating_logs_pass_over() -> None:
    """With 3 m of water over the machine in the fast stream none floats into it there; slow ones still do."""
    front = Front(0.6, 0.1, 1.2, ((1.0, 0.1), (2.0, 3.0)))
    assert front.cover_at(np.array([0.5, 1.5, 3.0])) == pytest.approx([0.1, 1.55, 3.0])
    drawn = draw_logs(POPULATION, front, 200, np.random.Generator(np.random.PCG64(3)))
    floats = np.array([POPULATION.kinds[k].attitude == "floating" for k in drawn.kind])
    assert floats.any()
    assert drawn.speed[floats].max() < 2.0
    whole = draw_logs(POPULATION, FRONT, 200, np.random.Generator(np.random.PCG64(3)))
    assert drawn.encounters < whole.encounters
    assert whole.speed.max() >= 2.0
    with pytest.raises(InputError, match="must grow"):
        Front(0.6, 0.1, 1.2, ((2.0, 0.1), (1.0, 0.1)))


def held(speed: float) -> Tether:
    return front_tether(20e3, 450.0 * speed**2, 20.0, 0.3, 8e3)


def random(seed: int = 1) -> np.random.Generator:
    return np.random.Generator(np.random.PCG64(seed))


def test_encounters_of_logs_all_alike() -> None:
    """Logs end-on of 0.3 m at 1e-6 a second and metre meet a front of 1.2 m in (1.2 + 0.3) m."""
    kind = replace(
        DRIFTWOOD,
        length=3.0,
        length_spread=0.0,
        diameter=0.3,
        diameter_spread=0.0,
        heading_spread=0.0,
        passing=(1e-6,),
    )
    people = LogPopulation((kind,), (Season("year", 1.0, SPEEDS, SHARES, exposed=0.5),))
    found = draw_logs(people, replace(FRONT, cover=0.0), 1000, random())
    assert found.encounters == pytest.approx(1e-6 * 0.5 * YEAR * 1.5, rel=1e-9)
    assert np.max(np.abs(found.offset)) <= 0.75
    assert np.mean(found.offset) == pytest.approx(0.0, abs=0.06)
    passing = SHARES * SPEEDS / np.sum(SHARES * SPEEDS)
    assert np.mean(found.speed == 3.0) == pytest.approx(passing[2], abs=0.05)


def test_depth_decides_who_meets_the_machine() -> None:
    """Under 1 m of cover no driftwood reaches it, dead-heads longer than that and waterlogged logs do."""
    deep = draw_logs(POPULATION, replace(FRONT, cover=1.0), 500, random())
    assert not np.any(deep.kind == 0)
    upright = deep.kind == 1
    assert np.all(deep.length[upright] > 1.0)
    assert np.all((deep.struck_depth[upright] > 1.0) & (deep.struck_depth[upright] < 2.2))
    only = LogPopulation((DRIFTWOOD,), POPULATION.seasons)
    with pytest.raises(NoAnswerError, match="reaches down"):
        draw_logs(only, replace(FRONT, cover=5.0), 100, random())


def test_seasons_and_widths_weigh() -> None:
    """Floods carry 4 of 5 logs here; logs kept are longer than those that pass, for they sweep more width."""
    found = draw_logs(POPULATION, FRONT, 4000, random())
    wood = found.kind == 0
    share = 0.2 * 2e-5 / (0.2 * 2e-5 + 0.8 * 1e-6)
    assert np.mean(found.season[wood] == 1) == pytest.approx(share, abs=0.03)
    assert np.median(found.length[wood]) > 2.5


def test_chance_of_a_year() -> None:
    """1 - exp(-rate share), limits about it that a level nobody passes keeps above 0."""
    draws = replace(draw_logs(POPULATION, FRONT, 1000, random()), encounters=10.0, encounter_error=0.0)
    values = np.arange(1000.0)
    found = yearly_chance(values, [899.5, 2000.0], draws)
    assert found.passed.tolist() == [100, 0]
    assert found.chance[0] == pytest.approx(1.0 - exp(-1.0), rel=1e-12)
    assert found.low[0] < found.chance[0] < found.high[0]
    assert found.chance[1] == 0.0
    assert found.high[1] == pytest.approx(1.0 - exp(-10.0 * 0.003682), rel=1e-3)
    level = level_of_chance(values, 1.0 - exp(-1.0), draws)
    assert level is not None
    assert level[1] == pytest.approx(899.0, abs=1.0)
    assert level[0] < level[1] < level[2]
    assert level_of_chance(values, 0.01, draws) is None


def test_confidence_covers() -> None:
    """Of 200 samples of 200 strikes, the 90 % limits hold the true chance in 90 % or more (exact limits)."""
    draws = replace(draw_logs(POPULATION, FRONT, 200, random()), encounters=5.0, encounter_error=0.0)
    true = 1.0 - exp(-5.0 * 0.1)
    draw = np.random.default_rng(2)
    inside = 0
    for _ in range(200):
        found = yearly_chance(draw.random(200), [0.9], draws, confidence=0.9)
        inside += bool(found.low[0] <= true <= found.high[0])
    assert inside >= 0.9 * 200 - 8


def test_monte_carlo() -> None:
    """Same seed, same answer; another, another; forces scale with the root of stiffness; figures carry cautions."""
    one, two, three = (
        log_exceedance(POPULATION, machine(), held, FRONT, strikes=120, seed=seed) for seed in (1, 1, 2)
    )
    assert np.array_equal(one.slow, two.slow)
    assert np.array_equal(one.first_low, two.first_low)
    assert not np.array_equal(one.slow, three.slow)
    assert np.all(one.answered)
    assert one.first_high == pytest.approx(one.first_low * (61.294392 / 2.4) ** 0.5, rel=1e-9)
    assert one.parting.level.tolist() == [8e3]
    assert any(r.about == "few draws" for r in one.remarks)
    rare = replace(one.draws, encounters=10.0)
    figures, few = figures_of(one.first_low, one.first_high, one.slow, rare, 0.95)
    assert [f.name for f in figures] == [
        "first-blow force passed in one year of 2",
        "slow line tension passed in one year of 2",
    ]
    assert few
    for figure in figures:
        assert figure.safety.caution
        assert figure.safety.basis
        assert figure.safety.edition
        assert ("impact" in figure.name) is False
        assert (figure.value is None) is ("first-blow" in figure.name)
    assert any(r.about == "log population" for r in one.remarks)


def test_one_strike_of_the_population_is_a_strike() -> None:
    """The draw's force is the closed form without the correction for turning, its tension near the finer run's."""
    found = log_exceedance(POPULATION, machine(), held, FRONT, strikes=20, seed=3)
    for i in range(20):
        kind = POPULATION.kinds[int(found.draws.kind[i])]
        log = Log(found.draws.length[i], found.draws.diameter[i], found.draws.density[i], kind.attitude)
        one = replace(
            strike(log=log, restitution=0.3, friction=0.4),
            tether=held(float(found.draws.speed[i])),
            stream_speed=float(found.draws.speed[i]),
            heading=float(found.draws.heading[i]),
            offset=float(found.draws.offset[i]),
            struck_depth=float(found.draws.struck_depth[i]) if kind.attitude == "upright" else None,
        )
        if found.first_low[i] == 0.0:
            continue
        assert found.first_low[i] == pytest.approx(first_blow(one).force.low, rel=0.3)
        both = two_phase(one)
        assert 0.93 * both.slow_tension.low < found.slow[i] < 1.07 * both.slow_tension.high


def test_wetted_height() -> None:
    """Half the area at half the height; all of it at the whole."""
    assert wetted_height(0.5) == pytest.approx(0.5, abs=1e-9)
    assert wetted_height(1.0) == pytest.approx(1.0, abs=1e-9)
    half_angle = pi / 3.0
    share = (half_angle - np.sin(half_angle) * np.cos(half_angle)) / pi
    assert wetted_height(float(share)) == pytest.approx(0.25, abs=1e-9)


def test_doors() -> None:
    def stop(_done: float) -> None:
        raise Cancelled("stopped")

    with pytest.raises(Cancelled):
        log_exceedance(POPULATION, machine(), held, FRONT, strikes=10, tick=stop)
    with pytest.raises(InputError, match="strikes"):
        log_exceedance(POPULATION, machine(), held, FRONT, strikes=3)
    with pytest.raises(InputError, match="passing rates"):
        LogPopulation((replace(DRIFTWOOD, passing=(1e-6,)),), POPULATION.seasons)
    with pytest.raises(InputError, match="sum to more"):
        LogPopulation((DRIFTWOOD,), (POPULATION.seasons[0], POPULATION.seasons[0]))
    with pytest.raises(InputError, match="sum to 1"):
        Season("x", 0.5, SPEEDS, SHARES * 0.5)
    with pytest.raises(InputError):
        replace(DRIFTWOOD, length=float("nan"))
    with pytest.raises(NoAnswerError, match="No log passes"):
        draw_logs(LogPopulation((replace(DRIFTWOOD, passing=(0.0, 0.0)),), POPULATION.seasons), FRONT, 10, random())
    draws = draw_logs(POPULATION, FRONT, 10, random())
    with pytest.raises(InputError, match="one a draw"):
        yearly_chance(np.zeros(9), [1.0], draws)
