"""Section families: contours and facts."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.mean_lines import circular_arc, four_digit_height, four_digit_line
from racewright.machine.sections import FAMILIES, section_facts, section_points


@pytest.mark.parametrize("family", sorted(FAMILIES))
@pytest.mark.parametrize("camber", [-0.4, 0.0, 0.7])
def test_contour_runs_round_and_is_as_thick_as_it_says(family: str, camber: float) -> None:
    points = section_points(family, camber, 0.12, 100)
    facts = section_facts(family, camber, 0.12)
    x, y = points.T
    assert points.shape == (201, 2)
    assert points[100] == pytest.approx([0.0, 0.0], abs=1e-12)
    assert float(np.hypot(*(points[-1] - points[0]))) == pytest.approx(facts.edge_thickness, rel=1e-9, abs=1e-15)
    assert 0.5 * (points[0] + points[-1]) == pytest.approx([1.0, 0.0], abs=1e-12)
    assert float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) > 0.0
    assert facts.thickness == pytest.approx(0.12, rel=2e-4)
    assert facts.perimeter > 2.0


@pytest.mark.parametrize("line", [circular_arc, four_digit_line])
@pytest.mark.parametrize("camber", [-0.6, 1e-9, 0.3, 1.2])
def test_mean_line_turns_by_its_camber(line: object, camber: float) -> None:
    """The angle grows by the camber from edge to edge, both ends lie on the chord, and slope is the rise's."""
    assert callable(line)
    x = np.linspace(0.0, 1.0, 20001)
    rise, angle = line(x, camber)
    assert angle[-1] - angle[0] == pytest.approx(camber, rel=1e-12)
    assert rise[[0, -1]] == pytest.approx([0.0, 0.0], abs=1e-15)
    slope = np.diff(rise) / np.diff(x)
    assert slope == pytest.approx(np.tan(0.5 * (angle[1:] + angle[:-1])), abs=2e-4 * abs(camber))
    assert np.all(rise * camber <= 0.0)


def test_mean_lines_have_their_known_rises() -> None:
    """An arc rises tan(camber/4)/2; a four-digit line of 4 % turns by atan(0.2) + atan(2/15)."""
    assert section_facts("circular_arc", 0.8, 0.1).rise == pytest.approx(0.5 * math.tan(0.2), rel=1e-9)
    assert four_digit_height(math.atan(0.2) + math.atan(2.0 / 15.0)) == pytest.approx(0.04, rel=1e-12)
    assert section_facts("four_digit", 0.3, 0.1).rise == pytest.approx(four_digit_height(0.3), rel=1e-9)


@pytest.mark.parametrize(
    ("family", "place"),
    [("circular_arc", 0.2996), ("four_digit_modified", 0.4), ("plate", 0.53), ("biconvex", 0.5)],
)
def test_largest_thickness_stands_where_the_form_has_it(family: str, place: float) -> None:
    assert section_facts(family, 0.3, 0.12).thickness_place == pytest.approx(place, abs=1e-4)


def test_positive_camber_bulges_to_the_negative_side() -> None:
    """So that the mean line's angle grows along the flow, which turns it in the direction of rotation."""
    assert (
        section_points("circular_arc", 0.5, 0.05)[:, 1].mean()
        < 0.0
        < section_points("plate", -0.5, 0.05)[:, 1].mean()
    )


@pytest.mark.parametrize(
    ("family", "camber", "thickness", "points", "key"),
    [
        ("oval", 0.1, 0.1, 80, "family"),
        ("plate", float("nan"), 0.1, 80, "camber"),
        ("plate", 2.0, 0.1, 80, "camber"),
        ("plate", 0.1, float("inf"), 80, "thickness"),
        ("plate", 0.1, 0.0, 80, "thickness"),
        ("plate", 0.1, 0.1, 9, "points_a_side"),
    ],
)
def test_wrong_values_name_their_key(family: str, camber: float, thickness: float, points: int, key: str) -> None:
    with pytest.raises(InputError) as caught:
        section_points(family, camber, thickness, points)
    assert caught.value.key == key
