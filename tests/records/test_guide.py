"""The guide to record files does what it says: every example is read, and gives what stands below it."""

from __future__ import annotations

import re
import tomllib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, get_args

import pytest

from racewright.errors import InputError
from racewright.place.gaps import gaps_of
from racewright.records import csv_form
from racewright.records.csv_form import CsvForm
from racewright.records.series import read_any_series

GUIDE = (Path(__file__).parents[2] / "docs" / "guide" / "records.md").read_text("utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```\n\n```csv\n(.*?)```\n\n```text\n(.*?)```", GUIDE, re.DOTALL)
FORM_KEYS = ("delimiter", "decimal", "encoding", "order")


def test_every_block_of_the_guide_belongs_to_an_example() -> None:
    assert len(EXAMPLES) == 4
    assert GUIDE.count("```") == 6 * len(EXAMPLES)


@pytest.mark.parametrize(("keys", "text", "told"), EXAMPLES)
def test_an_example_gives_what_stands_below_it(tmp_path: Path, keys: str, text: str, told: str) -> None:
    wanted = tomllib.loads(keys)
    form = CsvForm(**{key: wanted.pop(key) for key in FORM_KEYS if key in wanted})
    name = wanted.pop("file")
    (tmp_path / name).write_bytes(text.encode(form.encoding))
    assert told == _told(tmp_path / name, form, {"zone": "UTC"} | wanted)


def _told(path: Path, form: CsvForm, wanted: dict[str, Any]) -> str:
    try:
        series = read_any_series(path, form=form, shown_as=path.name, **wanted)
    except InputError as fault:
        return f"error: {fault}\n"
    gaps = gaps_of(series)
    lines = [f"values: {series.value.size}", f"blank: {series.blank}"]
    for name, i in (("first", 0), ("last", -1)):
        lines.append(f"{name}: {_moment(int(series.time[i]))} {series.value[i]:.6g}")
    where = "" if gaps.since is None else f", the longest {gaps.longest / 86400:g} d from {_moment(gaps.since)}"
    lines.append(f"gaps: {gaps.count}{where}")
    if series.repeated or series.backward:
        lines += [f"repeated: {series.repeated}", f"backward: {series.backward}"]
    return "\n".join(lines) + "\n"


def _moment(seconds: int) -> str:
    return datetime.fromtimestamp(seconds, UTC).strftime("%Y-%m-%dT%H:%MZ")


def test_the_table_of_keys_is_that_of_the_code() -> None:
    for key in FORM_KEYS:
        row = re.search(rf"^\| `{key}` \| (.*?) \| `\"(.*?)\"`", GUIDE, re.MULTILINE)
        assert row is not None
        assert tuple(re.findall(r'`"(.*?)"`', row.group(1))) == get_args(getattr(csv_form, key.capitalize()))
        assert row.group(2) == getattr(CsvForm(), key)


def test_the_limit_of_the_guide_is_that_of_the_code() -> None:
    from racewright.records.series_rows import MOST_ROWS

    assert f"{MOST_ROWS // 10**6} million values" in GUIDE
