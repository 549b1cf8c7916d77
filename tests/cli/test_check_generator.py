"""`check` reads a generator's table as `report` does."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example
from racewright.errors import InputError
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.scheme import load_scheme

TABLE = """
[machine.river_unit.drive.table]
file = "generator.csv"
"""


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    path = tmp_path / "demo" / "scheme.toml"
    path.write_text(
        path.read_text("utf-8").replace("\n[machine.river_unit.cost]", TABLE + "\n[machine.river_unit.cost]")
    )
    rows = [
        f"{rpm},{amps},{2.0 * rpm * math.pi / 30.0 - 0.1 * amps:.6f},{0.1 * amps**2 + 0.1 * rpm:.6f}\n"
        for rpm in range(100, 500, 100)
        for amps in range(0, 40, 10)
    ]
    (path.parent / "generator.csv").write_text("speed,current,voltage,loss\n" + "".join(rows), "utf-8")
    return path


def _both_say(scheme: Path) -> str:
    with pytest.raises(InputError) as checked:
        check_scheme(scheme, as_json=False)
    loaded = load_scheme(scheme)
    with pytest.raises(InputError) as computed:
        evaluate(loaded, *case_of(loaded, None), wanted=("drive_chain",))
    assert str(checked.value) == str(computed.value)
    return str(checked.value)


def test_points_are_counted(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    check_scheme(scheme, as_json=False)
    assert "machine river_unit: generator table with 16 points" in capsys.readouterr().err
    loaded = load_scheme(scheme)
    chain = evaluate(loaded, *case_of(loaded, None), wanted=("drive_chain",))["drive_chain"]
    assert chain.generator.torque.shape == (4, 4)
    assert not chain.generator.torque_measured
    assert chain.converter_efficiency == 1.0


def test_missing_column_is_said_of_the_key(scheme: Path) -> None:
    text = scheme.read_text("utf-8").replace(
        'file = "generator.csv"\n', 'file = "generator.csv"\nloss_column = "lost"\n'
    )
    scheme.write_text(text, "utf-8")
    assert "machine.river_unit.drive.table.loss_column: generator.csv, line 1: no column 'lost'" in _both_say(scheme)


def test_a_missing_point_and_a_bad_cell(scheme: Path) -> None:
    path = scheme.parent / "generator.csv"
    whole = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text("".join(whole[:-1]), "utf-8")
    assert "every speed with every current once; found 15" in _both_say(scheme)
    path.write_text("".join([*whole[:-1], "400,30,x,1\n"]), "utf-8")
    assert "generator.csv" in _both_say(scheme)
    path.unlink()
    assert "generator.csv" in _both_say(scheme)
