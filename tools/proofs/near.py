"""Neighbours: fish, debris and sound against closed forms, moving blades and published figures. Screening only."""

from __future__ import annotations

from tests.external.passage_random import worst_plates, worst_strike

from tools.proofs.line import Line, Measured, by_tests, run_tests

CASES = 200
PLATES = 300
_WANTED = 0.01


def fish_and_sound() -> Measured:
    """Sections on fish and sound by the suite; random strikes and plate rows at full counts here."""
    strike, mean = worst_strike(CASES)
    plates = worst_plates(PLATES)
    passed, failed, notes = run_tests(
        "tests/external/test_passage_strike.py",
        "tests/external/test_passage_pressure.py",
        "tests/external/test_passage_opening.py",
        "tests/external/test_sound_hearing.py",
        "tests/external/test_sound_source.py",
        "tests/external/test_sound_way.py",
        "tests/passage/test_strike_chance.py",
        "tests/passage/test_strike.py",
    )
    text = (
        f"{CASES} random rows and bodies against moving blades within {100.0 * strike:.2f} % (mean "
        f"{100.0 * mean:.2f} %); {PLATES} random plate rows within {100.0 * plates:.1g} %; {passed} checks pass"
        + (f", {len(failed)} fail: {', '.join(failed[:4])}" if failed else "")
        + (f"; {notes}" if notes else "")
    )
    return Measured(text, strike < _WANTED and plates < 0.5 * _WANTED and not failed and passed > 0)


LINES = [
    Line(
        "near-1",
        "published and worked figures of fish and sound; strike Monte Carlo of moving blades within 1 %; without "
        "vanes and swirl the classical form; plate-row opening s cos b - t within 0.5 %; monotone in length, speed, "
        "count; chances within 0 and 1",
        fish_and_sound,
        4,
    ),
    Line(
        "near-2",
        "an auditory group without an edition, a pressure below zero absolute, a fish longer than the duct are "
        "refused",
        by_tests("tests/ledger/test_neighbours_refused.py"),
        1,
    ),
]
