"""A tide from a table of constants; and the example in the docstring of `tide`."""

from __future__ import annotations

import doctest
import sys
from typing import Any

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import predict, tide_from_table
from racewright.place.tide_table import form_word

TWO: dict[str, Any] = {
    "names": ("M2", "S2"),
    "amplitude": (2.0, 0.6),
    "phase": (0.5, 1.0),
    "latitude": 0.9,
    "kind": "along",
}


def test_the_docstrings_example() -> None:
    import racewright.place

    assert racewright.place.tide is not None
    failed, tried = doctest.testmod(sys.modules["racewright.place.tide"])
    assert (failed, tried) == (0, 7)


def test_a_round_ellipse_keeps_its_speed() -> None:
    found = tide_from_table(
        ("M2",),
        (1.0,),
        (0.3,),
        0.9,
        kind="east north",
        minor=(1.0,),
        inclination=(0.0,),
        mean=(0.0, 0.0),
        nodal=False,
    )
    value = predict(found, 1_767_225_600 + 600 * np.arange(200))
    assert np.hypot(*value.T) == pytest.approx(1.0, abs=1e-12)
    turning = np.diff(np.unwrap(np.arctan2(value[:, 1], value[:, 0])))
    assert (turning > 0.0).all()


def test_the_phase_is_the_lag_at_greenwich() -> None:
    """At the moment when the equilibrium argument equals the lag the stream is at its height."""
    found = tide_from_table(**(TWO | {"names": ("M2",), "amplitude": (2.0,), "phase": (0.5,)}), nodal=False)
    time = 1_767_225_600 + 60 * np.arange(1500)
    best = int(time[np.argmax(predict(found, time)[:, 0])])
    from racewright.place.tide_constants import arguments

    argument = float(arguments(np.array([best / 86400.0]), ("M2",), 0.9, nodal=False)[2][0, 0])
    assert (argument - 0.5 + np.pi) % (2.0 * np.pi) - np.pi == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"names": ("M2", "M2")}, "twice"),
        ({"names": ("M2", "Q9")}, "no known constituent"),
        ({"amplitude": (2.0,)}, "1 values of amplitude"),
        ({"amplitude": (2.0, -0.1)}, "wanted 0 to 15"),
        ({"amplitude": (0.0, 0.0)}, "every amplitude is 0"),
        ({"phase": (0.5, np.nan)}, "finite"),
        ({"phase": (0.5, 70.0)}, "phase"),
        ({"kind": "east north"}, "half axis and inclination"),
        ({"minor": (0.0, 0.0), "inclination": (0.0, 0.0)}, "only there"),
        ({"mean": (0.1, 0.1)}, "one for each component"),
        ({"latitude": 2.0}, "latitude"),
    ],
)
def test_bad_tables_are_refused(change: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError, match=words):
        tide_from_table(**(TWO | change))


def test_words_for_the_form() -> None:
    assert form_word(0.0) == "semidiurnal"
    assert form_word(1e6) == "diurnal"
