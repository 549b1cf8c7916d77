"""From strength's findings to what its drawings and tables share."""

from __future__ import annotations

from racewright.dossier.figures import damage_cases, shaken, stress_use
from racewright.dossier.figures.damage_cases import Share
from racewright.dossier.figures.save import svg
from racewright.ledger.findings import Findings
from racewright.ledger.strength_findings import PlaceFatigue, StrengthFindings

YEAR = 365.0 * 86400.0
"""A year as the scheme's unit [s]."""
MOST_DRAWN = 4
"""Places of fatigue that get a drawing each; tables hold all. Own choice."""


def shares(place: PlaceFatigue) -> dict[str, Share]:
    """The series of a place, and how often it comes in a year."""
    return {place.place: Share(place.damage, YEAR / place.duration)}


def drawn_places(found: StrengthFindings) -> tuple[PlaceFatigue, ...]:
    """Places with a wanted life to draw against."""
    return tuple(place for place in found.fatigue[:MOST_DRAWN] if place.wanted_life is not None)


def draw_strength(findings: Findings, width: float) -> dict[str, bytes]:
    """Every drawing of the chapter that the findings allow, as SVG by name."""
    found = findings.strength
    if found is None:
        return {}
    invented = found.invented
    drawn = {
        "stress_use": svg(stress_use.draw(found.checks, width, invented=invented)),
        "shaken": svg(shaken.draw(found.frequencies.resonance, width, invented=invented)),
    }
    for number, place in enumerate(found.fatigue, start=1):
        if place in drawn_places(found) and place.wanted_life is not None:
            years = place.wanted_life / YEAR
            drawn[f"damage_{number}"] = svg(damage_cases.draw(shares(place), years, width, invented=invented))
    return drawn
