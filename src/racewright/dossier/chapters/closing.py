"""The closing chapters: what is missing and unsure, inputs, assumptions, cautions."""

from __future__ import annotations

from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Column, Points, Table, Text
from racewright.dossier.text import clean, signs
from racewright.ledger.findings import Findings

_CAUTIONS = (
    "This dossier is a computation, not an approval. Nobody may build, anchor, energise or operate on its "
    "strength alone.",
    "Local codes, permits and licensed practice come first: for structures and anchors, for electrical "
    "work, for work on and under water, for navigation and for fish.",
    "Thrust, moments and depths are steady values. Gusts, waves, floods, ice and floating wood "
    "bring more; they must be sized for by somebody licensed to do so.",
    "Power that no test of this machine has calibrated carries its prior band into energy and cost. "
    "The flow model without friction is neither an upper nor a lower bound.",
    "Costs and savings follow from the prices and loads in the inputs. They are no offer and no promise.",
)


def missing(findings: Findings) -> Chapter:
    """What the scheme has no tables for, and every remark."""
    blocks: list[Block] = []
    if findings.missing:
        columns = (Column("chapter", share=1.6), Column("needs", share=4.6))
        rows = tuple((clean(m.chapter), clean(m.needs)) for m in findings.missing)
        blocks.append(Table("What is missing, and what each chapter would need.", columns, rows))
    else:
        blocks.append(Text("The scheme has a table for every chapter of this version."))
    if findings.left_out:
        blocks.append(Text("This version does not compute the following; silence about it is no safety:"))
        blocks.append(Points(tuple(clean(s) for s in findings.left_out)))
    if findings.remarks:
        blocks.append(remark_table(findings.remarks, "Every remark, worst first."))
    else:
        blocks.append(Text("The computation left no remarks."))
    return Chapter("missing", "What is missing, what is unsure", tuple(blocks))


def inputs(findings: Findings) -> Chapter:
    """Every input as written."""
    if not findings.inputs:
        return Chapter("inputs", "Inputs", (Text("The scheme gave no inputs."),))
    columns = (
        Column("key", share=2.5),
        Column("as written", share=1.4),
        Column("meaning", share=2.4),
        Column("source", share=1.7),
    )
    rows = tuple((clean(r.key), clean(r.text), clean(r.meaning), clean(r.source)) for r in findings.inputs)
    return Chapter("inputs", "Inputs", (Table("Every input, as written in the scheme.", columns, rows, mono=(0,)),))


def assumptions(findings: Findings) -> Chapter:
    """Assumptions with their sources."""
    title = "Assumptions and sources"
    if not findings.assumptions:
        return Chapter("assumptions", title, (Text("None stated: nothing was computed that rests on any."),))
    columns = (Column("assumption", share=4.0), Column("source", share=2.0))
    rows = tuple((signs(a.text), signs(a.source)) for a in findings.assumptions)
    return Chapter("assumptions", title, (Table("What the figures rest on.", columns, rows),))


def cautions() -> Chapter:
    """Safety, said once more in one place."""
    return Chapter("cautions", "Cautions", (Points(_CAUTIONS),))
