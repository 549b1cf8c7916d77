"""First blows, code forms and slow answers against closed forms and published rules."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.holding import strike_codes as codes
from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.log_body import Log
from racewright.holding.strike_estimates import code_estimates
from racewright.holding.strike_first_blow import head_on_blow
from racewright.holding.strike_machine import StruckMachine, blunt_outline
from racewright.holding.strike_run import StrikeRun, integrate_strike, run_from, steps_for
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_slow import slow_response
from racewright.holding.strike_spectrum import R_MAX, R_MAX_RATIO, code_factor, half_sine_factor
from racewright.holding.strike_tether import Tether
from racewright.holding.strike_touch import first_touch
from tests.external.record import Record
from tests.external.supply_rows import rows

TON = 453.59237
FEET = 0.3048
POUND_FORCE = 4.4482216152605
SOFT, STIFF = 2.4e6, 61.294392e6
TWO_MASSES = "two free masses and a linear spring (momentum and energy); stiffness of Haehnel & Daly (2002, 2004)"
CODE = "ASCE 7-05 C5.4.5; form from memory (95 %), object and time read"


def impact_row(model: str, start: str = "") -> float:
    table = rows("holding_debris_impact")
    found = [r for r in table if r["model"] == model and (r["inputs"] == start or not start)]
    assert len(found) == 1, model
    return float(found[0]["value"])


def check_row(quantity: str) -> float:
    found = [r for r in rows("holding_strike_checks") if r["quantity"] == quantity]
    assert len(found) == 1, quantity
    return float(found[0]["expected"])


@pytest.mark.outside(source=TWO_MASSES, status="closed form", tolerance="1e-6")
def test_floating_log_two_stages(record_property: Record) -> None:
    blow = head_on_blow(TON, 500.0, 2.5)
    slow = slow_response(TON, 500.0, 2.5, Tether(20e3))
    pairs = [
        (blow.blows[0].force, check_row("floating log contact peak")),
        (blow.effective_mass, impact_row("same, reduced mass")),
        (slow.plastic.speed, check_row("plastic common speed")),
        (slow.plastic.lost, check_row("plastic energy lost")),
        (slow.plastic.rise, check_row("plastic tether peak")),
        (slow.elastic.speed, check_row("elastic machine speed")),
        (slow.elastic.rise, check_row("elastic tether peak")),
    ]
    miss = max(abs(found / wanted - 1.0) for found, wanted in pairs)
    record_property("measured", f"{miss:.0e}")
    assert miss < 1e-6
    assert slow.plastic.travel == pytest.approx(check_row("plastic tether travel"), rel=1e-5)
    assert slow.tension.value is None
    assert (slow.tension.low, slow.tension.high) == (slow.plastic.rise, slow.elastic.rise)


def head_on_strike(tether_stiffness: float, *, fixed: bool = False, restitution: float = 1.0) -> Strike:
    """A log of 1000 lb end-on at 2.5 m/s."""
    log = Log(6.4, 0.3, TON / (0.25 * np.pi * 0.3**2 * 6.4))
    machine = StruckMachine(blunt_outline(0.6, 0.8), 500.0, 650.0, 120.0, fixed=fixed)
    return Strike(log, machine, Tether(tether_stiffness), 2.5, friction=0.0, restitution=restitution)


def without_drag(strike: Strike, steps_in_contact: int, until: float) -> StrikeRun:
    touch = first_touch(strike)
    assert touch is not None
    plane = strike.plane(SOFT)
    log = plane.log._replace(drag_along=0.0, drag_across=0.0)
    steps = steps_for(strike, SOFT, steps_in_contact, until)
    return run_from(strike, touch, touch.state, plane._replace(log=log), steps)


@pytest.mark.outside(
    source=f"{TWO_MASSES}; integrations by an independent solver: 59 736.5 N and 7520.61 N",
    status="closed form",
    tolerance="0.1 % of the closed form, 1e-6 and 1e-4 (sampled at coarse steps) of the others",
)
def test_integration_meets_both_stages(record_property: Record) -> None:
    run = without_drag(head_on_strike(20e3), 1000, 0.4)
    record_property("measured", f"{run.first_peak / 59728.57 - 1.0:+.2e} and {run.first_peak / 59736.546 - 1.0:+.1e}")
    assert run.first_peak == pytest.approx(check_row("floating log contact peak"), rel=1e-3)
    assert run.first_peak == pytest.approx(59736.546, rel=1e-6)
    assert run.slow_tension.high == pytest.approx(check_row("elastic tether peak"), rel=1e-3)
    assert run.slow_tension.high == pytest.approx(7520.612, rel=1e-4)


@pytest.mark.outside(
    source=TWO_MASSES, status="closed form", tolerance="0.1 % (a massless target would change it 3 times)"
)
def test_a_softer_tether_does_not_soften_the_first_blow(record_property: Record) -> None:
    hard, soft = (integrate_strike(head_on_strike(k), SOFT, until=0.1).first_peak for k in (20e3, 2e3))
    record_property("measured", f"{abs(hard / soft - 1.0):.1e}")
    assert abs(hard / soft - 1.0) < 1e-3
    series = codes.series_form(TON, 2.5, SOFT, 20e3)
    assert series == pytest.approx(impact_row("series compliance, massless target"), rel=1e-5)
    blow = head_on_blow(TON, 500.0, 2.5)
    assert blow.force.low > 7.0 * series


@pytest.mark.outside(
    source="mass on a linear spring, k of Haehnel & Daly (2002) and ASCE 7-16", status="closed form", tolerance="1e-6"
)
def test_log_on_a_rigid_mount(record_property: Record) -> None:
    blow = head_on_blow(TON, float("inf"), 2.5)
    miss = abs(blow.blows[0].force / check_row("rigid mount force") - 1.0)
    record_property("measured", f"{miss:.0e}")
    assert miss < 1e-6
    assert blow.blows[0].half_period == pytest.approx(check_row("half period"), rel=1e-6)
    stiff = head_on_blow(TON, float("inf"), 1.0).blows[-1].force
    assert stiff == pytest.approx(check_row("stiff log"), rel=1e-5)
    assert head_on_blow(TON, float("inf"), 1.0).blows[0].force == pytest.approx(32994.3, rel=1e-5)


@pytest.mark.outside(source="mass on a linear spring", status="closed form", tolerance="1e-5; a step of its duration")
def test_integration_meets_the_rigid_mount(record_property: Record) -> None:
    run = without_drag(head_on_strike(20e3, fixed=True), 400, 0.2)
    record_property("measured", f"{run.first_peak / 82485.67 - 1.0:+.1e}, {1e3 * run.first_duration:.3f} ms")
    assert run.first_peak == pytest.approx(82485.67, rel=1e-5)
    assert run.first_duration == pytest.approx(0.0431894, abs=2.0 * 0.0431894 / run.first_steps)


@pytest.mark.outside(
    source="Haehnel & Daly (2002) 2.4 MN/m; ASCE 7-16 tsunami chapter 350 kip/in (from memory, 90 %)",
    status="published",
    tolerance="exact",
)
def test_contact_stiffness_is_a_range() -> None:
    values = [one.value for one in contact_stiffnesses()]
    assert values == [SOFT, STIFF]
    code = 350e3 * POUND_FORCE / 0.0254
    assert code == pytest.approx(STIFF, rel=1e-6)
    blow = head_on_blow(TON, 500.0, 2.5)
    assert blow.force.value is None
    assert blow.force.high / blow.force.low == pytest.approx((STIFF / SOFT) ** 0.5, rel=1e-12)


@pytest.mark.outside(
    source="half-sine shock spectrum, recomputed; exact pi/2 at 1/2",
    status="computed",
    tolerance="0.003; pi/2 to 1e-4",
)
def test_half_sine_spectrum(record_property: Record) -> None:
    table = rows("holding_debris_rmax")
    assert len(table) == 14
    miss = max(abs(half_sine_factor(float(r["td_over_Tn"])) - float(r["Rmax_halfsine_computed"])) for r in table)
    record_property("measured", f"{miss:.4f}")
    assert miss < 0.003
    assert half_sine_factor(0.5) == pytest.approx(check_row("half-sine spectrum"), abs=1e-4)


@pytest.mark.outside(
    source="ASCE 7-05 table C5-4, Rmax; from memory (90 %)",
    status="from memory",
    tolerance="table exact; 0.08 of the spectrum",
)
def test_response_ratio_table(record_property: Record) -> None:
    miss = 0.0
    for row in rows("holding_debris_rmax"):
        ratio, wanted = float(row["td_over_Tn"]), float(row["Rmax_ASCE7_C5_table_MEMORY"])
        assert code_factor(ratio) == pytest.approx(wanted, abs=1e-12)
        miss = max(miss, abs(half_sine_factor(ratio) - wanted))
    record_property("measured", f"{miss:.3f} from the spectrum")
    assert miss < 0.08
    assert (R_MAX_RATIO[-1], R_MAX[-1]) == (1.4, 1.5)


def pounds(**coefficients: float) -> float:
    force = codes.flood_impulse(
        1000.0 * POUND_FORCE, 10.0 * FEET, gravity=32.2 * FEET, **{"orientation": 1.0, **coefficients}
    )
    return force / POUND_FORCE


@pytest.mark.outside(source=CODE, status="from memory", tolerance="1e-5 of the arithmetic")
def test_flood_code_impulse(record_property: Record) -> None:
    pairs = [
        (pounds(), 16260.83),
        (pounds(orientation=0.8), 13008.66),
        (pounds(orientation=0.8, response=0.8), 10406.93),
        (pounds(orientation=0.8, response=1.8), impact_row("same with CO=0.8", "Rmax=1.8")),
    ]
    miss = max(abs(found / wanted - 1.0) for found, wanted in pairs)
    record_property("measured", f"{miss:.0e}")
    assert miss < 1e-5
    assert codes.IMPORTANCE == (0.6, 1.0, 1.2, 1.3)
    assert [codes.depth_coefficient(d * FEET) for d in (0.5, 1.0, 3.0, 5.0, 9.0)] == pytest.approx([0, 0, 0.5, 1, 1])
    assert codes.blockage_coefficient(0.0) == 0.0
    assert codes.blockage_coefficient(31.0 * FEET) == 1.0


@pytest.mark.outside(
    source="FEMA P-55 vol. II (2011) eq. 8.9; FEMA P-646 (2008, 2012); ASCE 7-16 6.11; all from memory (85 to 90 %)",
    status="from memory",
    tolerance="1e-5",
)
def test_coastal_and_tsunami_forms(record_property: Record) -> None:
    coastal = codes.coastal_form(1000.0 * POUND_FORCE, 10.0 * FEET, 0.75, 1.0, 0.2) / POUND_FORCE
    nominal, duration = codes.tsunami_chapter(TON, 1.0, STIFF, orientation=1.0)
    pairs = [
        (coastal, impact_row("FEMA P-55 simplified")),
        (codes.tsunami_refuge_form(450.0, 3.0, SOFT), impact_row("P-646 2nd ed. log")),
        (codes.tsunami_refuge_form(450.0, 3.0, SOFT, edition=1), impact_row("P-646 1st ed. log")),
        (nominal, impact_row("ASCE 7 tsunami chapter log, Fni")),
        (codes.tsunami_chapter(TON, 1.0, STIFF)[0], impact_row("same with Co=0.65")),
        (1e3 * duration, impact_row("same, duration 2 m u/Fni")),
    ]
    miss = max(abs(found / wanted - 1.0) for found, wanted in pairs)
    record_property("measured", f"{miss:.0e}")
    assert miss < 1e-5


@pytest.mark.outside(
    source="half-second stop of local flood codes; AS 5100 stopping distance (memory, 75 %); bar; AASHTO LRFD 3.9",
    status="closed form",
    tolerance="1e-5; ice 1e-4",
)
def test_stopping_bar_and_ice_forms(record_property: Record) -> None:
    slug = 1000.0 * POUND_FORCE / (32.2 * FEET)
    stop = codes.mean_stopping_form(slug, 10.0 * FEET, 0.5) / POUND_FORCE
    assert stop == pytest.approx(impact_row("0.5 s stopping rule (US local flood code)"), rel=1e-5)
    found = [codes.energy_form(2000.0, 3.0, x) for x in codes.STOPPING_DISTANCE.values()]
    assert found == pytest.approx([120e3, 60e3, 30e3], rel=1e-9)
    bar = codes.elastic_bar(0.3, 1.0, 10e9, 500.0)
    assert bar == pytest.approx(impact_row("elastic bar, V A sqrt(E rho)"), rel=1e-6)
    length = 5.0
    mass, stiffness = 500.0 * 0.25 * np.pi * 0.09 * length, 10e9 * 0.25 * np.pi * 0.09 / length
    assert codes.rigid_mount(mass, 1.0, stiffness) == pytest.approx(bar, rel=1e-12)
    assert codes.ice_crushing(0.3, 1.0, 0.77e6) == pytest.approx(365.243e3, rel=1e-4)
    away = bar / codes.rigid_mount(TON, 1.0, STIFF) - 1.0
    record_property("measured", f"bar against the stiff pole {away:+.1%}")
    assert abs(away) < 0.06


@pytest.mark.outside(
    source="Haehnel & Daly (2004): the guidance forms are one single-spring model",
    status="closed form",
    tolerance="1e-12",
)
def test_the_forms_are_one_spring() -> None:
    """A linear spring stops the log in a quarter period, over V sqrt(m/k): each form then gives V sqrt(k m)."""
    m, v = 600.0, 2.0
    spring = codes.rigid_mount(m, v, SOFT)
    quarter = 0.5 * np.pi * (m / SOFT) ** 0.5
    assert codes.impulse_form(m, v, quarter) == pytest.approx(spring, rel=1e-12)
    assert 2.0 * codes.energy_form(m, v, v * (m / SOFT) ** 0.5) == pytest.approx(spring, rel=1e-12)


@pytest.mark.outside(
    source="editions named with each code form",
    status="common practice",
    tolerance="ratio 27 between smallest and largest",
)
def test_code_estimates_side_by_side(record_property: Record) -> None:
    found = code_estimates(TON, 0.3, 2.5)
    assert len({one.name for one in found}) == len(found) == 7
    assert all(
        one.force.safety.edition and one.force.safety.caution and one.force.safety.basis and one.force.safety.status
        for one in found
    )
    low, high = min(one.force.low for one in found), max(one.force.high for one in found)
    record_property("measured", f"{low / 1e3:.1f} to {high / 1e3:.0f} kN for one log")
    assert high / low > 20.0
    lighter = code_estimates(0.5 * TON, 0.3, 2.5)
    assert all(b.force.high <= a.force.high for a, b in zip(found, lighter, strict=True))


@pytest.mark.outside(
    source="reduced mass: a free machine takes sqrt(m2/(m1+m2)) of a fixed one's blow",
    status="closed form",
    tolerance="1e-6",
)
def test_share_of_a_rigid_machine() -> None:
    free, held = head_on_blow(TON, 500.0, 2.5), head_on_blow(TON, float("inf"), 2.5)
    assert free.force.low / held.force.low == pytest.approx(0.7241, abs=5e-5)
    strike = head_on_strike(20e3)
    fixed = replace(strike, machine=replace(strike.machine, fixed=True))
    ratio = integrate_strike(strike, SOFT, until=0.1).first_peak / integrate_strike(fixed, SOFT, until=0.1).first_peak
    assert ratio == pytest.approx((500.0 / (500.0 + TON)) ** 0.5, rel=1e-3)
