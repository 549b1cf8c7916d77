"""Blockage corrections against published forms, worked numbers and the duct's own flow."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from racewright.flow.bare_disc import bare_disc
from racewright.flow.far_wake import channel_thrust, far_wake
from racewright.trials import blockage
from racewright.trials.blockage_result import Blockage, ChannelReading
from racewright.trials.closed_channel import closed_channel
from racewright.trials.machine_response import (
    MachineResponse,
    bare_response,
    response_of_disc,
    response_of_flow,
)
from tests.external.blockage_rows import rows
from tests.external.record import Record
from tests.external.test_flow_ducts import _reference
from tests.trials.ducts import reference_duct

OWN_LOADS = (0.2, 0.4, 0.6, 0.8)


def ratio(found: Blockage, method: str) -> float:
    """U_F/U_T of one estimate, which must have answered."""
    value = found[method].stream_ratio
    assert value is not None, found[method].reasons
    return value


def reading(load: float, b: float, froude: float | None = None, *, ducted: bool = False) -> ChannelReading:
    """CP 1, TSR 1: the corrected values are the factors."""
    return ChannelReading(1.0, load, 1.0, b, froude, ducted)


@pytest.mark.outside(
    source="closed-channel correction (Barnsley and Wellicome 1990), 9 blockages x 5 loads",
    status="computed",
    tolerance="1e-5 of every factor",
)
def test_closed_channel_table(record_property: Record) -> None:
    table, miss = rows("closed"), 0.0
    assert len(table) == 45
    for row in table:
        found = blockage(reading(row["CT_measured"], row["B"]))
        one, bypass = found["closed"], found["bypass_closed"]
        flow = closed_channel(row["CT_measured"], row["B"])
        for value, wanted in (
            (flow.wake_speed, row["u_wake_over_U"]),
            (one.bypass_speed, row["u_bypass_over_U"]),
            (one.disc_speed, row["u_disc_over_U"]),
            (1.0 / ratio(found, "closed"), row["UT_over_UF"]),
            (one.power_coefficient, row["factor_CP"]),
            (one.tip_speed_ratio, row["factor_TSR"]),
            (one.thrust_coefficient, row["CT_corrected"]),
            (bypass.tip_speed_ratio, row["bypass_factor_TSR"]),
            (bypass.power_coefficient, row["bypass_factor_CP"]),
        ):
            assert value == pytest.approx(wanted, abs=1e-5)
            miss = max(miss, abs((value or 0.0) - wanted))
    record_property("measured", f"closed table within {miss:.0e}")


@pytest.mark.outside(
    source="worked numbers: B 0.10, CT 0.80, CP 0.45, TSR 5 in a closed channel",
    status="computed",
    tolerance="1e-5",
)
def test_worked_closed_channel(record_property: Record) -> None:
    one = blockage(ChannelReading(0.45, 0.8, 5.0, 0.1))["closed"]
    found = (one.power_coefficient, one.thrust_coefficient, one.tip_speed_ratio)
    assert found == pytest.approx((0.40566, 0.74654, 4.83005), abs=1e-5)
    record_property("measured", "worked CP {:.5f} CT {:.5f} TSR {:.5f}".format(*found))


@pytest.mark.outside(
    source="worked numbers: B 0.20, CT 0.80 in an open channel of Fr 0.20, and at Fr 1e-4",
    status="computed",
    tolerance="1e-5",
)
def test_worked_open_channel(record_property: Record) -> None:
    found = blockage(reading(0.8, 0.2, 0.2))
    one = found["open"]
    assert 1.0 / ratio(found, "open") == pytest.approx(0.939888, abs=1e-5)
    assert one.power_coefficient == pytest.approx(0.830286, abs=1e-5)
    assert one.thrust_coefficient == pytest.approx(0.8 * 0.883389, abs=1e-5)
    assert (one.disc_speed, one.bypass_speed, one.drop) == pytest.approx((0.820078, 1.115793, 0.0033396), abs=1e-6)
    assert found.preferred == "open"
    assert blockage(reading(0.8, 0.2, 1e-4))["open"].power_coefficient == pytest.approx(0.835580, abs=1e-5)
    record_property("measured", f"open CP factor {one.power_coefficient:.6f}")


@pytest.mark.outside(
    source="reduction of an invented bare rotor test: B 0.1309, Fr 0.428353, CT 0.686481, CP 0.4522",
    status="computed",
    tolerance="1e-5",
)
def test_worked_reduction() -> None:
    area, channel = math.pi * 0.04, 1.2 * 0.8
    found = blockage(ChannelReading(0.452200, 0.686481, math.pi, area / channel, 1.2 / math.sqrt(9.80665 * 0.8)))
    closed, free = found["closed"], found["open"]
    assert (closed.power_coefficient, closed.thrust_coefficient) == pytest.approx((0.409038, 0.642073), abs=1e-5)
    assert closed.tip_speed_ratio == pytest.approx(3.038279, abs=1e-5)
    assert (free.power_coefficient, free.thrust_coefficient) == pytest.approx((0.400658, 0.633274), abs=1e-5)
    assert (free.tip_speed_ratio, free.drop) == pytest.approx((3.017389, 0.010184), abs=1e-5)
    assert closed.state == "indicative"


@pytest.mark.outside(
    source="Glauert (1935), U_F/U_T = 1 + B CT/(4 sqrt(1 - CT)): values, and slope of the full theory at B to 0",
    status="from memory",
    tolerance="1e-6; slopes agree within 1e-4; within 0.007 of the full theory where called valid",
)
def test_first_order_correction(record_property: Record) -> None:
    for b, wanted in ((0.05, 1.022361), (0.1, 1.044721), (0.175, 1.078262)):
        assert ratio(blockage(reading(0.8, b)), "first_order") == pytest.approx(wanted, abs=1e-6)
    small = blockage(reading(0.8, 1e-5))
    assert (ratio(small, "first_order") - 1.0) / 1e-5 == pytest.approx(0.447214, abs=1e-5)
    assert (ratio(small, "closed") - 1.0) / 1e-5 == pytest.approx(0.447193, abs=1e-4)
    worst = 0.0
    for b in np.geomspace(0.001, 0.4, 25):
        for load in np.linspace(0.05, 0.95, 25):
            found = blockage(reading(float(load), float(b)))
            if found["first_order"].state == "valid":
                worst = max(worst, abs(ratio(found, "first_order") - ratio(found, "closed")))
    assert 0.001 < worst < 0.007
    record_property("measured", f"first order within {worst:.4f} where valid")


@pytest.mark.outside(
    source="Werle (2010): CP (1 - B)^2, CT (1 - B)^2/(1 + B), exact on the best disc",
    status="from memory",
    tolerance="1e-6",
)
def test_optimum_form() -> None:
    for b, cp, ct in ((0.1, 0.81, 0.736364), (0.175, 0.680625, 0.579255)):
        one = blockage(ChannelReading(1.0, 1.0, 5.0, b, at_peak_power=True))["optimum"]
        assert (one.power_coefficient, one.thrust_coefficient) == pytest.approx((cp, ct), abs=1e-6)
        assert one.tip_speed_ratio is None
        assert one.state == ("valid" if ct < 0.96 else "indicative")
        best = ChannelReading(
            16.0 / 27.0 / (1.0 - b) ** 2, 8.0 / 9.0 * (1.0 + b) / (1.0 - b) ** 2, 5.0, b, at_peak_power=True
        )
        at_best = blockage(best)["optimum"]
        assert at_best.power_coefficient == pytest.approx(16.0 / 27.0, rel=1e-12)
        assert at_best.thrust_coefficient == pytest.approx(8.0 / 9.0, rel=1e-12)
    assert blockage(reading(1.0, 0.1))["optimum"].state == "indicative"


@pytest.mark.outside(
    source="measured sizes of the correction, 0.8 m rotor (Bahaj et al. 2007): tank B 0.0755 -8 % CP, -5 % CT; "
    "tunnel B 0.1745 at most -18 %, -11 %",
    status="from memory",
    tolerance="tank 1 point, tunnel 3 points",
)
def test_sizes_of_published_corrections(record_property: Record) -> None:
    tank = blockage(reading(0.8, 0.07547))["closed"]
    assert 100.0 * ((tank.power_coefficient or 0.0) - 1.0) == pytest.approx(-8.0, abs=1.0)
    assert 100.0 * ((tank.thrust_coefficient or 0.0) / 0.8 - 1.0) == pytest.approx(-5.0, abs=1.0)
    tunnel = blockage(reading(0.9, 0.17453))["closed"]
    assert 100.0 * ((tunnel.power_coefficient or 0.0) - 1.0) == pytest.approx(-18.0, abs=3.0)
    assert 100.0 * ((tunnel.thrust_coefficient or 0.0) / 0.9 - 1.0) == pytest.approx(-11.0, abs=3.0)
    record_property("measured", f"tank {100.0 * ((tank.power_coefficient or 0.0) - 1.0):.1f} % on CP")


@pytest.mark.outside(
    source="ducted disc of fixed kappa (derived; not published): U_F/U_T = u/kappa + kappa CT/(4 u)",
    status="computed",
    tolerance="1e-5",
)
def test_ducted_rows_of_fixed_kappa() -> None:
    for row in rows("ducted"):
        if "UF_over_UT" not in row:
            continue
        kappa = row["kappa=T_total/T_rotor"]

        def speed(load: float, kappa: float = kappa) -> float:
            return kappa * bare_response(load)

        fixed = MachineResponse(speed, 0.95)
        found = blockage(reading(row["CT_rotor"], row["B=A_rotor/A_channel"], ducted=True), free=fixed)
        assert ratio(found, "closed") == pytest.approx(row["UF_over_UT"], abs=1e-5)
        assert found["closed"].disc_speed == pytest.approx(row["u_rotor_over_U"], abs=1e-5)


def tabulated_duct() -> MachineResponse:
    """u(CT) of the reference duct from its table, by another solver."""
    kept = [row for row in _reference() if row["section_closed_TE"] == "NACA0015" and row["incidence_deg"] == "10"]
    load = np.array([float(row["CT_throat_area"]) for row in kept])
    speed = np.array([float(row["u_throat_over_U"]) for row in kept])
    line = CubicSpline(np.sqrt(1.0 - load)[::-1], speed[::-1])
    return MachineResponse(lambda one: float(line(math.sqrt(1.0 - one))), float(load[-1]))


@pytest.mark.outside(
    source="no blockage, no correction: reference duct NACA 0015 at 10 degrees with its own u(CT)",
    status="closed form",
    tolerance="1.000 +- 0.001 at B 1e-3 to 1e-9, CT 0.2 to 0.8; exact order 1 in B",
)
@pytest.mark.parametrize("source", ["solved", "table"])
def test_ducted_correction_vanishes_with_blockage(source: str, record_property: Record) -> None:
    own = response_of_flow(reference_duct()) if source == "solved" else tabulated_duct()
    worst = 0.0
    for load in OWN_LOADS:
        assert own.thrust_ratio(load) < own.thrust_ratio(0.0) - 0.05
        for method in ("closed", "open", "bypass_closed", "bypass_open", "first_order"):
            off = [ratio(blockage(reading(load, b, 0.2, ducted=True), free=own), method) - 1.0 for b in (1e-3, 1e-6)]
            tiny = ratio(blockage(reading(load, 1e-9, 0.2, ducted=True), free=own), method) - 1.0
            assert off[0] / off[1] == pytest.approx(1000.0, rel=0.02)
            assert abs(off[0]) < 2e-3
            assert abs(off[1]) < 1e-3
            assert abs(tiny) < 1e-8
            worst = max(worst, abs(off[1]))
    record_property("measured", f"duct ({source}) 1.000 within {worst:.0e} at B 1e-6")


@pytest.mark.outside(
    source="momentum over the closed channel with the duct's force: whole thrust = kappa CT",
    status="closed form",
    tolerance="1e-9",
)
@pytest.mark.parametrize("load", OWN_LOADS)
def test_ducted_channel_flow_keeps_momentum(load: float) -> None:
    own, b = response_of_flow(reference_duct()), 0.06
    one = blockage(reading(load, b, ducted=True), free=own)["closed"]
    assert one.disc_speed is not None
    assert one.thrust_ratio is not None
    assert one.load is not None
    assert one.stream_ratio is not None
    far = far_wake(load, 0.5 * one.disc_speed, b**-0.5)
    assert far.bypass == pytest.approx(one.bypass_speed, rel=1e-9)
    total = channel_thrust(far, math.pi * one.disc_speed, math.pi / b) / math.pi
    assert total == pytest.approx(one.thrust_ratio * load, rel=1e-9)
    assert one.disc_speed == pytest.approx(own.speed(one.load) * one.stream_ratio, rel=1e-9)


@pytest.mark.outside(
    source="flow solver between round walls: bare disc against closed-channel theory",
    status="closed form",
    tolerance="5e-4 of the stream ratio",
)
@pytest.mark.parametrize("b", [0.05, 0.1, 0.2])
def test_wall_estimate_of_a_bare_disc(b: float, record_property: Record) -> None:
    free = response_of_disc(bare_disc(wake_panels=50))
    walled = response_of_disc(bare_disc(wake_panels=50, channel_radius=b**-0.5), b**-0.5)
    worst = 0.0
    for load in (0.3, 0.6, 0.8):
        found = blockage(reading(load, b), free=free, walled=walled)
        worst = max(worst, abs(ratio(found, "wall") - ratio(found, "closed")))
    assert worst < 5e-4
    record_property("measured", f"wall within {worst:.0e} of theory for a bare disc at B {b:g}")


@pytest.mark.outside(
    source="duct between round walls, solved, against channel momentum with the duct's own u(CT)",
    status="computed",
    tolerance="stream ratio 0.012 at B 0.05, 0.02 at 0.1 (the duct's share of thrust shifts); 0.002 at CT 0.4",
)
@pytest.mark.parametrize(("b", "bar"), [(0.05, 0.012), (0.1, 0.02)])
def test_wall_estimate_of_a_duct(b: float, bar: float, record_property: Record) -> None:
    free, walled = response_of_flow(reference_duct()), response_of_flow(reference_duct(b))
    off = {}
    for load in (0.2, 0.4, 0.6, 0.8):
        found = blockage(reading(load, b, ducted=True), free=free, walled=walled)
        off[load] = ratio(found, "wall") - ratio(found, "closed")
        assert found.preferred == "wall"
    assert max(abs(one) for one in off.values()) < bar
    assert abs(off[0.4]) < 2e-3
    said = ", ".join(f"{value:+.4f} at CT {load:g}" for load, value in off.items())
    record_property("measured", f"duct at B {b:g}: wall less momentum {said}")
