"""One-dimensional channel theory against closed forms, tables and first principles."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from racewright.errors import NoAnswerError
from racewright.trials.closed_channel import closed_at, closed_channel, greatest_load
from racewright.trials.open_channel import open_at, open_channel
from tests.external.blockage_rows import rows
from tests.external.record import Record


@pytest.mark.outside(
    source="best disc (Garrett and Cummins 2007): a4 1/3, CT (8/9)(1+B)/(1-B)^2, CP (16/27)/(1-B)^2",
    status="closed form",
    tolerance="1e-6 of table and closed form; best wake speed 1e-5",
)
def test_best_disc_in_a_closed_channel(record_property: Record) -> None:
    miss = 0.0
    for row in rows("optimum"):
        b = row["B"] or 1e-12
        flow = closed_at(1.0 / 3.0, b)
        assert flow.bypass_speed == pytest.approx(row["u_bypass_over_U"], abs=1e-6)
        assert flow.disc_speed == pytest.approx(row["u_disc_over_U"], abs=1e-6)
        assert flow.load == pytest.approx(row["CT_opt"], abs=1e-6)
        power = 16.0 / 27.0 / (1.0 - b) ** 2
        assert flow.disc_speed * flow.load == pytest.approx(power, rel=1e-12)
        miss = max(miss, abs(flow.load - 8.0 / 9.0 * (1.0 + b) / (1.0 - b) ** 2))

        def lost(a: float, b: float = b) -> float:
            one = closed_at(a, b)
            return -one.disc_speed * one.load

        best = minimize_scalar(lost, bounds=(0.05, 0.9), method="bounded", options={"xatol": 1e-9})
        assert best.x == pytest.approx(1.0 / 3.0, abs=1e-5)
        assert -best.fun == pytest.approx(row["CP_max"], abs=1e-6)
    record_property("measured", f"optimum within {max(miss, 1e-16):.0e}")
    assert miss < 1e-12


@pytest.mark.outside(
    source="Barnsley and Wellicome (1990) as Bahaj et al. (2007) write it: unknown r = bypass over wake speed",
    status="from memory",
    tolerance="1e-10: another algebra of the same equations",
)
@pytest.mark.parametrize("b", [0.01, 0.05, 0.1, 0.175, 0.3, 0.5])
@pytest.mark.parametrize("load", [0.2, 0.6, 0.8, 0.95])
def test_algebra_of_barnsley_and_wellicome(b: float, load: float) -> None:
    def parts(r: float) -> tuple[float, float]:
        ratio = (-1.0 + math.sqrt(1.0 + b * (r * r - 1.0))) / (b * (r - 1.0))
        return ratio, 1.0 / (r - b * ratio * (r - 1.0))

    r = brentq(lambda one: parts(one)[1] ** 2 * (one * one - 1.0) - load, 1.0 + 1e-9, 50.0, xtol=1e-14)
    ratio, wake = parts(r)
    flow = closed_channel(load, b)
    assert flow.wake_speed == pytest.approx(wake, rel=1e-9)
    assert flow.bypass_speed == pytest.approx(r * wake, rel=1e-10)
    assert flow.disc_speed == pytest.approx(ratio * wake, rel=1e-10)


@pytest.mark.outside(
    source="open channel with Froude number (Houlsby, Draper and Oldfield 2008), 44 rows",
    status="computed",
    tolerance="1e-5 of each column",
)
def test_open_channel_table(record_property: Record) -> None:
    miss = 0.0
    table = rows("open_channel")
    assert len(table) == 44
    for row in table:
        a = 1.0 / 3.0 if row["u_wake_over_U"] == 0.333333 else row["u_wake_over_U"]
        flow = open_at(a, row["B"], row["Fr"])
        found = (flow.bypass_speed, flow.disc_speed, flow.load, flow.disc_speed * flow.load)
        wanted = (row["u_bypass_over_U"], row["u_disc_over_U"], row["CT"], row["CP"])
        assert found == pytest.approx(wanted, abs=1e-5)
        assert (flow.depth_ratio, flow.drop) == pytest.approx((row["h4_over_h"], row["dh_over_h"]), abs=1e-5)
        again = open_channel(flow.load, row["B"], row["Fr"])
        assert again.wake_speed == pytest.approx(a, abs=1e-9)
        miss = max(miss, max(abs(x - y) for x, y in zip(found, wanted, strict=True)))
    record_property("measured", f"open table within {miss:.0e}")


@pytest.mark.outside(
    source="mass, energy and momentum of the open channel written out, hydrostatic ahead and behind",
    status="closed form",
    tolerance="1e-12 of each balance, 400 random channels",
)
def test_open_channel_from_first_principles(record_property: Record) -> None:
    random = np.random.default_rng(3)
    worst, answered = 0.0, 0
    for _ in range(400):
        b, froude, a = random.uniform(0.005, 0.5), random.uniform(0.0, 0.6), random.uniform(0.05, 0.999)
        try:
            flow = open_at(a, b, froude)
        except NoAnswerError:
            continue
        answered += 1
        f, depth, bypass = froude**2, flow.depth_ratio, flow.bypass_speed
        wake_area = b * flow.disc_speed / a
        mass = wake_area * a + (depth - wake_area) * bypass - 1.0
        energy = 1.0 + 0.5 * f - depth - 0.5 * f * bypass**2
        thrust = 0.5 * b * flow.load * f
        flux = f * (wake_area * a**2 + (depth - wake_area) * bypass**2 - 1.0)
        momentum = 0.5 * (1.0 - depth**2) - thrust - flux
        worst = max(worst, abs(mass), abs(energy), abs(momentum))
        assert 0.0 < wake_area < depth
        assert flow.drop >= 0.0
    assert answered > 200
    assert worst < 1e-12
    record_property("measured", f"balances within {worst:.0e}")


@pytest.mark.outside(
    source="no subcritical flow: B 0.4, Fr 0.3, a4 1/3; closed channel above 1/(1 - sqrt B)^2",
    status="closed form",
    tolerance="refused with the reason",
)
def test_roots_that_do_not_exist(record_property: Record) -> None:
    with pytest.raises(NoAnswerError, match=r"no root.*0\.4.*0\.3"):
        open_at(1.0 / 3.0, 0.4, 0.3)
    with pytest.raises(NoAnswerError, match="no root"):
        open_channel(6.1, 0.4, 0.3)
    assert open_channel(5.9, 0.4, 0.3).wake_speed > 0.43
    with pytest.raises(NoAnswerError, match="no root"):
        open_at(0.5, 0.2, 0.6)
    with pytest.raises(NoAnswerError, match="subcritical"):
        open_at(0.152295, 0.180174, 0.433620)
    top = greatest_load(0.1)
    assert closed_channel(0.9999 * top, 0.1).wake_speed == pytest.approx(0.0, abs=1e-3)
    with pytest.raises(NoAnswerError, match="stands still"):
        closed_channel(1.0001 * top, 0.1)
    record_property("measured", "B 0.4, Fr 0.3, a4 1/3 refused")


@pytest.mark.outside(
    source="open channel at Froude number towards 0 is the closed channel",
    status="closed form",
    tolerance="error falls as Fr^2; 1e-7 at Fr 1e-4",
)
@pytest.mark.parametrize(("load", "b"), [(0.4, 0.05), (0.8, 0.2), (1.3, 0.3)])
def test_open_channel_without_a_surface(load: float, b: float) -> None:
    closed = closed_channel(load, b)
    off = [abs(open_channel(load, b, fr).disc_speed - closed.disc_speed) for fr in (0.1, 0.05, 1e-4)]
    assert off[0] / off[1] == pytest.approx(4.0, abs=0.3)
    assert off[2] < 1e-7


@pytest.mark.outside(
    source="ducted disc of fixed kappa: B replaced by kappa B, speed times kappa (derived; not published)",
    status="computed",
    tolerance="1e-5 (six digits in the table)",
)
def test_ducted_optimum_of_fixed_kappa() -> None:
    for row in rows("ducted"):
        kappa, b = row["kappa=T_total/T_rotor"], row["B=A_rotor/A_channel"] or 1e-12
        if "UF_over_UT" in row:
            continue
        flow = closed_at(1.0 / 3.0, kappa * b)
        found = (kappa * flow.disc_speed, flow.bypass_speed, flow.load, kappa * flow.disc_speed * flow.load)
        wanted = (row["u_rotor_over_U"], row["u_bypass_over_U"], row["CT_rotor"], row["CP_rotor"])
        assert found == pytest.approx(wanted, rel=1e-5)
