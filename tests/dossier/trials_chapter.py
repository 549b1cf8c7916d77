"""The chapter on the invented trials as words and tables, and alone as both documents."""

from __future__ import annotations

import dataclasses

from racewright.dossier.build import Dossier
from racewright.dossier.chapters.trials import write
from racewright.dossier.compose import compose
from racewright.dossier.document import Block, Table
from racewright.dossier.drawings import Drawings
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.page import page
from racewright.dossier.sheets import sheets
from racewright.dossier.trials_figures import draw_trials
from racewright.ledger.trials_findings import TrialsFindings
from racewright.trials.result import Reading
from tests.dossier import sample, trials_sample
from tests.dossier.words import said_in

MACHINE, TRIALS = sample.machine(), trials_sample.trials()
NEAREST = TRIALS.campaign.runs[1].reduction.readings[0]
"""The reading nearest the design."""


def blocks(found: TrialsFindings) -> tuple[Block, ...]:
    return write(found, MACHINE).blocks


def said(found: TrialsFindings = TRIALS) -> str:
    """All words of the chapter."""
    return said_in(write(found, MACHINE))


def table(first: str, found: TrialsFindings = TRIALS) -> list[dict[str, str]]:
    """Rows of the table whose first column has that name."""
    for block in blocks(found):
        if isinstance(block, Table) and block.columns[0].name == first:
            names = [c.name for c in block.columns]
            return [
                {n: c.replace("\u202f", " ").replace("\u2212", "-") for n, c in zip(names, r, strict=True)}
                for r in block.rows
            ]
    raise AssertionError(first)


def with_reading(one: Reading) -> TrialsFindings:
    """The campaign with another reading nearest the design."""
    loads, narrow, weed = TRIALS.campaign.runs
    run = dataclasses.replace(narrow, reduction=dataclasses.replace(narrow.reduction, readings=(one,)))
    return dataclasses.replace(TRIALS, campaign=dataclasses.replace(TRIALS.campaign, runs=(loads, run, weed)))


def alone(found: TrialsFindings) -> Dossier:
    """The chapter on trials and its answer, as both documents, without the rest of the dossier."""
    findings = sample.full(trials=found)
    whole = compose(findings)
    document = dataclasses.replace(
        whole,
        answers=tuple(a for a in whole.answers if a.question == "What the trials say"),
        chapters=tuple(c for c in whole.chapters if c.anchor == "trials"),
    )
    drawings = Drawings(draw_trials(findings, WIDE), draw_trials(findings, NARROW))
    return Dossier(page(document, drawings), sheets(document, drawings), drawings.wide)
