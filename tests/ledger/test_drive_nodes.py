"""The drive's nodes: the way taken, the power curve, start, loss of load, braking, mass; closed forms."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from racewright.cli.drive_summary import control_figures
from racewright.cli.drive_units import DRIVE_UNITS
from racewright.cli.encode import to_json
from racewright.errors import InputError, NoAnswerError
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import decode, encode
from racewright.ledger.findings import MachineFindings
from racewright.ledger.map_grid import map_speeds
from racewright.machine.drive_mass import mass_line
from racewright.stage.curves import power_curve
from racewright.stage.drive_transient import loss_of_load
from racewright.supply.result import YearlyEnergy
from tests.drive_case import MAGNETS, drive_findings, drive_values
from tests.ledger.common import findings_with
from tests.stage.rotors import shaped_rotor, straight_rotor

SHEET = "speed,current,voltage,loss\n"


def machine(*changes: tuple[str, str]) -> MachineFindings:
    found = findings_with(*changes).machine
    assert found is not None
    return found


def energy(*changes: tuple[str, str]) -> YearlyEnergy:
    found = findings_with(*changes).energy
    assert found is not None
    return found


def test_the_example_makes_what_the_design_ratio_makes_up_to_rated_power() -> None:
    """Against the rotor held at its design ratio: the torque law drifts with Reynolds number, 8e-4 measured."""
    of = machine()
    curve = of.power_curve
    running = (curve.stream_speed >= of.drive.cut_in_speed) & ~curve.limited
    speeds = curve.stream_speed[running]
    held = power_curve(of.unit, of.drive, of.vanes, of.blades, of.flow, of.water, speeds)
    assert curve.electrical_power[running] == pytest.approx(held.electrical_power, rel=1e-3)
    assert curve.band_low[running] == pytest.approx(held.band_low, rel=1e-3)
    assert curve.band_high[running] == pytest.approx(held.band_high, rel=1e-3)
    assert np.all(curve.electrical_power[curve.stream_speed < of.drive.cut_in_speed] == 0.0)
    assert np.all(curve.electrical_power[curve.limited] == of.drive.rated_power)
    assert {of.drive.cut_in_speed, of.control.control.summary.rated_speed} <= set(curve.stream_speed.tolist())


def test_the_power_curve_is_that_of_the_way_taken() -> None:
    hold = ('rated_power = "5 kW"\n', 'rated_power = "5 kW"\nhold = "slow"\n')
    slow, usual = machine(hold), machine()
    assert slow.control.control.how == "slow"
    assert usual.control.control.how == "speed up"
    for of in (slow, usual):
        assert np.array_equal(of.power_curve.rotor_speed, of.control.control.way.curve.rotor_speed)
    assert slow.power_curve.rotor_speed.max() < usual.power_curve.rotor_speed.max()
    held = np.array([status != "not held" for status in slow.control.control.way.curve.status])
    assert 0 < np.count_nonzero(~held) < held.size / 2
    expected = np.where(held, usual.power_curve.electrical_power, 0.0)
    assert slow.power_curve.electrical_power == pytest.approx(expected)
    assert energy(hold).total.value < energy().total.value
    assert any("Rated power is not held from 3.2" in r.text for r in findings_with(hold).remarks)


def test_the_usual_torque_limit_and_given_ones() -> None:
    """Rated 2500 W: 0.864 x 200 U^3, torque there 50 U^2."""
    rated = (2500.0 / (0.864 * 200.0)) ** (1.0 / 3.0)
    usual = drive_findings().control
    assert usual.summary.rated_speed == pytest.approx(rated, rel=1e-9)
    assert usual.torque_limit == pytest.approx(1.25 * 50.0 * rated**2, rel=1e-6)
    assert not usual.torque_limit_given
    assert usual.rotor_speed_limit is None
    assert usual.how == "speed up"
    given = drive_findings(torque_limit="1.5 kN m", rotor_speed_limit="120 rpm").control
    assert (given.torque_limit, given.torque_limit_given) == (1500.0, True)
    assert given.rotor_speed_limit == pytest.approx(4.0 * math.pi)
    assert given.how == "slow"


def test_where_no_way_holds_the_one_that_lasts_longest_is_taken() -> None:
    """Slowing fails in its jump at once, speeding up only at the limit, dumping at once for want of a load."""
    found = drive_findings(rotor_speed_limit="180 rpm").control
    assert found.summary.recommended == "none"
    assert found.how == "speed up"
    assert [r.about for r in found.remarks] == ["control"]
    assert "Rated power is not held from" in found.remarks[0].text


def test_a_law_of_fixed_speed_and_a_battery() -> None:
    fixed = drive_findings(law="fixed speed", fixed_speed="60 rpm", rated_power="50 kW").control.way.curve
    on_law = np.array(fixed.status) == "on law"
    assert fixed.rotor_speed[on_law] == pytest.approx(2.0 * math.pi)
    battery = {"voltage": "48 V", "diode_drop": "2 V"}
    found = drive_findings(law="battery", magnets=MAGNETS, battery=battery, hold="dump").control
    assert found.way.curve.law == "battery"
    assert found.way.curve.electrical_power.max() > 100.0


def test_a_generator_not_known_at_slow_speeds_makes_no_power_there(tmp_path: Path) -> None:
    """A sheet from 40 rpm on: at 2 U/R rad/s that is 1.05 m/s, above the cut-in of 0.8 m/s."""
    path = sheet(tmp_path, range(40, 400, 20))
    control = drive_values(files={"machine.drive.table.file": path}, table={"file": path.name})["control"]
    curve = control.way.curve
    at = np.searchsorted(curve.stream_speed, [0.95, 1.15])
    assert [curve.status[i] for i in at] == ["no answer", "on law"]
    assert curve.electrical_power[at[0]] == 0.0
    assert control.summary.rated_speed > 2.0
    assert any("Control has no answer" in r.text and "generator is not known" in r.text for r in control.remarks)


def test_letting_go_counts_all_that_turns() -> None:
    inertia = {"rotor_inertia": "20 kg m2", "generator_inertia": "0.1 kg m2", "gear": {"ratio": 8.0}}
    found = drive_findings(hold="dump", **inertia).letting_go
    assert found.inertia == pytest.approx(20.0 + 64.0 * 0.1)
    assert found.loss is not None
    assert found.free is not None
    direct = loss_of_load(straight_rotor(), found.stream_speed, found.rotor_speed, 26.4, overspeed_ratio=1.3)
    assert found.loss.time_to_overspeed == pytest.approx(direct.time_to_overspeed, rel=1e-9)
    assert found.free.rotor_speed == pytest.approx(8.0 * found.stream_speed, rel=1e-9)
    assert found.free.roll_moment == pytest.approx(100.0 * found.stream_speed**2, rel=1e-9)
    assert found.why_no_stop == "no brake is given"


def test_the_brake_bites_at_the_overspeed_or_at_runaway() -> None:
    brake = {"torque": "2.5 kN m", "heat": "1 MJ"}
    early = drive_findings(hold="dump", rotor_inertia="20 kg m2", brake=brake).letting_go
    assert early.braked_from == pytest.approx(1.3 * early.rotor_speed)
    late = drive_findings(hold="dump", rotor_inertia="20 kg m2", brake=brake, overspeed_ratio=9.0).letting_go
    assert late.free is not None
    assert late.braked_from == pytest.approx(late.free.rotor_speed)
    assert early.stop is not None
    assert early.stop.stops
    assert early.stop.bears
    assert drive_findings(rotor_inertia="20 kg m2", overspeed_ratio=1.0).letting_go.loss is not None


def test_mass_follows_the_largest_torque_and_says_where_it_ends() -> None:
    found = drive_findings(gear={"ratio": 8.0})
    assert found.parts.torque == found.control.way.torque
    assert [m.ratio for m in found.parts.masses] == [1.0, 8.0]
    assert found.parts.ratio_given
    tiny = shaped_rotor(lambda x: 1e-3 * (1.0 - x / 4.0), 41, 4.4, (0.25, 1.0, 2.0, 4.0))
    small = drive_findings(tiny, rated_power="1 W").parts
    assert small.masses == ()
    assert "outside what the mass lines tell" in small.why_no_mass


def test_a_rotor_without_torque_at_its_design_point_is_no_answer() -> None:
    driven = shaped_rotor(lambda x: 100.0 * (1.0 - x / 1.5), 41, 4.4, (0.25, 1.0, 2.0, 4.0))
    with pytest.raises(NoAnswerError, match="no torque at its design point"):
        drive_findings(driven)


def test_values_are_kept_and_read_again(tmp_path: Path) -> None:
    path = sheet(tmp_path, range(20, 400, 20))
    files = {"machine.drive.table.file": path}
    for values in (
        drive_values(magnets=MAGNETS, rotor_inertia="20 kg m2", brake={"torque": "2.5 kN m", "heat": "1 MJ"}),
        drive_values(files=files, table={"file": path.name}),
    ):
        for name in ("rotor_map", "drive_chain", "control", "start_up", "letting_go", "drive_parts"):
            again = encode(decode(encode(values[name], name), name, CLASSES), name)
            assert again == encode(values[name], name)


def test_json_is_strict_and_every_number_has_a_unit() -> None:
    for drive in (
        {},
        {"magnets": MAGNETS, "rotor_inertia": "20 kg m2", "brake": {"torque": "2 kN m", "heat": "1 MJ"}},
    ):
        answer = json.loads(to_json({"control": control_figures(drive_findings(**drive))}, {}, "EUR"))
        assert answer["control"]["how"] == "speed up"
        assert answer["units"]["control.curve.strike_speed_m_per_s[]"] == "m/s"
        assert len(answer["control"]["ways"]) == 3
    assert DRIVE_UNITS["DriveMass"]["cost"] == mass_line("gear").currency


def test_map_speeds_hold_cut_in_and_design_speed() -> None:
    for cut_in, design, water in ((0.8, 2.4, 3.9), (0.05, 0.1, 0.0), (5.0, 0.1, 0.0), (2.39, 2.4, 1.0)):
        speeds = map_speeds(cut_in, design, water)
        assert {cut_in, design} <= set(speeds.tolist())
        assert speeds[0] == 0.5 * min(cut_in, design)
        assert speeds[-1] >= max(1.6 * design, water, cut_in)
        assert np.all(np.diff(speeds) > 0.0)


def test_a_wrong_generator_sheet_names_its_file(tmp_path: Path) -> None:
    table: dict[str, Any] = {"file": "generator.csv"}
    for rows, said in (
        ("40,0,20,9\n40,5,18,30\n80,0,40,20\n", "every speed with every current once; found 3"),
        ("40,1,20,9\n40,5,18,30\n80,1,40,20\n80,5,38,44\n", "currents from 0 A"),
        ("40,0,20,9\n40,5,18,30\n80,0,40,20\n80,5,38,900\n", "does not close"),
    ):
        path = tmp_path / "generator.csv"
        path.write_text("speed,current,voltage,loss,torque\n" + torque_added(rows), "utf-8")
        with pytest.raises(InputError, match=said) as caught:
            drive_values(files={"machine.drive.table.file": path}, table={**table, "torque_column": "torque"})
        assert caught.value.file == str(path)


def sheet(folder: Path, speeds: range) -> Path:
    """A sound sheet: 6 V s, 0.2 ohm, iron torque 2 N m, speeds in rpm."""
    rows = []
    for rpm in speeds:
        turning = rpm * math.pi / 30.0
        for current in range(0, 301, 50):
            lost = 0.2 * current**2 + 2.0 * turning
            rows.append(f"{rpm},{current},{6.0 * turning + 400.0 - 0.2 * current},{lost}\n")
    path = folder / "generator.csv"
    path.write_text(SHEET + "".join(rows), "utf-8")
    return path


def torque_added(rows: str) -> str:
    """Rows with a torque of 3 N m and 0.6 N m an ampere more."""
    return "".join(f"{row},{3.0 + 3.0 * float(row.split(',')[1])}\n" for row in rows.splitlines())
