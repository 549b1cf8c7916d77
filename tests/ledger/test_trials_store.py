"""A campaign's store by its commands: import, reduce, kept reductions, kills, export."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path
from typing import Any

import duckdb
import pytest

from racewright.cli.main import run
from racewright.records.campaign.store import DATABASE
from racewright.records.campaign.window_file import ENDING
from tests.ledger.model_example import copied, model_values
from tests.ledger.test_trials_refusals import only
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


def _written(store: Path) -> dict[str, int]:
    """When each file of the store's cells was written, by its ending and name."""
    return {f.name: f.stat().st_mtime_ns for f in (store / "cells").iterdir()}


def test_only_what_changed_is_made_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A window's length makes windows anew and leaves the cells, a flag's limit makes both anew."""
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    store = scheme.parent / "campaign_flume"
    before = _written(store)
    cells, windows = sorted(before, key=lambda name: name.endswith(ENDING))
    text = scheme.read_text("utf-8")
    scheme.write_text(text + '\n[trials.flume.reduction]\nwindow = "30 s"\n', "utf-8")
    found = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert found["reduced"] == ["narrow"]
    assert len(found["readings"]) > 6
    then = _written(store)
    assert then[cells] == before[cells]
    assert len(then) == 2
    assert windows not in then
    scheme.write_text(text.replace("stuck = 8", "stuck = 9"), "utf-8")
    told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert not set(_written(store)) & {*before, *then}
    assert len(_written(store)) == 2


@pytest.mark.parametrize(
    ("setting", "anew"),
    [
        ("confidence = 0.9", False),
        ("follows_most = 0.5", False),
        ("hop = 0.5", True),
        ("speed_drift = 0.001", True),
        ("halves = 2.0", True),
        ("flagged = 0.001", True),
    ],
)
def test_kept_windows_serve_the_settings_that_made_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], setting: str, *, anew: bool
) -> None:
    """Whatever a setting is about, the store gives the readings that a store without windows gives."""
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    store = scheme.parent / "campaign_flume"
    before = _written(store)
    text = scheme.read_text("utf-8")
    scheme.write_text(f"{text}\n[trials.flume.reduction]\n{setting}\n", "utf-8")
    ours = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert ours["reduced"] == ["narrow"]
    assert (set(_written(store)) != set(before)) is anew
    for path in store.rglob(f"*{ENDING}"):
        path.unlink()
    scheme.write_text(text, "utf-8")
    told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    for path in store.rglob(f"*{ENDING}"):
        path.unlink()
    scheme.write_text(f"{text}\n[trials.flume.reduction]\n{setting}\n", "utf-8")
    whole = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert whole["readings"] == ours["readings"]


@pytest.mark.parametrize(
    ("change", "to", "anew"),
    [
        (
            '[trials.flume.runs.narrow.tares.before]\nstart = "0 s"',
            '[trials.flume.runs.narrow.tares.before]\nstart = "2 s"',
            True,
        ),
        ("axis_height =", "density_error = 0.004\naxis_height =", False),
    ],
)
def test_kept_windows_know_tares_and_rig(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], change: str, to: str, *, anew: bool
) -> None:
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    before = _written(scheme.parent / "campaign_flume")
    text = scheme.read_text("utf-8")
    assert change in text
    scheme.write_text(text.replace(change, to, 1), "utf-8")
    assert told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")["reduced"] == ["narrow"]
    assert (set(_written(scheme.parent / "campaign_flume")) != set(before)) is anew


def test_a_store_of_the_version_before_is_taken_along(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Version 3 had no windows: it opens, its readings stand, and a reduction makes the windows of its cells."""
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    first = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    store = scheme.parent / "campaign_flume"
    with duckdb.connect(str(store / DATABASE)) as link:
        link.execute("drop table windows")
        link.execute("update about set value = '3' where key = 'version'")
    for path in store.rglob(f"*{ENDING}"):
        path.unlink()
    before = _written(store)
    assert len(before) == 1
    kept = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert kept["kept"] == ["narrow"]
    assert kept["readings"] == first["readings"]
    with duckdb.connect(str(store / DATABASE)) as link:
        link.execute("delete from reduction")
    again = told(capsys, "trials", "reduce", str(scheme), "--run", "narrow")
    assert again["reduced"] == ["narrow"]
    assert again["readings"] == first["readings"]
    assert len(_written(store)) == 2
    assert before.items() <= _written(store).items()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("reduce",), "holds no campaign yet"),
        (
            ("import", "--run", "lods"),
            "no run 'lods'; the campaign has loads, narrow, weed; did you mean 'loads'?",
        ),
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


def test_a_store_that_cannot_be_written_is_an_input_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its lock cannot be opened for writing: exit 2 and the folder's name, not an internal fault."""
    scheme = copied(tmp_path)
    told(capsys, "trials", "import", str(scheme), "--run", "narrow")
    opened = Path.open

    def shut(self: Path, mode: str = "r", *rest: Any, **more: Any) -> Any:
        if self.name == ".lock":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))
        return opened(self, mode, *rest, **more)

    monkeypatch.setattr(Path, "open", shut)
    for verb in ("import", "reduce"):
        assert run(["trials", verb, str(scheme), "--run", "narrow"]) == 2
        said = capsys.readouterr().err
        assert "campaign_flume: cannot be written (permission denied)" in said
        assert "writable" in said


def test_the_store_stands_in_for_a_logger_file_that_is_gone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Readings from the raw data that the store keeps are those from the file, and it is said."""
    scheme = copied(tmp_path)
    scheme.write_text(only(scheme, "narrow"), "utf-8")
    told(capsys, "trials", "import", str(scheme))
    whole = told(capsys, "trials", "compare", str(scheme))["trials"]
    (scheme.parent / "narrow.csv").unlink()
    kept = told(capsys, "trials", "compare", str(scheme))["trials"]
    assert kept["corrected"] == whole["corrected"]
    words = "Run narrow: its logger file is not there; the raw data that campaign_flume keeps are used."
    assert words in [r["text"] for r in kept["remarks"]]
    assert words not in [r["text"] for r in whole["remarks"]]
    assert told(capsys, "trials", "import", str(scheme))["runs"][0]["fresh"] is False
    assert run(["check", str(scheme)]) == 0
    assert "no logger file, from the store: narrow" in capsys.readouterr().err
    text = scheme.read_text("utf-8")
    scheme.write_text(text.replace('column = "bus_voltage"', 'column = "other"', 1), "utf-8")
    assert run(["trials", "compare", str(scheme)]) == 2, "raw data read by another mapping do not stand in"
    assert "no file 'narrow.csv'" in capsys.readouterr().err


def test_readings_go_to_csv_and_everything_to_an_archive(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = copied(tmp_path)
    scheme.write_text(only(scheme, "narrow"), "utf-8")
    first = told(capsys, "trials", "import", str(scheme))["runs"][0]["run"]
    assert first["duration_s"] == pytest.approx(569.95)
    assert "start_utc_s" in first
    kept = told(capsys, "trials", "reduce", str(scheme), "--csv", str(tmp_path / "r.csv"))["readings"]
    found = told(capsys, "trials", "compare", str(scheme), "--csv", str(tmp_path / "c.csv"))["trials"]
    for name, column, wanted in (
        ("r.csv", "power_coefficient", [r["power_coefficient"] for r in kept]),
        ("c.csv", "power_coefficient", [c["power_coefficient"] for c in found["corrected"]]),
    ):
        units, head, *rows = (tmp_path / name).read_text("utf-8").splitlines()
        assert units.startswith("# units: -, -, s")
        assert len(units.split(", ")) == len(head.split(","))
        place = head.split(",").index(column)
        assert [float(row.split(",")[place]) for row in rows] == wanted
        assert [row.split(",")[0] for row in rows] == ["narrow"] * 6
    within = [r["predicted_low"] <= r["measured_power"] <= r["predicted_high"] for r in found["check"]["rows"]]
    assert [row.split(",")[-1] for row in rows] == ["yes" if one else "no" for one in within]
    one = kept[0]
    assert one["power_as_defined"] < one["power_coefficient"]
    assert 0.0 < one["frontal_power_coefficient"] < one["power_as_defined"]
    told(capsys, "trials", "export", str(scheme), "--out", str(tmp_path / "archive"))
    laws = {c["channel"]: c for c in json.loads((tmp_path / "archive" / "calibrations.json").read_text("utf-8"))}
    assert len(laws["shaft_torque"]["coefficients"]) == 5
    table = json.loads((tmp_path / "archive" / "trials.json").read_text("utf-8"))
    assert table["runs"]["narrow"]["width"] == "1.6 m"
    zeros = (tmp_path / "archive" / "zeros.csv").read_text("utf-8").splitlines()
    assert len(zeros) == 1 + 4, "two tares of two channels"


def test_a_cancel_of_trials_speaks_of_the_store(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(*_arguments: Any, **_more: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("racewright.cli.trials_import.import_trials", stop)
    assert run(["trials", "import", str(copied(tmp_path))]) == 130
    assert "the campaign's store is whole" in capsys.readouterr().err
