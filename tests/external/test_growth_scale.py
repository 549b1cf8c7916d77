"""Step-up, cavitation of full-size tips, and the identities of size, against worked examples and closed forms."""

from __future__ import annotations

import math

import pytest

from racewright.growth.specific_numbers import diameter_for_power, specific_numbers, speed_for_power
from racewright.growth.step_comparison import step_comparison
from racewright.growth.step_up import step_up
from racewright.growth.step_up_forms import SizePair, hutton, moody
from racewright.stage.cavitation import cavitation_number
from racewright.water import properties
from tests.external.record import Record
from tests.external.supply_rows import rows
from tests.growth.steps import MODEL, RIVER, TIDAL

STEP_UP = rows("growth_step_up")


@pytest.mark.outside(
    source="Moody's step-up, worked example of a hydraulics text: 2 ft runner at 0.893 to 6 ft, 0.914",
    status="published",
    tolerance="5e-4: printed to three digits",
)
def test_moody_worked_example(record_property: Record) -> None:
    (row,) = [one for one in STEP_UP if one["form"] == "Moody"]
    found = moody(SizePair(float(row["efficiency"]), 4e6, 4e7, float(row["diameter_ratio"])))
    record_property("measured", f"{abs(found - 0.914):.0e}")
    assert found == pytest.approx(0.914, abs=5e-4)
    assert found == pytest.approx(float(row["other_efficiency"]), abs=1e-6)


@pytest.mark.outside(
    source="step-up by Hutton and by IEC 60193, forms from memory, three examples recomputed from them",
    status="from memory",
    tolerance="1e-6",
)
def test_step_up_examples(record_property: Record) -> None:
    worst = 0.0
    for row in (one for one in STEP_UP if one["form"] != "Moody"):
        known, first, second = (float(row[key]) for key in ("efficiency", "reynolds", "other_reynolds"))
        if row["form"] == "Hutton":
            found = hutton(SizePair(known, first, second, 1.0))
        else:
            found = step_up(known, first, second, scalable_share=float(row["scalable_share"])).hydraulic_efficiency
        worst = max(worst, abs(found - float(row["other_efficiency"])))
    record_property("measured", f"{worst:.0e}")
    assert worst < 1e-6


@pytest.mark.outside(
    source="scalable loss at the reference of IEC 60193's form, from memory: 0.0656926 and 0.0595385; equal Reynolds "
    "numbers give no gain",
    status="from memory",
    tolerance="1e-7; none",
)
def test_scalable_loss_and_no_gain() -> None:
    assert step_up(0.90, 4e6, 4e7).scalable_loss == pytest.approx(0.0656926, abs=1e-7)
    assert step_up(0.92, 4e6, 5e7, scalable_share=0.8).scalable_loss == pytest.approx(0.0595385, abs=1e-7)
    assert step_up(0.90, 4e6, 4e6).gain == 0.0


@pytest.mark.outside(
    source="efficiency step-up of IEC 60193 and Hutton, from memory, beside the stage solved at 0.43, 1 and 14 m",
    status="from memory",
    tolerance="0.005 of efficiency outside the forms' range",
)
def test_solved_sizes_against_step_up(record_property: Record) -> None:
    """An invented machine, like shapes: Reynolds number alone, on throat diameter and tip speed."""
    pairs = ((MODEL, RIVER), (RIVER, TIDAL), (MODEL, TIDAL))
    found = [step_comparison(first, second) for first, second in pairs]
    record_property("measured", ", ".join(f"{one.outside:+.4f}" for one in found))
    assert all(abs(one.outside) <= 0.005 for one in found)


@pytest.mark.outside(
    source="cavitation number of open tips, W^2 = U^2 (1 + (TSR r/R)^2): sea water 15 degC, 3 m down, 2.5 m/s, "
    "TSR 4; fresh 20 degC, 0.5 m, 1.5 m/s, TSR 5",
    status="closed form",
    tolerance="1e-4 relative: vapour pressure to five digits",
)
@pytest.mark.parametrize(
    ("kind", "celsius", "depth", "speed", "ratio", "wanted"),
    [
        ("sea", 15.0, 3.0, 2.5, 4.0, (40.4954, 2.38208, 4.58092)),
        ("fresh", 20.0, 0.5, 1.5, 5.0, (92.5038, 3.55784, 6.98142)),
    ],
)
def test_cavitation_numbers_of_tips(
    kind: str, celsius: float, depth: float, speed: float, ratio: float, wanted: tuple[float, ...]
) -> None:
    """On the stream speed, at the tip, at 0.7 of the radius."""
    water = properties(celsius + 273.15, "sea" if kind == "sea" else "fresh")
    for share, number in zip((0.0, 1.0, 0.7), wanted, strict=True):
        relative = speed * math.hypot(1.0, ratio * share)
        found = cavitation_number(depth, relative, water.density, water.vapour_pressure)
        assert found == pytest.approx(number, rel=1e-4)


@pytest.mark.outside(
    source="P = rho A CP V^3/2: stream speed for 5 kW from 1 m in 16 rows, diameter for 1 MW in 12 rows",
    status="closed form",
    tolerance="5e-6 relative: printed to six digits",
)
def test_speed_and_diameter_for_a_power(record_property: Record) -> None:
    worst = 0.0
    for row in rows("growth_speed_for_5kW"):
        area, share, density = (float(row[key]) for key in ("A_m2", "Cp_water_to_wire", "rho_kg_m3"))
        found = speed_for_power(float(row["P_W"]), area, share, density)
        worst = max(worst, abs(found / float(row["speed_m_s"]) - 1.0))
    for row in rows("growth_diameter_for_1MW"):
        speed, share, density = (float(row[key]) for key in ("V_m_s", "Cp_water_to_wire", "rho_kg_m3"))
        found = diameter_for_power(float(row["P_W"]), speed, share, density)
        worst = max(worst, abs(found / float(row["D_m"]) - 1.0))
    record_property("measured", f"{worst:.0e}")
    assert len(rows("growth_speed_for_5kW")) == 16
    assert len(rows("growth_diameter_for_1MW")) == 12
    assert worst < 5e-6


@pytest.mark.outside(
    source="Dixon & Hall, ch. 9, worked Kaplan example (from memory, 90 %): 8 MW, 13.4 m, 200 rpm, 2.9 m, hydraulic "
    "efficiency 0.92, density 1000, g 9.81; its specific numbers recomputed from their definitions",
    status="closed form",
    tolerance="5e-6 relative: printed to six digits",
)
def test_specific_numbers_of_a_kaplan_turbine(record_property: Record) -> None:
    head = 9.81 * 13.4
    turning = 200.0 * math.pi / 30.0
    flow = 8e6 / (0.92 * 1000.0 * head)
    found = specific_numbers(turning, flow, head, 8e6, 2.9, 1000.0, gravity=9.81)
    got = (
        found.specific_speed,
        found.power_specific_speed,
        found.specific_diameter,
        found.turns_specific_speed,
        found.unit_speed,
        found.unit_flow,
    )
    wanted = (4.38776, 4.20859, 1.20733, 0.698333, 158.444, 2.14872)
    worst = max(abs(a / b - 1.0) for a, b in zip(got, wanted, strict=True))
    record_property("measured", f"{worst:.0e}")
    assert worst < 5e-6
