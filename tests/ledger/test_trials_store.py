"""A campaign's store by its commands: import, reduce, kept reductions, kills, export."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from racewright.cli.main import run
from tests.ledger.model_example import copied, model_values
from tests.ledger.trials_kills import killed


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict:  # type: ignore[type-arg]
    assert run([*arguments, "--json"]) == 0, capsys.readouterr().err
    return json.loads(capsys.readouterr().out)


def test_store_and_ledger_give_the_same_readings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = str(copied(tmp_path))
    first = told(capsys, "trials", "import", scheme)
    assert [(r["run"]["run"], r["fresh"]) for r in first["runs"]] == [
        ("loads", True),
        ("narrow", True),
        ("weed", True),
    ]
    again = told(capsys, "trials", "import", scheme)
    assert [(r["fresh"], r["readings"]) for r in again["runs"]] == [(False, None)] * 3
    kept = told(capsys, "trials", "reduce", scheme)
    assert kept["kept"] == ["loads", "narrow", "weed"]
    ours = [
        (run.run, one.power_coefficient.value, one.thrust_coefficient.standard_uncertainty)
        for run in model_values()["campaign"].runs
        for one in run.reduction.readings
    ]
    assert [(r["run"], r["power_coefficient"], r["thrust_uncertainty"]) for r in kept["readings"]] == ours


def test_only_what_changed_is_made_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    cells = scheme.parent / "campaign_flume" / "cells"
    before = {f.name: f.stat().st_mtime_ns for f in cells.iterdir()}
    text = scheme.read_text("utf-8")
    scheme.write_text(text + '\n[trials.flume.reduction]\nwindow = "30 s"\n', "utf-8")
    found = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert found["reduced"] == ["narrow"]
    assert len(found["readings"]) > 6
    assert {f.name: f.stat().st_mtime_ns for f in cells.iterdir()} == before
    scheme.write_text(text.replace("spike_factor", "spike_factor").replace("stuck = 8", "stuck = 9"), "utf-8")
    told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert {f.name for f in cells.iterdir()} != set(before)
    assert len(list(cells.iterdir())) == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("reduce",), "holds no campaign yet"),
        (("import", "--run", "lods"), "no run 'lods'; the campaign has loads, narrow, weed"),
        (("export", "--out", "x", "--format", "xls"), "wanted one of csv, parquet, netcdf"),
    ],
)
def test_what_cannot_be_done_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], said: str
) -> None:
    scheme = str(copied(tmp_path))
    assert run(["trials", arguments[0], scheme, *arguments[1:]]) == 2
    assert said in capsys.readouterr().err


def test_a_wrong_rate_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = copied(tmp_path)
    scheme.write_text(scheme.read_text("utf-8").replace('rate = "20 Hz"', 'rate = "10 Hz"', 1), "utf-8")
    assert run(["trials", "import", str(scheme), "--run", "narrow"]) == 2
    assert "rows come faster than the stated rate of 10 Hz" in capsys.readouterr().err
    assert list((scheme.parent / "campaign_flume" / "raw").iterdir()) == []


def test_killed_at_any_moment_the_store_is_whole(tmp_path: Path) -> None:
    """Four kills here, 30 in the proof."""
    found = killed(tmp_path, 4)
    assert found.faults == ()


def test_a_run_may_be_a_stretch_of_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The second load of the narrow run as a run of its own gives the readings of the whole run there."""
    scheme = copied(tmp_path)
    whole = told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    assert whole["runs"][0]["run"]["rows"] == 11400
    part = '\n[trials.flume.runs.second]\nfile = "narrow.csv"\nwidth = "1.6 m"\nbegin = "225 s"\nend = "345 s"\n'
    scheme.write_text(scheme.read_text("utf-8") + part, "utf-8")
    found = told(capsys, "trials", "import", str(scheme), "--run", "second")
    assert found["runs"][0]["run"]["rows"] == 2400
    readings = told(capsys, "trials", "reduce", str(scheme), "--run", "second")["readings"]
    same = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")["readings"][2:4]
    assert [r["start_s"] + 225.0 for r in readings] == [r["start_s"] for r in same]
    assert [r["stream_speed_m_per_s"] for r in readings] == pytest.approx(
        [r["stream_speed_m_per_s"] for r in same], rel=1e-9
    )
    scheme.write_text(
        scheme.read_text("utf-8").replace('"225 s"', '"2000 s"').replace('"345 s"', '"3000 s"'), "utf-8"
    )
    assert run(["trials", "import", str(scheme), "--run", "second"]) == 2
    assert "has no row from 2000 s to 3000 s" in capsys.readouterr().err
