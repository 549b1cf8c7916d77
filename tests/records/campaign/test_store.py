"""The campaign store: import once, kept as logged, swept, locked, versioned."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import duckdb
import numpy as np
import pytest

from racewright.errors import InputError
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.store import DATABASE, MARKER, RAW, open_campaign
from racewright.records.campaign.tables import STEPS, VERSION
from racewright.records.campaign.take_in import Source
from tests.records.campaign.common import one_reading, take_in, text, write

SOURCE = Source({"speed": "U_V", "torque": "Q_mV"}, {"speed": "V", "torque": "mV"}, LoggerForm())


def test_import_keeps_what_was_logged_and_does_it_once(tmp_path: Path) -> None:
    path = write(tmp_path, text(500).replace("1.2000", ""))
    with open_campaign(tmp_path / "flume", make=True) as campaign:
        first = take_in(campaign, "run_1", path, SOURCE, "run.csv")
        again = take_in(campaign, "run_1", path, SOURCE, "run.csv")
        assert (first.fresh, again.fresh) == (True, False)
        assert first.run == again.run
        chunk = next(campaign.chunks(first.run, ["speed", "torque"]))
        assert chunk.missing[20].tolist() == [True, False]
        np.testing.assert_allclose(chunk.values[3], [1.03, -2.7])
        assert campaign.channels("run_1") == [("speed", "U_V", "V"), ("torque", "Q_mV", "mV")]
    with open_campaign(tmp_path / "flume") as campaign:
        assert [r.rows for r in campaign.runs()] == [500]
    assert len(list((tmp_path / "flume" / RAW).iterdir())) == 1


def test_changed_file_replaces_its_run(tmp_path: Path) -> None:
    with open_campaign(tmp_path / "flume", make=True) as campaign:
        take_in(campaign, "run_1", write(tmp_path, text(50)), SOURCE, "run.csv")
        campaign.put_cells("run_1", "c", "", "[]", [("speed", 1, 2, "spike")])
        campaign.put_reduction("run_1", "r", [(0.0, 1.0, True, "")], one_reading(0.4, 0.01, 9.0))
        assert campaign.recipe("run_1") == "r"
        take_in(campaign, "run_1", write(tmp_path, text(60)), SOURCE, "run.csv")
        assert campaign.recipe("run_1") is None
        assert campaign.rows("reading") == campaign.rows("flag") == []
        assert [r.rows for r in campaign.runs()] == [60]
    assert len(list((tmp_path / "flume" / RAW).iterdir())) == 1


def test_refused_import_leaves_nothing(tmp_path: Path) -> None:
    with open_campaign(tmp_path / "flume", make=True) as campaign:
        with pytest.raises(InputError, match="clock steps back"):
            take_in(campaign, "run_1", write(tmp_path, text(50).replace("0.40,", "0.10,")), SOURCE, "run.csv")
        with pytest.raises(InputError, match="its row of units says 'kN'"):
            take_in(campaign, "run_2", write(tmp_path, text(units="s,V,kN\n")), SOURCE, "run.csv")
        with pytest.raises(InputError, match="is no name of a run"):
            take_in(campaign, "../x", write(tmp_path, text()), SOURCE, "run.csv")
        assert campaign.runs() == []
    assert list((tmp_path / "flume" / RAW).iterdir()) == []


def test_orphans_are_swept_when_the_store_is_opened(tmp_path: Path) -> None:
    folder = tmp_path / "flume"
    with open_campaign(folder, make=True) as campaign:
        take_in(campaign, "run_1", write(tmp_path, text()), SOURCE, "run.csv")
    (folder / RAW / "half.parquet.part").write_bytes(b"x")
    (folder / RAW / "unnamed.parquet").write_bytes(b"x")
    with open_campaign(folder) as campaign:
        assert [p.name for p in (folder / RAW).iterdir()] == [campaign.runs()[0].raw]


def test_second_process_is_told_who_has_the_store(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from racewright.records.campaign.store import open_campaign\n"
        "try:\n    with open_campaign(Path(sys.argv[1])): pass\n"
        "except Exception as fault: print(fault); sys.exit(getattr(fault, 'exit_code', 1))"
    )
    with open_campaign(tmp_path / "flume", make=True):
        other = subprocess.run([sys.executable, "-c", code, str(tmp_path / "flume")], capture_output=True, text=True)
    assert other.returncode == 2
    assert "in use by process" in other.stdout


def test_stores_of_other_versions_and_folders(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="holds no campaign yet"), open_campaign(tmp_path / "none"):
        pass
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("x", "utf-8")
    with pytest.raises(InputError, match="is not empty"), open_campaign(tmp_path / "full", make=True):
        pass
    folder = tmp_path / "flume"
    with open_campaign(folder, make=True):
        pass
    with duckdb.connect(str(folder / DATABASE)) as link:
        link.execute("update about set value = '99' where key = 'version'")
    with pytest.raises(InputError, match="version 99, newer than"), open_campaign(folder):
        pass
    (folder / DATABASE).write_bytes(b"not a database")
    with pytest.raises(InputError, match="cannot be opened"), open_campaign(folder):
        pass
    assert (folder / MARKER).is_file()
    assert sorted(STEPS) == list(range(1, VERSION + 1))


def test_two_documented_lines_read_the_store(tmp_path: Path) -> None:
    folder = tmp_path / "flume"
    with open_campaign(folder, make=True) as campaign:
        take_in(campaign, "run_1", write(tmp_path, text(50)), SOURCE, "run.csv")
    link = duckdb.connect(str(folder / DATABASE), read_only=True)
    assert link.sql("select run, rows from run").fetchall() == [("run_1", 50)]
    assert link.sql(f"select count(*) from read_parquet('{folder}/raw/*.parquet')").fetchall() == [(50,)]
    link.close()
