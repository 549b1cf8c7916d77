"""What is refused of fish and sound: without a word that a reader could take for an answer."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.store import Store, cache_folder
from racewright.passage.barotrauma import decompression
from racewright.passage.exposure import exposure
from racewright.passage.species import fish_class
from racewright.passage.strike import strike
from racewright.sound.hearing import auditory_group
from racewright.sound.level import level
from racewright.sound.sounding_row import sounding_rows
from racewright.sound.source import SoundSource
from racewright.sound.turbulence_source import turbulence_source
from racewright.sound.water_sound import FRESH as FRESH_SOUND
from tests.ledger.common import FULL_EXAMPLE, load_changed
from tests.passage.machine import DEPTH, FRESH, UNIT, machine

SMOLT = fish_class("salmonid_smolt")


def source() -> SoundSource:
    one = machine()
    return turbulence_source(sounding_rows(one.vanes, one.blades, one.point), 999.7, 1447.0, 2.4, 0.1, 4.0)


@pytest.mark.parametrize("edition", ["", None, "2019", 2024])
def test_an_auditory_group_without_a_known_edition(edition: Any) -> None:
    with pytest.raises(InputError, match="wants an edition"):
        auditory_group(edition, "HF")


@pytest.mark.parametrize("groups", [("HF",), (("HF",),), ("2024",)])
def test_levels_for_letters_alone(groups: Any) -> None:
    with pytest.raises(InputError, match="edition"):
        level(source(), [10.0], FRESH_SOUND, groups=groups)


def test_the_same_letters_mean_other_animals_in_another_edition() -> None:
    """HF of 2018 hears from 12 kHz, HF of 2024 from 1.7 kHz: with the wrong one a threshold is met elsewhere."""
    older, later = auditory_group("2018", "HF"), auditory_group("2024", "HF")
    assert older.low_frequency > 5.0 * later.low_frequency
    assert later.shift_threshold - older.shift_threshold == 28.0


@pytest.mark.parametrize("pressure", [-1.0, 0.0, math.nan, math.inf])
def test_a_pressure_that_is_not_absolute(pressure: float) -> None:
    """One above the atmosphere's, told as if it were absolute, is below zero where the water is sucked."""
    for pair in ((101325.0, pressure), (pressure, 101325.0)):
        with pytest.raises(InputError, match="absolute"):
            decompression(SMOLT, *pair)


def test_water_that_would_be_sucked_below_zero_has_no_answer() -> None:
    """Ten times the stream speed at the same load: a hundredfold suction."""
    one = machine()
    fast = replace(
        one.point,
        stream_speed=10.0 * one.point.stream_speed,
        head_drop=100.0 * one.point.head_drop,
        triangles=replace(
            one.point.triangles,
            **{
                name: 10.0 * getattr(one.point.triangles, name)
                for name in ("axial_speed", "swirl_in", "swirl_out", "blade_speed")
            },
        ),
    )
    with pytest.raises(NoAnswerError, match="cavitates"):
        exposure(one.vanes, one.blades, one.flow, FRESH, fast, DEPTH)


def test_a_fish_longer_than_the_duct() -> None:
    with pytest.raises(InputError, match="longer than the duct"):
        strike(machine().rows, SMOLT, [0.2, 1.01 * UNIT.duct.length], duct_length=UNIT.duct.length)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('length = "70 cm"', 'length = "1.1 m"', "fish.salmon.length"),
        ('edition = "2024"', 'edition = "2019"', "sound.edition"),
        ('kind = "leaf" ', 'kind = "leaf"\ndose = "weed" #', "debris.leaves.dose"),
        ('length = "15 cm"', 'length = "15 cm"\navoidance = 1.5', "fish.smolt.avoidance"),
    ],
)
def test_a_scheme_that_asks_for_it_is_told_the_key(tmp_path: Path, old: str, new: str, said: str) -> None:
    wanted = "debris" if "debris" in said else "fish_beside"
    with pytest.raises(InputError) as told:
        evaluated(tmp_path / "demo", (old, new), wanted)
    assert f"neighbours.otter_bend.{said}" in str(told.value)


def evaluated(folder: Path, change: tuple[str, str], wanted: str) -> None:
    """One node of the changed example."""
    loaded = load_changed(folder, change, example=FULL_EXAMPLE)
    name, case = case_of(loaded, None)
    evaluate(loaded, name, case, wanted=(wanted,), store=Store(cache_folder(), CLASSES))
