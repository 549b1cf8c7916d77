"""What a campaign's tables may not say, refused alike by `check`, by the store and by the ledger."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from racewright.cli.main import run
from racewright.errors import InputError
from racewright.ledger.trials_limits import check_fits, check_times
from tests.ledger.model_example import copied

RUN = {"width": None, "depth": None, "begin": None, "end": None, "cleaned": None, "tares": {}}


def only(path: Path, name: str) -> str:
    """The scheme's text with one run alone, so that nothing is said of the others."""
    text = path.read_text("utf-8")
    for other in {"loads", "narrow", "weed"} - {name}:
        text = re.sub(rf"\[trials\.flume\.runs\.{other}(\..*)?\].*\n(?:[^\[\n].*\n|\n)*", "", text)
    return text


def fails(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    capsys.readouterr()
    assert run(list(arguments)) == 2
    return capsys.readouterr().err


def _both_refuse(folder: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str) -> None:
    """`check` and `trials import` say the same of the example's narrow run with a word changed."""
    path = copied(folder)
    text = only(path, "narrow")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    for verb in (("check",), ("trials", "import")):
        assert re.search(said, fails(capsys, *verb, str(path))), verb


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('width = "1.6 m"', 'width = "0.5 m"', r"scheme\.toml:\d+: trials\.flume\.runs\.narrow\.width: .*duct"),
        (
            '\ndepth = "3 m"\naxis_height = "1.5 m"',
            '\ndepth = "0.5 m"\naxis_height = "0.25 m"',
            r"rig\.depth: .*duct",
        ),
        ('width = "1.6 m"', 'width = "0.53 m"', r"runs\.narrow\.width: .*0\.53 m.*duct"),
        ('end = "570 s"', 'end = "5700 s"', r"runs\.narrow\.tares\.after\.end: 5700 s .*narrow.*569\.95 s"),
        (
            'width = "1.6 m"',
            'width = "1.6 m"\none_load = true\ncleaned = "2460 s"',
            r"runs\.narrow\.cleaned: 2460 s lies beyond the end of run 'narrow'.*569\.95 s",
        ),
        ('width = "1.6 m"', 'width = "1.6 m"\nbegin = "2000 s"', r"runs\.narrow\.begin: .*569\.95 s"),
        ('width = "1.6 m"', 'width = "1.6 m"\nend = "2000 s"', r"runs\.narrow\.end: .*2000 s .*569\.95 s"),
        ('rate = "20 Hz"', 'rate = "200 Hz"', r"logger\.rate: narrow\.csv: its rows come slower.* about 20 Hz"),
    ],
)
def test_check_and_import_refuse_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str
) -> None:
    _both_refuse(tmp_path, capsys, old, new, said)


def test_the_ledger_refuses_them_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = copied(tmp_path)
    text = only(path, "narrow")
    for old, new, said in (
        (
            'width = "1.6 m"',
            'width = "0.53 m"',
            "trials.flume.runs.narrow.width: in run 'narrow' the channel is 0.53 m",
        ),
        ('end = "570 s"', 'end = "700 s"', "trials.flume.runs.narrow.tares.after.end: 700 s lies beyond"),
        ('width = "1.6 m"', 'width = "1.6 m"\nend = "700 s"', "trials.flume.runs.narrow.end: run 'narrow': 700 s"),
    ):
        path.write_text(text.replace(old, new, 1), "utf-8")
        assert said in fails(capsys, "trials", "compare", str(path))


def test_a_duct_that_fills_its_channel_is_refused_and_one_just_inside_is_not() -> None:
    check_fits({"width": 2.0, "depth": 1.01}, "one", RUN, 0.5)
    with pytest.raises(InputError, match="above 1 m") as fault:
        check_fits({"width": 2.0, "depth": 1.0}, "one", RUN, 0.5)
    assert fault.value.key == "trials.rig.depth"


def test_a_time_may_pass_the_end_by_a_second() -> None:
    tares = {"after": {"start": 90.0, "end": 100.9}}
    check_times("one", {**RUN, "tares": tares}, 100.0, 0.0, "a.csv")
    with pytest.raises(InputError, match="up to 99 s") as fault:
        check_times("one", {**RUN, "tares": tares}, 99.0, 0.0, "a.csv")
    assert fault.value.key == "trials.runs.one.tares.after.end"


def _cells(line: str, of: str) -> str:
    return of.replace(line, line.replace(".", ","), 1)


@pytest.mark.parametrize(
    ("file", "change", "said"),
    [
        (
            "pieces.csv",
            lambda t: t.replace("sticks,passed", "sticks,gone", 1),
            r"pieces\.csv:\d+: .*'gone' is none of",
        ),
        ("pieces.csv", lambda t: t + "sticks,passed,none,not needed,0\n" * 9, "were let go"),
    ],
)
def test_check_refuses_pieces_that_the_count_refuses(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], file: str, change: object, said: str
) -> None:
    path = copied(tmp_path)
    data = path.with_name(file)
    data.write_text(change(data.read_text("utf-8")), "utf-8")  # type: ignore[operator]
    assert re.search(said, fails(capsys, "check", str(path)))


def test_check_refuses_rows_that_the_import_refuses(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A unit row that contradicts the scheme, decimal commas, a broken row: the same words from both."""
    path = copied(tmp_path)
    path.write_text(only(path, "narrow"), "utf-8")
    data = path.with_name("narrow.csv")
    text = data.read_text("utf-8")
    lines = text.splitlines(keepends=True)
    head = next(k for k, line in enumerate(lines) if line.startswith("time"))
    row = next(k for k in range(head + 1, len(lines)) if lines[k][0].isdigit())
    mark = next(c for c in lines[head] if c in ",;\t")
    commas = [*lines[: head + 1], *(line.replace(mark, ";").replace(".", ",") for line in lines[head + 1 :])]
    commas[head] = lines[head].replace(mark, ";")
    units = mark.join("kN" if "axial" in name else "s" for name in lines[head].split(mark)) + "\n"
    cases = (
        ("".join([*lines[: head + 1], units, *lines[row:]]), "its row of units says"),
        ("".join(commas), "decimal = 'comma' in the logger's table"),
        (text.replace(lines[row + 3], "1,2\n", 1), "cells; the header has"),
    )
    for broken, said in cases:
        data.write_text(broken, "utf-8")
        for verb in (("check",), ("trials", "import")):
            assert said in fails(capsys, *verb, str(path)), (verb, said)
    latin = "".join([*lines[: head + 1], units, *lines[row:]]).replace("kN", "°C").encode("latin-1")
    data.write_bytes(latin)
    for verb in (("check",), ("trials", "import")):
        assert "encoding = 'cp1252'" in fails(capsys, *verb, str(path))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            'column = "flow_a"',
            'column = "flow_x"',
            r"toml:\d+: trials\.flume\.channels\.flow_a\.column: narrow\.csv, line 6: no",
        ),
        (
            'column = "flow_b"',
            'column = "flow_a"',
            r"channels\.flow_b\.column: 'flow_a' is the column of channel 'flow_a'",
        ),
        (
            'column = "flow_b"',
            'column = "time"',
            r"channels\.flow_b\.column: 'time' is the column of the logger's clock",
        ),
        (
            'time_column = "time"',
            'time_column = "clock"',
            r"toml:\d+: trials\.flume\.logger\.time_column: narrow\.csv, line 6",
        ),
        (
            'unit = "mV"',
            'unit = "V"',
            r"toml:\d+: trials\.flume\.channels\.shaft_torque\.unit: narrow\.csv: its row of units",
        ),
    ],
)
def test_a_wrong_mapping_is_said_of_its_key(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, said: str
) -> None:
    _both_refuse(tmp_path, capsys, old, new, said)
