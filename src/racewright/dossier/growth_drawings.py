"""From the growth's findings to their drawings."""

from __future__ import annotations

from racewright.dossier.figures import growth_factors, growth_ladder, growth_step_up, programme_cash
from racewright.dossier.figures.save import svg
from racewright.ledger.findings import Findings


def draw_growth(findings: Findings, width: float) -> dict[str, bytes]:
    """Every drawing of growth and programme that the findings allow, as SVG by name."""
    found = findings.growth
    if found is None:
        return {}
    pages = found.growth.pages
    drawn = {
        "growth_ladder": svg(growth_ladder.draw([page.solved for page in pages], width)),
        "growth_step_up": svg(growth_step_up.draw([page.before for page in pages if page.before], width)),
    }
    for place, page in enumerate(pages, 1):
        if page.before is not None and page.scaled:
            first, second = page.before.first.step.name, page.solved.step.name
            drawn[f"growth_factors_{place}"] = svg(growth_factors.draw(page.scaled, first, second, width))
    if found.programme is not None:
        drawn["programme_cash"] = svg(programme_cash.draw(found.programme.cash, width))
    return drawn
