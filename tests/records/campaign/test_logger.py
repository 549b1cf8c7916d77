"""Logger files of every form: the same rows come out; what is broken is refused or mended, and said."""

from __future__ import annotations

import bz2
import gzip
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
import pytest

from racewright.errors import InputError, MissingColumn
from racewright.records.campaign import clean_bytes, logger_csv
from racewright.records.campaign.form import Told
from racewright.records.campaign.logger import read_logger
from racewright.records.campaign.logger_form import LoggerForm
from tests.records.campaign.common import COLUMNS, text, whole, write


def test_plain_file(tmp_path: Path) -> None:
    found, told = whole(write(tmp_path, text()))
    assert isinstance(told, Told)
    assert (told.rows, told.repeated, told.cut_short, told.start) == (50, 0, False, None)
    np.testing.assert_allclose(found.time, np.arange(50) / 100.0, atol=1e-12)
    np.testing.assert_allclose(found.values[:, 0], 1.0 + 0.01 * np.arange(50), atol=1e-12)
    assert not found.missing.any()


@pytest.mark.parametrize(
    ("content", "form"),
    [
        (text(junk="Logger 7\nOperator: none\n\n", units="s,V,mV\n"), LoggerForm()),
        (text(units="[s],[V],[mV]\n").replace(",", ";").replace(".", ","), LoggerForm(decimal="comma")),
        (text().replace(",", "\t"), LoggerForm(delimiter="tab")),
        (text().replace("\n", "\r\n"), LoggerForm()),
        (b"\xef\xbb\xbf" + text().encode(), LoggerForm()),
        (text(junk="D\u00e9bit\n").encode("latin-1"), LoggerForm(encoding="latin-1")),
        (text().encode("utf-16"), LoggerForm(encoding="utf-16")),
        (text().replace("time,", "other,").replace("\n0", "\n9"), LoggerForm(clock="rate", rate=100.0)),
    ],
    ids=["junk and units", "decimal comma", "tabs", "crlf", "bom", "latin-1", "utf-16", "rate"],
)
def test_every_form_gives_the_same_rows(tmp_path: Path, content: str | bytes, form: LoggerForm) -> None:
    plain, _ = whole(write(tmp_path, text(), "plain.csv"))
    found, told = whole(write(tmp_path, content), form)
    np.testing.assert_allclose(found.time, plain.time, atol=1e-9)
    np.testing.assert_array_equal(found.values, plain.values)
    assert isinstance(told, Told)
    if b"mV" in (content if isinstance(content, bytes) else content.encode()).split(b"\n", 3)[-1][:40]:
        assert told.units == {"U_V": "V", "Q_mV": "mV"}


def test_row_of_units_is_read(tmp_path: Path) -> None:
    _, told = whole(write(tmp_path, text(units="[s],[V],[mV]\n")))
    assert isinstance(told, Told)
    assert told.units == {"U_V": "V", "Q_mV": "mV"}


def test_stamps(tmp_path: Path) -> None:
    rows = [f"2026-05-04 09:00:{i // 4:02d}.{25 * (i % 4):02d},{i},0.5" for i in range(20)]
    path = write(tmp_path, "time,U_V,Q_mV\n" + "\n".join(rows) + "\n")
    found, told = whole(path, LoggerForm(clock="stamps", zone=3600.0))
    np.testing.assert_allclose(found.time, 0.25 * np.arange(20), atol=1e-9)
    assert isinstance(told, Told)
    assert told.start == 1777881600.0  # 08:00 UTC
    zoned = write(tmp_path, "time,U_V,Q_mV\n" + "\n".join(r.replace(",", "Z,", 1) for r in rows) + "\n", "z.csv")
    _, told = whole(zoned, LoggerForm(clock="stamps", zone=3600.0))
    assert isinstance(told, Told)
    assert told.start == 1777885200.0


@pytest.mark.parametrize("zone", ["Z", "+01:00", ""])
@pytest.mark.parametrize("mark", [";", "\t", ","])
def test_stamps_with_a_decimal_comma(tmp_path: Path, zone: str, mark: str) -> None:
    """ISO 8601 has both marks; between cells parted by commas the stamp stands in quotes. Whole seconds have none."""
    parts = [f",{k:02d}0" if k else "" for k in range(0, 100, 25)]
    stamps = [f"2026-05-03T10:00:{s:02d}{part}{zone}" for s in range(3) for part in parts]
    rows = [mark.join((f'"{stamp}"' if mark == "," else stamp, "1", "2")) for stamp in stamps]
    path = write(tmp_path, "\n".join([mark.join(("time", "U_V", "Q_mV")), *rows]) + "\n")
    found, told = whole(path, LoggerForm(clock="stamps"))
    np.testing.assert_allclose(found.time, 0.25 * np.arange(12), atol=1e-9)
    assert told.start == 1777802400.0 - (3600.0 if zone == "+01:00" else 0.0)


def test_a_stamp_that_is_none_among_decimal_commas_is_named_with_its_line(tmp_path: Path) -> None:
    rows = ["2026-05-03T10:00:00,000Z;1;2", "2026-05-03T10:00:00,250Z;1;2", "2026-05-03T10:61:00,500Z;1;2"]
    path = write(tmp_path, "\n".join(["time;U_V;Q_mV", *rows]) + "\n")
    with pytest.raises(InputError):
        whole(path, LoggerForm(clock="stamps"))
    path.write_text(path.read_text("utf-8").replace("10:61:00,500Z", "noon"), "utf-8")
    with pytest.raises(InputError, match=r"run\.csv:4: time: '2026-05-03Tnoon' is no time"):
        whole(path, LoggerForm(clock="stamps"))


def test_equal_stamps_of_a_coarse_clock_are_spread(tmp_path: Path) -> None:
    rows = [f"2026-05-04T09:00:{i // 5:02d},{i},0" for i in range(23)]
    found, told = whole(write(tmp_path, "time,U_V,Q_mV\n" + "\n".join(rows) + "\n"), LoggerForm(clock="stamps"))
    assert isinstance(told, Told)
    assert told.repeated == 23 - 5
    np.testing.assert_allclose(np.diff(found.time)[:19], 0.2, atol=1e-9)
    assert (np.diff(found.time) > 0.0).all()


def test_blank_and_marked_cells_are_missing_not_nought(tmp_path: Path) -> None:
    content = text(5).replace("1.0200", "").replace("1.0300", "NaN")
    found, _ = whole(write(tmp_path, content))
    np.testing.assert_array_equal(found.missing[:, 0], [False, False, True, True, False])
    assert np.isfinite(found.values).all()


def test_last_line_without_end_is_left_out_and_said(tmp_path: Path) -> None:
    found, told = whole(write(tmp_path, text()[:-3]))
    assert isinstance(told, Told)
    assert told.cut_short
    assert found.time.size == 49


def test_parquet(tmp_path: Path) -> None:
    plain, _ = whole(write(tmp_path, text()))
    table = pa.table({"time": plain.time, "U_V": plain.values[:, 0], "Q_mV": plain.values[:, 1]})
    pq.write_table(table, tmp_path / "run.parquet")
    found, told = whole(tmp_path / "run.parquet")
    np.testing.assert_array_equal(found.values, plain.values)
    np.testing.assert_array_equal(found.time, plain.time)
    assert isinstance(told, Told)
    assert len(told.sha256) == 64


def test_tdms(tmp_path: Path) -> None:
    nptdms = pytest.importorskip("nptdms", reason="the extra is not installed")
    plain, _ = whole(write(tmp_path, text()))
    channels = [
        nptdms.ChannelObject("rig", name, data, properties={"unit_string": unit})
        for name, data, unit in (
            ("time", plain.time, "s"),
            ("U_V", plain.values[:, 0], "V"),
            ("Q_mV", plain.values[:, 1], "mV"),
        )
    ]
    with nptdms.TdmsWriter(tmp_path / "run.tdms") as writer:
        writer.write_segment(channels)
    found, told = whole(tmp_path / "run.tdms")
    np.testing.assert_array_equal(found.values, plain.values)
    assert isinstance(told, Told)
    assert told.units == {"U_V": "V", "Q_mV": "mV"}
    with pytest.raises(MissingColumn, match="no channel 'Z'"):
        whole(tmp_path / "run.tdms", columns=("Z",))


def _late(old: str, new: str) -> str:
    return text(30000).replace(old, new, 1)


REFUSED = {
    "empty": ("", 0, "is empty"),
    "wrong column": (text().replace("U_V", "U_volt"), 1, "no column 'U_V'; the columns are 'time', 'U_volt', 'Q_mV'"),
    "column twice": (text().replace("Q_mV", "U_V"), 1, "no column 'Q_mV'"),
    "units changed within": (_late("250.00,", "s,V,mV\n250.00,"), 25002, "the units change within the file"),
    "clock steps back": (_late("250.00,", "200.00,"), 0, "the clock steps back by 49.99 s at row 25001"),
    "short row": (_late("\n250.00,", "\n250.00;"), 25002, "has 2 cells; the header has 3"),
    "NUL bytes": (text().replace("1.2000", "1.\0000").encode(), 22, "holds NUL bytes"),
    "mixed decimal marks": (text().replace(",", ";").replace("1.2000", "1,2000"), 22, "decimal comma"),
    "text": (_late("\n250.00,251.0000", "\n250.00,err"), 25002, "'err' is not a number"),
    "no time": (_late("\n250.00,", "\nlater,"), 25002, "'later' is no time"),
    "header alone": ("time,U_V,Q_mV\n", 0, "holds a header but no rows"),
    "gzip named csv": (gzip.compress(b"0" * 1000000), 0, "is a gzip archive"),
    "bzip2 named csv": (bz2.compress(b"0" * 1000000), 0, "is a bzip2 archive"),
    "Parquet named csv": (b"PAR1" + b"x" * 100, 0, "is a Parquet file"),
    "no line ends": ("time,U_V,Q_mV\n" + "1" * 9_000_000, 2, "longer than a million"),
    "latin-1 said to be utf-16": (text().encode("latin-1"), 1, "not of its encoding"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_malformed_files_are_refused_with_the_line(tmp_path: Path, name: str) -> None:
    content, line, said = REFUSED[name]
    form = LoggerForm(encoding="utf-16") if "utf-16" in name else LoggerForm()
    if name == "no line ends":
        with pytest.raises(InputError, match="longer than a million"):
            whole(write(tmp_path, content), form)
        return
    with pytest.raises(InputError) as fault:
        whole(write(tmp_path, content), form)
    assert said in str(fault.value)
    assert (fault.value.line or 0) == line
    assert fault.value.file == "run.csv"


def test_sparse_file_of_ten_gigabytes_is_refused_at_once(tmp_path: Path) -> None:
    path = tmp_path / "run.csv"
    with path.open("wb") as stream:
        stream.truncate(10 * 2**30)
    with pytest.raises(InputError, match="holds NUL bytes"):
        read_logger(path, COLUMNS, LoggerForm(), "run.csv")


def test_directory_and_missing_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is a directory"):
        whole(tmp_path)
    with pytest.raises(InputError, match="no such file"):
        whole(tmp_path / "none.csv")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_rows_do_not_depend_on_how_many_are_read_at_a_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, encoding: str
) -> None:
    """A coarse clock, three rows a stamp, blanks and what is no number: many small pieces give what one gives."""
    cells = [f"{1.0 + 0.01 * i:.4f}" if i % 7 else ("" if i % 2 else "inf") for i in range(4001)]
    lines = [f"{i // 3 / 10.0:.1f},{cell},{-3.0 + 0.1 * (i % 7):.3f}" for i, cell in enumerate(cells)]
    path = write(tmp_path, ("time,U_V,Q_mV\n" + "\n".join(lines) + "\n").encode(encoding))
    form = LoggerForm(encoding=encoding)  # type: ignore[arg-type]
    one, told_one = whole(path, form)
    monkeypatch.setattr(clean_bytes, "TAKEN", 300)
    monkeypatch.setattr(clean_bytes, "_LEAST", 200)
    monkeypatch.setattr(logger_csv, "TAKEN", 300)
    assert len(list(read_logger(path, COLUMNS, form, "run.csv").chunks)) > 50
    many, told_many = whole(path, form)
    assert one.time.size == 4001
    assert one.missing[:, 0].sum() == 572
    np.testing.assert_array_equal(many.values, one.values)
    np.testing.assert_array_equal(many.missing, one.missing)
    np.testing.assert_allclose(many.time, one.time, rtol=0.0, atol=1e-9)
    assert told_many == told_one
