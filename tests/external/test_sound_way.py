"""Loss, absorption, ambient and sums against closed forms and published figures."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from racewright.sound.absorption import absorption, ainslie_mccolm, francois_garrison, sound_speed
from racewright.sound.ambient import ambient_parts
from racewright.sound.bands import exposure_gain, level_sum
from racewright.sound.propagation import propagation_loss, spreading_loss
from racewright.sound.water_sound import SoundWater
from tests.external.record import Record
from tests.external.supply_rows import rows


def _table() -> list[tuple[float, SoundWater, float, float]]:
    return [
        (
            1e3 * float(row["f_kHz"]),
            SoundWater(273.15 + float(row["T_C"]), float(row["S_psu"])),
            float(row["Ainslie_McColm_dB_km"]),
            float(row["Francois_Garrison_dB_km"]),
        )
        for row in rows("sound_absorption")
    ]


@pytest.mark.outside(
    source="Ainslie and McColm (1998), Francois and Garrison (1982), recalled: 21 rows of each",
    status="from memory",
    tolerance="1e-4",
)
def test_absorption(record_property: Record) -> None:
    worst = 0.0
    for frequency, water, first, second in _table():
        worst = max(worst, abs(1e3 * float(ainslie_mccolm(frequency, water)) / first - 1.0))
        worst = max(worst, abs(1e3 * float(francois_garrison(frequency, water)) / second - 1.0))
    record_property("measured", f"{worst:.0e}")
    assert worst < 1e-4


@pytest.mark.outside(
    source="Ainslie and McColm (1998): their simpler form keeps within 10 % of Francois and Garrison's",
    status="published",
    tolerance="10 %",
)
def test_two_forms_agree(record_property: Record) -> None:
    ratios = [float(ainslie_mccolm(f, water) / francois_garrison(f, water)) for f, water, _first, _second in _table()]
    record_property("measured", f"{100.0 * max(abs(ratio - 1.0) for ratio in ratios):.1f} %")
    assert all(abs(ratio - 1.0) < 0.10 for ratio in ratios)


@pytest.mark.outside(
    source="10 kHz, 100 kHz at 10 degC and S 35; 100 kHz in fresh water: 0.986572, 34.3410, 3.38334 dB/km",
    status="from memory",
    tolerance="1e-5",
)
def test_absorption_in_fresh_water_has_no_division_by_zero(record_property: Record) -> None:
    sea, fresh = SoundWater(283.15, 35.0), SoundWater(283.15, 0.0)
    found = [1e3 * float(absorption("ainslie_mccolm", f, w)) for f, w in ((1e4, sea), (1e5, sea), (1e5, fresh))]
    want = [0.9865723, 34.34102, 3.383345]
    record_property("measured", f"{max(abs(a / b - 1.0) for a, b in zip(found, want, strict=True)):.0e}")
    assert found == pytest.approx(want, rel=1e-5)


@pytest.mark.outside(
    source="20, 15, 10 lg r and 20 lg h + 10 lg(r/h): 150 dB at 100 m, h 10 m", status="closed form", tolerance="1e-9"
)
def test_spreading() -> None:
    laws = ("spherical", "practical", "cylindrical", "mixed")
    received = [150.0 - float(spreading_loss(name, 100.0, 10.0)) for name in laws]
    assert received == pytest.approx([110.0, 120.0, 130.0, 120.0], abs=1e-9)


@pytest.mark.outside(
    source="the same with absorption: 166 dB, 20 kHz, 2 km, 3.42451 dB/km: 93.130 spherical, 109.636 practical",
    status="closed form",
    tolerance="1e-3 dB",
)
def test_loss_with_absorption(record_property: Record) -> None:
    found = [166.0 - float(propagation_loss(name, 2000.0, 3.42451e-3)) for name in ("spherical", "practical")]
    record_property("measured", f"{max(abs(found[0] - 93.130), abs(found[1] - 109.636)):.0e} dB")
    assert found == pytest.approx([93.130, 109.636], abs=1e-3)


@pytest.mark.outside(
    source="ISO 18405 definitions: sums and exposure; 110 + 113 + 107 is 115.43627, 24 h 49.36514, 8 h 44.59392 dB",
    status="closed form",
    tolerance="1e-5 dB",
)
def test_sums_and_exposures() -> None:
    assert float(level_sum([110.0, 113.0, 107.0])) == pytest.approx(115.43627, abs=1e-5)
    assert exposure_gain(86400.0) == pytest.approx(49.36514, abs=1e-5)
    assert exposure_gain(28800.0) == pytest.approx(44.59392, abs=1e-5)


@pytest.mark.outside(
    source="Coates's forms of Wenz (1962), recalled: wind 60.93 at 1 kHz and 5 m/s, turbulence 47.0 and shipping "
    "67.16 at 100 Hz, thermal 25.0 at 100 kHz",
    status="from memory",
    tolerance="0.01 dB",
)
def test_ambient(record_property: Record) -> None:
    wind = float(ambient_parts(1000.0, 5.0, 0.5).wind)
    low = ambient_parts(100.0, 5.0, 0.5)
    thermal = float(ambient_parts(1e5, 5.0, 0.5).thermal)
    found = [wind, float(low.turbulence), float(low.shipping), thermal]
    want = [60.93, 47.0, 67.16, 25.0]
    record_property("measured", f"{max(abs(a - b) for a, b in zip(found, want, strict=True)):.3f} dB")
    assert found == pytest.approx(want, abs=0.01)


@pytest.mark.outside(
    source="another published form of wind noise (public acoustics page, 2025): 61.15 dB at 1 kHz and 5 m/s; slope "
    "above 1 kHz near -17 dB per decade (Wenz 1962, abstract)",
    status="published",
    tolerance="0.5 dB; 2 dB per decade",
)
def test_wind_noise_against_another_form(record_property: Record) -> None:
    found = ambient_parts(np.array([1e3, 3e3, 3e4]), 5.0, 0.5).wind
    record_property("measured", f"{abs(found[0] - 61.15):.2f} dB; {found[2] - found[1]:.1f} dB per decade")
    assert found[0] == pytest.approx(61.15, abs=0.5)
    assert found[2] - found[1] == pytest.approx(-17.0, abs=2.0)


@pytest.mark.outside(
    source="TEOS-10 speed of sound at one atmosphere, 0 to 30 degC, fresh and S 35",
    status="computed",
    tolerance="0.1 % in the sea, 0.3 % fresh",
)
def test_speed_of_sound(record_property: Record) -> None:
    worst = {0.0: 0.0, 35.0: 0.0}
    for salt in worst:
        for celsius in (0.0, 10.0, 20.0, 30.0):
            absolute = salt * 35.16504 / 35.0
            exact = float(gsw.sound_speed_t_exact(absolute, celsius, 0.0))
            found = sound_speed(SoundWater(273.15 + celsius, salt))
            worst[salt] = max(worst[salt], abs(found / exact - 1.0))
    record_property("measured", f"{100.0 * worst[35.0]:.2f} % in the sea, {100.0 * worst[0.0]:.2f} % fresh")
    assert worst[35.0] < 1e-3
    assert worst[0.0] < 3e-3
