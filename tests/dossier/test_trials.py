"""What the dossier says of the trials as a whole."""

from __future__ import annotations

import dataclasses
import re
from functools import cache

import pytest

from racewright.dossier.build import Dossier, build
from racewright.dossier.compose import compose
from racewright.dossier.document import Heading, Picture, Table, Text
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.trials_figures import draw_trials
from racewright.ledger.trials_findings import PredictionCheck, Sensor
from racewright.remark import Remark
from racewright.trials.doses import DoseCard, Piece, dose_table
from racewright.trials.result import Refusal
from tests.dossier import sample, trials_sample
from tests.dossier.test_build import LONG, NASTY, _pages, _read, _squeeze
from tests.dossier.trials_chapter import TRIALS, alone, blocks, said

pytestmark = pytest.mark.usefixtures("drawn_once")


@cache
def _whole() -> Dossier:
    return build(sample.full(trials=TRIALS, inputs=sample.INPUTS))


def test_the_lead_says_what_was_tested_and_the_worst_region() -> None:
    assert (
        "The model gave 61 steady readings in 3 runs in water of 6.00 m × 4.00 m and 3.60 m × 4.00 m (width × "
        "depth). The interval reaches the predicted band in 3 of 4 compared readings, the value itself lies within "
        "it in 3; above the design's tip-speed ratio CP is 31.0 % "
        "below prediction on average, the worst of the regions."
    ) in said()


def test_page_one_says_the_same_and_counts_one_chapter_more() -> None:
    document = compose(sample.full(trials=TRIALS))
    answer = next(a for a in document.answers if a.question == "What the trials say")
    assert answer.lines[0] == "Invented data."
    assert answer.lines[2].startswith("The interval reaches the predicted band in 3 of 4 compared readings")
    titles = [c.title for c in document.chapters]
    assert titles.index("Trials") == titles.index("Machine") + 1
    number = 1 + titles.index("What is missing, what is unsure")
    unsure = next(a for a in document.answers if a.question == "What is unsure")
    assert all(f"chapter {number}" in line for line in unsure.lines)


def test_without_trials_there_is_no_chapter_and_no_answer() -> None:
    document = compose(sample.full())
    assert "Trials" not in [c.title for c in document.chapters]
    assert "What the trials say" not in [a.question for a in document.answers]
    assert draw_trials(sample.full(), 6.5) == {}


def test_everything_drawn_is_shown_and_everything_shown_is_drawn() -> None:
    findings = sample.full(trials=TRIALS)
    for found in (findings, sample.full(trials=trials_sample.without_readings())):
        drawn = set(draw_trials(found, WIDE))
        shown = [b.name for c in compose(found).chapters for b in c.blocks if isinstance(b, Picture)]
        assert {n for n in shown if n.startswith("trial_")} == drawn
    assert {"trial_rig_1", "trial_rig_2", "trial_readings", "trial_fouling_1"} <= set(draw_trials(findings, NARROW))


def test_what_is_invented_is_said_beside_every_picture() -> None:
    pictures = [b for b in blocks(TRIALS) if isinstance(b, Picture)]
    assert len(pictures) == 7
    assert all(p.caption.endswith("Invented data.") for p in pictures)
    measured = dataclasses.replace(TRIALS, invented=False)
    assert "invented" not in "".join(p.caption for p in blocks(measured) if isinstance(p, Picture)).lower()
    assert "nothing was measured" not in said(measured)


def test_cautions_stand_where_somebody_could_be_hurt() -> None:
    safety = [b.text for b in blocks(TRIALS) if isinstance(b, Text) and b.tone == "safety"]
    assert any("Beside and over a channel of fast water" in s and "local rules" in s for s in safety)
    assert any("No hand and no diver near the rotor" in s and "Local rules" in s for s in safety)


def test_a_campaign_without_readings_says_so_and_still_makes_a_dossier() -> None:
    bare = trials_sample.without_readings()
    words = said(bare)
    assert (
        "No steady reading came of it: there is nothing to correct and nothing to set against the prediction."
        in words
    )
    assert "see what was not used" in words
    assert "No debris was let go." in words
    assert "Run weed: fouling was not looked for, no steady reading between its tares." in words
    dossier = alone(bare)
    assert {n for n in dossier.figures if n.startswith("trial_")} == {"trial_rig_1", "trial_rig_2"}
    nothing = dataclasses.replace(bare, campaign=dataclasses.replace(bare.campaign, runs=()), sensors=(), foulings=())
    assert "0 runs of the model" in said(nothing)
    assert alone(nothing).pdf


def test_readings_without_any_correction_are_told() -> None:
    raw = dataclasses.replace(TRIALS, corrected=(), check=PredictionCheck((), (), ()))
    words = said(raw)
    assert "This reading has no correction." in words
    assert "No reading could be set against the prediction" in words
    assert "trial_readings" in alone(raw).figures


def test_both_documents_say_the_same() -> None:
    printed = "".join(_pages(_whole().pdf))
    chapter = compose(sample.full(trials=TRIALS, inputs=sample.INPUTS)).chapters[2]
    words = [b.text for b in chapter.blocks if isinstance(b, Text | Heading)]
    words += [b.caption for b in chapter.blocks if isinstance(b, Table | Picture)]
    words += [cell for b in chapter.blocks if isinstance(b, Table) for row in b.rows for cell in row]
    assert [w for w in words if _squeeze(w) not in printed] == []
    page = _squeeze(" ".join(_read(_whole().html).text))
    assert [w for w in words if _squeeze(w) not in page] == []


def test_page_one_is_still_one_page_and_nothing_is_nan() -> None:
    assert _pages(_whole().pdf)[1].startswith("1Place")
    assert not re.search(r"\b(nan|inf|None)\b", " ".join(_read(_whole().html).text))


def test_hostile_names_are_shown_and_never_run() -> None:
    bad = f"{NASTY} {LONG}"
    runs = tuple(
        dataclasses.replace(
            r,
            run=f"{bad} {r.run}",
            reduction=dataclasses.replace(
                r.reduction,
                refusals=(Refusal(0.0, 10.0, (bad,)),),
                readings=tuple(
                    dataclasses.replace(
                        o, sources=tuple(dataclasses.replace(s, name=f"{bad} {s.name}") for s in o.sources)
                    )
                    for o in r.reduction.readings
                ),
            ),
        )
        for r in TRIALS.campaign.runs
    )
    hostile = dataclasses.replace(
        TRIALS,
        name=bad,
        description=bad,
        sensors=(Sensor(bad, bad, bad, bad, bad, bad, 10.0),),
        campaign=dataclasses.replace(TRIALS.campaign, runs=runs),
        corrected=tuple(dataclasses.replace(c, run=f"{bad} {c.run}") for c in TRIALS.corrected),
        foulings=tuple(
            dataclasses.replace(f, run=f"{bad} {f.run}", reason=f.reason and bad) for f in TRIALS.foulings
        ),
        doses=dose_table((DoseCard(bad, bad, 0.1, 0.1, 0.1, 900.0, 3, 1.0),), (Piece(bad, "passed"),)),
        remarks=(Remark("warning", bad, bad),),
    )
    dossier = alone(hostile)
    reader = _read(dossier.html)
    assert not any(tag == "script" for tag, _ in reader.tags)
    assert sum(NASTY in text for text in reader.text) > 20
    assert _squeeze("<script>alert('x')</script>#eval(\"1+1\")") in "".join(_pages(dossier.pdf))
