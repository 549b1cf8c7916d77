"""The neighbours' nodes: fish, bare rotors, debris with doses, screen, trade, sound computed and measured."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.ledger.neighbours_findings import FishBeside, FishFound
from racewright.ledger.neighbours_parts import neighbours_remarks
from racewright.ledger.neighbours_things import DESIGN, FASTEST, axis_depth, discharge_at
from racewright.trials.doses import DoseCard, DoseRow
from tests.ledger.neighbours_given import STANDINGS, Place, given, on_load, run
from tests.passage.machine import machine


@cache
def fish() -> tuple[FishFound, ...]:
    found: tuple[FishFound, ...] = run("fish", given(states=(on_load(), on_load(2.9))))
    return found


@cache
def beside() -> tuple[FishBeside, ...]:
    found: tuple[FishBeside, ...] = run("fish_beside", given())
    return found


def test_fish_stand_by_name_at_both_points() -> None:
    assert [one.name for one in fish()] == ["eel", "salmon", "smolt"]
    assert [at.condition for at in fish()[0].at] == [DESIGN, FASTEST]
    assert fish()[0].at[1].stream_speed == 2.9
    for one in fish():
        slow, fast = (at.passage for at in one.at)
        assert slow is not None
        assert fast is not None
        assert fast.strike.fastest > slow.strike.fastest
        assert float(fast.death_high[0]) >= float(slow.death_high[0])


def test_the_rivers_share_is_the_flow_over_the_discharge() -> None:
    """At the median 200 m3/s: the design's flow, slowed in proportion to the stream."""
    point = machine().point
    smolt = fish()[2]
    median = next(row for row in smolt.river if row.label == "median")
    share = point.flow_rate * 2.0 / 2.4 / 200.0
    passage = smolt.at[0].passage
    assert passage is not None
    assert median.flow_share == pytest.approx(share, rel=1e-12)
    assert median.struck == pytest.approx(share * float(passage.strike.chance[0]), rel=1e-12)
    assert median.dead_low <= median.dead <= median.dead_high
    assert passage.flow_share == pytest.approx(point.flow_rate / (200.0 + 300.0 * 0.4 / 0.9), rel=1e-12)


def test_avoidance_takes_fish_out_of_the_rivers_share_and_not_out_of_the_machine() -> None:
    keys = given().keys["neighbours.fish"]
    shy = {"smolt": {**keys["smolt"], "avoidance": 0.75}}
    (one,) = run("fish", given(("neighbours.fish", shy)))
    assert one.river[1].struck == pytest.approx(0.25 * fish()[2].river[1].struck, rel=1e-9)
    shy_one, bold = one.at[0].passage, fish()[2].at[0].passage
    assert bold is not None
    assert float(shy_one.strike.chance[0]) == pytest.approx(float(bold.strike.chance[0]))


def test_an_eel_from_the_bed_feels_a_larger_fall() -> None:
    eel, salmon = (one.at[0].passage for one in fish()[:2])
    assert eel is not None
    assert salmon is not None
    assert eel.decompression.ratio > 1.05 * salmon.decompression.ratio


def test_long_fish_speak_against_the_machine_and_short_ones_for_it() -> None:
    """Both signs stand in the bundled example: equal power, of a stream that carries them evenly."""
    struck = {one.name: float(one.beside.differences[0].struck_flow[0]) for one in beside()}
    assert struck["salmon"] > 0.2
    assert struck["eel"] > 0.2
    assert struck["smolt"] < -0.1
    assert all(float(one.beside.differences[0].deadly_flow[0]) < 0.0 for one in beside())


def test_no_power_no_bare_rotor() -> None:
    import dataclasses

    idle = dataclasses.replace(machine().point, shaft_power=-1.0)
    assert run("fish_beside", given(design_point=idle)) == ()
    assert run("fish_beside", given(("neighbours.fish", {}))) == ()


def dose(name: str, entered: int, lodged: int) -> DoseRow:
    """All but `entered` of 80 pieces went past the duct."""
    card = DoseCard(name, "weed", 0.3, 0.02, 0.004, 1010.0, 80, 2.0, 0.0, 0.3)
    return DoseRow(
        card, 80, 0, 80 - entered, entered - lodged, 0, lodged, 0, 0, 0, lodged, 0, 0, lodged, 0, 0, 0, 0.0
    )


def drift(**tables: Any) -> tuple[str, Any]:
    return ("neighbours.debris", {name: {"kind": kind, "dose": use} for name, (kind, use) in tables.items()})


def test_a_measured_dose_overrides_the_geometry() -> None:
    what = drift(weed=("water_weed", "autumn"), leaves=("leaf", None))
    found = run("debris", given(what, doses=(dose("autumn", 80, 4),)))
    leaves, weed = found.drift
    assert weed.dose == "autumn"
    assert weed.fate.staying.value == pytest.approx(0.05)
    assert 0.0 < weed.fate.staying.low < 0.05 < weed.fate.staying.high < 0.15
    assert leaves.fate.measured is None
    assert found.opening.smallest == pytest.approx(float(found.opening.vanes.opening.min()))


@pytest.mark.parametrize("doses", [None, (dose("spring", 10, 0),), (dose("autumn", 0, 0),)])
def test_a_dose_that_is_not_there_or_empty_is_refused(doses: Any) -> None:
    with pytest.raises(InputError) as told:
        run("debris", given(drift(weed=("water_weed", "autumn")), doses=doses))
    assert told.value.key == "weed.dose"


SCREEN = {
    "bar_thickness": 0.008, "bar_gap": 0.06, "area": 1.2, "slope": 0.5 * math.pi, "shape": "rounded_front",
    "closed_share": 0.3, "arriving": 2.0,
}  # fmt: skip


def test_a_screen_costs_power_holds_long_fish_back_and_fouls() -> None:
    found = run("screen", given(("neighbours.screen", SCREEN)))
    assert found.held_back == ("eel", "salmon")
    assert 0.0 < found.option.clean_power_share < found.option.fouled_power_share < 1.0
    assert found.option.fill_time == pytest.approx(0.3 * 0.06 / 0.068 * 1.2 / (2.0 / 86400.0), rel=1e-9)
    assert run("screen", given()) is None


def test_a_trade_tells_of_the_longest_fish() -> None:
    table = {"tip_speed_ratios": (1.8,), "vane_counts": None, "blade_counts": None, "sweeps": (25.0,)}
    found = run("trade", given(("neighbours.trade", table), drift(weed=("water_weed", None))))
    assert found.fish == "salmon"
    assert [row.label for row in found.rows] == ["as designed", "tip-speed ratio 1.8", "sweep 25 degrees"]
    assert found.rows[1].fastest < found.rows[0].fastest
    assert found.rows[2].fates[0].staying.value < found.rows[0].fates[0].staying.value
    with pytest.raises(InputError, match="degrees of sweep"):
        run("trade", given(("neighbours.trade", {**table, "sweeps": (80.0,)})))
    with pytest.raises(InputError, match="add a"):
        run("trade", given(("neighbours.trade", table), ("neighbours.fish", {})))


def test_sound_takes_turbulence_from_the_place_and_the_eddies_from_the_depth() -> None:
    one = run("sound", given())[0].level
    rough = run("sound", given(("place.turbulence", 0.2)))[0].level
    quiet = [one.frequency > 3000.0]
    assert np.allclose((rough.source_level - one.source_level)[*quiet], 20.0 * math.log10(2.0), atol=1e-6)
    assert {row.edition for row in one.thresholds if row.group} == {"2024"}
    assert run("sound", given(("neighbours.sound", None))) == ()


def test_measured_sound_is_carried_back_and_scaled(tmp_path: Path) -> None:
    """At the machine's own tip speed and annulus, spherical, nothing but the way back: + 20 lg 20 at low "
    "frequency."""
    one, point = machine(), machine().point
    tip = float(
        np.hypot(
            point.triangles.axial_speed[-1],
            point.rotor_speed * one.blades.radius[-1] - point.triangles.swirl_in[-1],
        )
    )
    path = tmp_path / "bands.csv"
    path.write_text("frequency,with_machine,background\n100,90,60\n1000,95,60\n")
    measured = {
        "frequency_column": "frequency", "with_column": "with_machine", "background_column": "background",
        "distance": 20.0, "relative_speed": tip, "area": one.flow.annulus_area, "uncertainty": 2.0,
        "where": "beside a like machine, drifting", "delimiter": "auto", "decimal": "point", "encoding": "utf-8",
    }  # fmt: skip
    table = {**given().keys["neighbours.sound"], "measured": measured, "spreading": "spherical"}
    what = given(("neighbours.sound", table), files={"neighbours.sound.measured.file": path})
    found = run("sound", what)[0].level
    assert found.source_level == pytest.approx(np.array([90.0, 95.0]) + 20.0 * math.log10(20.0), abs=0.02)
    assert found.uncertainty_parts[0].half_width == pytest.approx(math.hypot(4.0, 2.0))
    path.write_text("frequency,with_machine,background\n100,90,nan\n1000,95,60\n")
    with pytest.raises(InputError, match=r"bands\.csv"):
        run("sound", what)


def test_depths_and_discharges() -> None:
    site: Any = Place()
    keys = {"case.hub_depth": None, "case.hub_height": 1.5, "place.depth": None}
    assert axis_depth(keys, site) == pytest.approx(3.0)
    with pytest.raises(InputError, match="how deep"):
        axis_depth({**keys, "case.hub_height": None}, site)
    assert discharge_at(site, 2.45) == pytest.approx(350.0)
    assert discharge_at(site, 9.0) == STANDINGS[-1].discharge
    Place.standings, kept = (), Place.standings
    try:
        assert discharge_at(site, 2.0) is None
    finally:
        Place.standings = kept


def test_remarks_name_the_fish_that_they_are_of() -> None:
    values = {
        "debris": run("debris", given(drift())),
        "fish": fish(),
        "fish_beside": (),
        "screen": None,
        "sound": None,
    }
    found = neighbours_remarks(values)
    assert any(r.text.startswith("eel: No laboratory strikes") for r in found)
    assert any("no bare rotor" in r.text for r in found)
    assert [r.severity for r in found] == sorted(
        (r.severity for r in found), key=["warning", "caution", "note"].index
    )
    assert neighbours_remarks({"debris": None}) == ()
