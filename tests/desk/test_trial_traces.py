"""Raw traces: few stretches that keep every extreme, at any zoom, and flagged spans in their place."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from racewright.desk.memory import STORE
from racewright.desk.parts.trial_store import MARKED, STRETCHES, joined, trace_of
from racewright.errors import InputError
from racewright.records.campaign.extremes import Extremes, overview, window
from racewright.records.campaign.form import Chunk
from racewright.records.campaign.raw_file import RawWriter
from racewright.records.campaign.store import DATABASE, Run, open_campaign

RATE = 100.0
ROWS = 700_000
"""More than one group of rows, and far more than the overview's stretches."""
PEAK, DIP = 123_457, 600_001


@pytest.fixture(scope="module")
def values() -> np.ndarray:
    found = np.sin(np.arange(ROWS) / 5000.0)
    found[PEAK], found[DIP] = 9.0, -7.0
    return found


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, values: np.ndarray) -> Path:
    """A store with one run, a channel, a stretch of blank cells, and flags."""
    made = tmp_path_factory.mktemp("trace") / "campaign_flume"
    with open_campaign(made, make=True) as campaign:
        run = Run("long", "long.csv", "0", "0", "long.parquet", ROWS, (ROWS - 1) / RATE, None, 0, False, "")
        writer = RawWriter(campaign.raw_path(run), ["torque"], ["V"])
        blank = np.zeros(ROWS, np.bool_)
        blank[300_000:310_000] = True
        for first in range(0, ROWS, 100_000):
            rows = slice(first, first + 100_000)
            time = np.arange(first, first + 100_000) / RATE
            writer.add(Chunk(time, values[rows, None], blank[rows, None]))
        writer.finish("long.parquet")
        campaign.add_run(run, [("torque", "torque_V", "V", 10_000)])
        flags = [("torque", PEAK, PEAK, "spike"), ("torque", 300_000, 309_999, "blank")]
        campaign.put_cells("long", "recipe", "", "[]", flags)
    return made


def test_a_whole_run_keeps_its_extremes(folder: Path) -> None:
    """One reading of 700 000 stands out: it is on the screen, within a stretch of its time."""
    found = trace_of(folder, RATE, "long", "torque", 0.0, None)
    assert found.rows == ROWS
    assert len(found.time) <= STRETCHES
    greatest = [v for v in found.greatest if v is not None]
    least = [v for v in found.least if v is not None]
    assert (max(greatest), min(least)) == (9.0, -7.0)
    at = found.greatest.index(9.0)
    assert found.time[at] <= PEAK / RATE < found.time[at + 1]
    assert None in found.least


def test_closer_shows_the_rows_themselves(folder: Path, values: np.ndarray) -> None:
    found = trace_of(folder, RATE, "long", "torque", (PEAK - 50) / RATE, (PEAK + 50) / RATE)
    first = round(found.time[0] * RATE)
    assert found.least == found.greatest == values[first : first + len(found.time)].tolist()
    assert first <= PEAK - 50
    assert 9.0 in found.greatest


@pytest.mark.parametrize("span", [(0.0, 7000.0), (1000.0, 2000.0), (1234.0, 1235.0), (5000.0, 6900.0)])
def test_every_zoom_holds_the_extremes_of_its_rows(
    folder: Path, values: np.ndarray, span: tuple[float, float]
) -> None:
    found = trace_of(folder, RATE, "long", "torque", *span)
    rows = values[int(np.ceil(span[0] * RATE)) : int(span[1] * RATE) + 1].copy()
    blank = np.arange(rows.size) + int(np.ceil(span[0] * RATE))
    rows = rows[(blank < 300_000) | (blank >= 310_000)]
    assert max(v for v in found.greatest if v is not None) >= rows.max()
    assert min(v for v in found.least if v is not None) <= rows.min()
    assert len(found.time) <= STRETCHES


def test_flags_stand_where_they_were_found(folder: Path) -> None:
    found = trace_of(folder, RATE, "long", "torque", 0.0, None)
    assert [(f.start, f.end, f.reason) for f in found.flags] == [
        (PEAK / RATE, PEAK / RATE, "spike"),
        (3000.0, 3099.99, "blank"),
    ]
    assert trace_of(folder, RATE, "long", "torque", 4000.0, 5000.0).flags == ()


def test_many_flags_become_few_and_none_is_lost() -> None:
    spans = [(float(t), t + 0.01, "spike" if t % 2 else "stuck") for t in range(5000)]
    found = joined(spans, MARKED)
    assert len(found) <= MARKED + 1
    assert all(any(a <= s[0] and s[1] <= b for a, b, _why in found) for s in spans)
    assert {why for _a, _b, reasons in found for why in reasons.split(", ")} == {"spike", "stuck"}


@pytest.mark.parametrize(("run", "channel"), [("../../etc/passwd", "torque"), ("long", "time_s"), ("long", "' or 1")])
def test_names_are_looked_up_never_opened(folder: Path, run: str, channel: str) -> None:
    with pytest.raises(InputError, match="in the campaign's store"):
        trace_of(folder, RATE, run, channel, 0.0, None)


def test_joining_keeps_what_is_not_blank() -> None:
    blank = float("nan")
    found = Extremes(np.arange(5.0), np.array([blank, 2, 1, blank, blank]), np.array([blank, 3, 4, blank, blank]))
    two = found.joined(2)
    assert two.time.tolist() == [0.0, 3.0]
    assert (two.least[0], two.greatest[0]) == (1.0, 4.0)
    assert np.isnan(two.least[1])


def test_overview_and_window_tell_the_same(folder: Path) -> None:
    path = folder / "raw" / "long.parquet"
    wide, near = overview(path, "torque"), window(path, "torque", 0.0, 1e9)
    assert near.time.size == ROWS
    assert np.nanmax(near.greatest) == np.nanmax(wide.greatest)
    assert np.nanmin(near.least) == np.nanmin(wide.least)


def test_opening_a_store_does_not_look_like_a_change(folder: Path) -> None:
    """Answers are held until the store's file changes; a look at a trace is no change."""
    before = (folder / DATABASE).stat().st_mtime_ns
    trace_of(folder, RATE, "long", "torque", 0.0, 1.0)
    assert (folder / DATABASE).stat().st_mtime_ns == before
    assert STORE.format("flume") == f"{folder.name}/{DATABASE}"
