"""`check` says of a holding that it cannot float or reach, and of seasons of logs that they leave a gap."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    return tmp_path / "demo" / "scheme.toml"


def warned(scheme: Path, capsys: pytest.CaptureFixture[str], *changes: tuple[str, str]) -> list[str]:
    text = scheme.read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    scheme.write_text(text, "utf-8")
    capsys.readouterr()
    check_scheme(scheme, as_json=True)
    remarks = json.loads(capsys.readouterr().out)["remarks"]
    assert all((one["severity"], one["about"]) == ("caution", "holding four_lines") for one in remarks)
    return [one["text"] for one in remarks]


def test_a_body_heavier_than_its_water_cannot_float(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (text,) = warned(scheme, capsys, ('mass = "330 kg"', 'mass = "700 kg"'))
    assert text.startswith("It cannot float: 0.66 m3 lift 660 kg in this water, and all that floats weighs 700 kg")
    assert "take off 40 kg and more" in text


def test_lines_from_above_may_hold_a_heavy_body(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    high = ('height = "1.6 m"', 'height = "5 m"')
    rope = ('length = "20.92 m"', 'length = "21.3 m"')
    assert warned(scheme, capsys, ('mass = "330 kg"', 'mass = "700 kg"'), high, rope) == []


def test_a_line_shorter_than_its_way_is_told(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    texts = warned(scheme, capsys, ('length = "20.92 m"', 'length = "15 m"'))
    assert len(texts) == 2
    assert texts[0].startswith("Line port_bow cannot reach: it is 18 m long, 19.89 m when it parts, and from anchor")
    assert "it is 23.9 m where the machine is meant to hang." in texts[0]


def test_a_machine_that_follows_the_level_is_asked_in_the_highest_water(
    scheme: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Keel lines of 1.2 m; the axis 1.6 m under the highest water is metres above their eyes."""
    texts = warned(scheme, capsys, ('hub_height = "1.9 m" ', 'hub_depth = "1.6 m" '))
    assert [text.split()[1] for text in texts] == ["port_keel", "starboard_keel"]
    assert "where the machine is meant to hang in the highest water, " in texts[0]


@pytest.mark.parametrize(
    ("flood", "rest", "end", "said"),
    [
        (0.15, 0.15, 1.0, ""),
        (0.1, 0.3, 1.0, "leave out 20 % of the year, water exceeded from 10 % to 30 % of the time"),
        (0.1, 0.3, 0.9, "leave out 30 % of the year, water exceeded from 10 % to 30 % and from 90 % to 100 % of"),
    ],
)
def test_seasons_that_leave_a_gap_are_told(
    scheme: Path, capsys: pytest.CaptureFixture[str], flood: float, rest: float, end: float, said: str
) -> None:
    changes = (
        ("exceeded_to = 0.15", f"exceeded_to = {flood}"),
        ("exceeded_from = 0.15\nexceeded_to = 1.0", f"exceeded_from = {rest}\nexceeded_to = {end}"),
    )
    texts = warned(scheme, capsys, *changes)
    assert len(texts) == bool(said)
    assert all(said in text for text in texts)
