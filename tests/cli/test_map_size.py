"""`map` and `size` end to end: what they print, that it is true, and what they refuse."""

from __future__ import annotations

import csv
import json
import shutil
import tomllib
from pathlib import Path

import pytest

from racewright.cli.main import run
from racewright.scheme import load_scheme
from tests.ledger.common import EXAMPLE


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    return tmp_path / "demo" / "scheme.toml"


def test_map_agrees_with_the_point_command(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = demo.parent / "map.csv"
    assert run(["map", str(demo), "--json", "--csv", str(table)]) == 0
    found = json.loads(capsys.readouterr().out)["map"]
    i, j = 8, 17
    speed, turning = found["stream_speed_m_per_s"][i], found["rotor_speed_rad_per_s"][i][j]
    arguments = ["--stream-speed", f"{speed!r} m/s", "--rotor-speed", f"{turning!r} rad/s", "--json"]
    assert run(["point", str(demo), *arguments]) == 0
    point = json.loads(capsys.readouterr().out)["point"]
    for key, name in (("shaft_power_W", "shaft_power_W"), ("thrust_N", "thrust_N"), ("torque_N_m", "torque_N_m")):
        assert found[key][i][j] == pytest.approx(point[name], rel=1e-9)
    lines = table.read_text("utf-8").splitlines()
    assert lines[0].startswith("# units: m/s, -, rad/s, W, N m")
    rows = list(csv.DictReader(lines[1:]))
    assert len(rows) == len(found["stream_speed_m_per_s"]) * len(found["tip_speed_ratio"])
    here = rows[i * len(found["tip_speed_ratio"]) + j]
    assert float(here["shaft_power"]) == found["shaft_power_W"][i][j]
    unanswered = [r for r in rows if r["shaft_power"] == ""]
    answered = sum(sum(row) for row in found["answered"])
    assert len(rows) - len(unanswered) == answered


def test_map_that_cannot_be_written_says_so(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["map", str(demo), "--csv", str(demo.parent / "none" / "map.csv")]) == 2
    assert "cannot be written" in capsys.readouterr().err


def test_size_prints_a_table_that_the_scheme_takes(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["--power", "5 kW", "--stream-speed", "2.8 m/s", "--depth", "3 m"]
    assert run(["size", str(demo), *arguments]) == 0
    printed = capsys.readouterr()
    assert tomllib.loads(printed.out)["machine"]["proposed"]["duct"]["exit_area_ratio"] == 1.5
    assert "no design and no basis for building" in printed.err
    demo.write_text(
        demo.read_text("utf-8").replace('machine = "river_unit"', 'machine = "proposed"') + "\n" + printed.out,
        "utf-8",
    )
    load_scheme(demo)
    assert run(["point", str(demo), "--json"]) == 0
    point = json.loads(capsys.readouterr().out)["point"]
    assert point["shaft_power_W"] * 0.85 == pytest.approx(5000.0, rel=0.03)


def test_size_as_json(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["size", str(demo), "--power", "0.5 kW", "--stream-speed", "2 m/s", "--duct", "wide", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [p["shape"] for p in found["proposals"]] == ["mild", "middle", "wide"]
    assert found["solved"]["electrical_power_W"] == pytest.approx(500.0, rel=0.02)
    assert found["solved"]["proposal"]["depth_m"] is None


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--power", "5", "--stream-speed", "2 m/s"], "--power"),
        (["--power", "5 kW", "--stream-speed", "20 m/s"], "--stream-speed: '20 m/s' is out of range"),
        (["--power", "5 kW", "--stream-speed", "2 m/s", "--duct", "huge"], "--duct: 'huge' is none of"),
        (["--power", "5 kW", "--stream-speed", "2 m/s", "--drive-efficiency", "2"], "--drive-efficiency"),
    ],
)
def test_size_refuses(demo: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str) -> None:
    assert run(["size", str(demo), *arguments]) == 2
    assert said in capsys.readouterr().err


def test_size_in_too_shallow_water_has_no_answer(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["size", str(demo), "--power", "5 kW", "--stream-speed", "2 m/s", "--depth", "0.3 m"]) == 3
    assert "too shallow" in capsys.readouterr().err
