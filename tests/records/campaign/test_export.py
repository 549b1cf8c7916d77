"""What goes into a campaign comes out of it, in each format."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
import pytest
from scipy.io import netcdf_file

from racewright.errors import InputError
from racewright.records.campaign.export import export_campaign
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.store import open_campaign
from racewright.records.campaign.take_in import Source
from tests.records.campaign.common import one_reading, take_in, text, write

SOURCE = Source({"speed": "U_V", "torque": "Q_mV"}, {"speed": "V", "torque": "mV"}, LoggerForm())
SPEED = 1.0 + 0.01 * np.arange(300)


@pytest.mark.parametrize("kind", ["csv", "parquet", "netcdf"])
def test_round_trip(tmp_path: Path, kind: str) -> None:
    with open_campaign(tmp_path / "flume", make=True) as campaign:
        take_in(campaign, "a", write(tmp_path, text(300).replace("1.2000", "")), SOURCE, "run.csv")
        campaign.put_cells("a", "c", "", "[]", [("speed", 1, 2, "spike")])
        campaign.put_reduction("a", "r", [], one_reading(0.4))
        export_campaign(campaign, tmp_path / "out", kind)  # type: ignore[arg-type]
        with pytest.raises(InputError, match="exists already"):
            export_campaign(campaign, tmp_path / "out", "csv")
    about = json.loads((tmp_path / "out" / "runs.json").read_text("utf-8"))
    assert about[0]["rows"] == 300
    assert about[0]["channels"][0] == {"channel": "speed", "file_column": "U_V", "unit": "V"}
    assert "a,0,CP,0.4,,,-" in (tmp_path / "out" / "readings.csv").read_text("utf-8")
    found = _speed(tmp_path / "out", kind)
    assert np.isnan(found[20])
    np.testing.assert_allclose(np.delete(found, 20), np.delete(SPEED, 20), rtol=1e-12)


def _speed(folder: Path, kind: str) -> np.ndarray:
    if kind == "parquet":
        return pq.read_table(folder / "a.parquet")["speed"].to_numpy()
    if kind == "netcdf":
        with netcdf_file(folder / "a.nc", mmap=False) as file:
            assert file.variables["speed"].units == b"V"
            return np.array(file.variables["speed"][:], dtype=np.float64)
    with (folder / "a.csv").open(encoding="utf-8", newline="") as stream:
        assert stream.readline() == "# raw data as logged; units: time_s: s, speed: V, torque: mV\n"
        return np.array([float(row["speed"] or "nan") for row in csv.DictReader(stream)])
