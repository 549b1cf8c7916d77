"""`check` refuses a time zone that is none, at its key."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example
from racewright.errors import InputError


def _with(tmp_path: Path, example: str, *changes: tuple[str, str]) -> Path:
    copy_example(tmp_path / "demo", name=example, force=False, as_json=False)
    scheme = tmp_path / "demo" / "scheme.toml"
    text = scheme.read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    scheme.write_text(text, "utf-8")
    return scheme


@pytest.mark.parametrize(
    ("example", "old", "new", "said"),
    [
        (
            "river_unit",
            'zone = "UTC"\nsource',
            'zone = "+25:00"\nsource',
            "place.otter_bend.record.zone: '+25:00' is not",
        ),
        (
            "river_unit",
            'zone = "UTC"               # the',
            'zone = "Otter/Bend" #',
            "supply.load.zone: 'Otter/Bend' is no",
        ),
        (
            "tidal_unit",
            'kind = "east north"',
            'kind = "east north"\nzone = "here"',
            "gannet_sound.tide.zone: 'here' is not",
        ),
        (
            "model_test",
            'clock = "seconds"',
            'clock = "seconds"\nzone = "noon"',
            "trials.flume.logger.zone: 'noon' is not",
        ),
    ],
)
def test_a_zone_that_is_none_is_refused_at_its_key(
    tmp_path: Path, example: str, old: str, new: str, said: str
) -> None:
    scheme = _with(tmp_path, example, (old, new))
    with pytest.raises(InputError) as refused:
        check_scheme(scheme, as_json=False)
    assert said in str(refused.value)
    assert "scheme.toml:" in str(refused.value)


def test_a_village_may_name_a_region(tmp_path: Path) -> None:
    check_scheme(
        _with(tmp_path, "river_unit", ('zone = "UTC"               # the', 'zone = "Pacific/Auckland" #')),
        as_json=False,
    )
