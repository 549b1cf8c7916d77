"""What the dossier says of the trials."""

from __future__ import annotations

import dataclasses
import re
from functools import cache

import pytest

from racewright.dossier.build import Dossier, build
from racewright.dossier.chapters import trials_debris
from racewright.dossier.chapters.trials import write
from racewright.dossier.chapters.trials_table import MOST_ROWS, kept_rows
from racewright.dossier.chapters.trials_words import with_half, without_figures
from racewright.dossier.compose import compose
from racewright.dossier.document import Block, Heading, Picture, Points, Table, Text
from racewright.dossier.drawings import Drawings
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.page import page
from racewright.dossier.sheets import sheets
from racewright.dossier.trials_figures import draw_trials
from racewright.dossier.trials_view import every_reading
from racewright.ledger.trials_findings import PredictionCheck, RunFouling, Sensor, TrialsFindings
from racewright.remark import Remark
from racewright.trials.doses import DoseCard, Piece, dose_table
from racewright.trials.result import Reading, Refusal
from racewright.uncertainty import binomial_limits
from tests.dossier import sample, trials_sample
from tests.dossier.test_build import LONG, NASTY, _pages, _read, _squeeze

MACHINE, TRIALS = sample.machine(), trials_sample.trials()
NEAREST = TRIALS.campaign.runs[1].reduction.readings[0]
"""The reading nearest the design."""


def blocks(found: TrialsFindings) -> tuple[Block, ...]:
    return write(found, MACHINE).blocks


def said(found: TrialsFindings = TRIALS) -> str:
    """All words of the chapter, thin spaces as plain ones."""
    words: list[str] = []
    for block in blocks(found):
        if isinstance(block, Text | Heading):
            words.append(block.text)
        elif isinstance(block, Points):
            words += block.items
        elif isinstance(block, Table):
            words += [block.caption, *(" | ".join(row) for row in block.rows)]
        elif isinstance(block, Picture):
            words += [block.caption, block.alt]
    return "\n".join(words).replace("\u202f", " ").replace("\u2212", "-")


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


@cache
def _whole() -> Dossier:
    return build(sample.full(trials=TRIALS, inputs=sample.INPUTS))


def _alone(found: TrialsFindings) -> Dossier:
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


def test_the_lead_says_what_was_tested_and_the_worst_region() -> None:
    assert (
        "The model gave 61 steady readings in 3 runs in water of 6.00 m × 4.00 m and 3.60 m × 4.00 m (width × "
        "depth). 1 of 4 compared lie outside the predicted band; above the design's tip-speed ratio CP is 31.0 % "
        "below prediction on average, the worst of the regions."
    ) in said()


def test_page_one_says_the_same_and_counts_one_chapter_more() -> None:
    document = compose(sample.full(trials=TRIALS))
    answer = next(a for a in document.answers if a.question == "What the trials say")
    assert answer.lines[0] == "Invented data."
    assert answer.lines[2].startswith("1 of 4 compared lie outside")
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


def test_sensors_stand_with_unit_rate_part_and_source() -> None:
    row = next(r for r in table("channel") if r["channel"] == "torque")
    assert list(row.values()) == ["torque", "torque", "mV", "100 Hz", "SH-6", "invented"]
    assert next(r for r in table("channel") if r["channel"] == "temperature")["part"] == "not told"


def test_readings_carry_their_95_percent_interval() -> None:
    rows = table("reading")
    one = TRIALS.campaign.runs[0].reduction.readings[1]
    row = next(r for r in rows if r["reading"] == "loads 2")
    half = one.power_coefficient.high - one.power_coefficient.value
    assert row["CP"] == f"{one.power_coefficient.value:.4f} ± {half:.4f}"
    numbers = next(r for r in table("in the channel") if r["in the channel"] == "loads 2")
    assert numbers["Froude"] == f"{one.numbers.froude_number:.3f}"
    assert row["CP as defined"] == f"{one.power_coefficient.as_defined:.3f}"
    own = next(c for c in TRIALS.corrected if (c.run, c.number) == ("loads", 2))
    assert row["CP in the open"] == f"{own.power_coefficient:.3f}"
    assert row["CP frontal"] == f"{own.power_coefficient * TRIALS.frontal_share:.3f}"
    assert row["speed, m/s"] == f"{one.stream_speed:.3f}"


def test_a_stated_confidence_is_that_of_every_interval() -> None:
    found = dataclasses.replace(TRIALS, confidence=0.68)
    one = TRIALS.campaign.runs[0].reduction.readings[1].power_coefficient
    row = next(r for r in table("reading", found) if r["reading"] == "loads 2")
    half = float(row["CP"].split("\u00b1")[1])
    assert half == pytest.approx(one.standard_uncertainty, rel=0.1)
    words = said(found)
    assert "68 %" in words
    assert "interval touches it" in words


def test_under_a_lid_there_is_no_froude_number_and_no_cavitation() -> None:
    lid = dataclasses.replace(TRIALS, surface="lid")
    (row, *_rest) = table("in the channel", lid)
    assert list(row) == ["in the channel", "begin, s", "turbulence, %", "Reynolds, thousands"]
    assert "Under a lid there is no Froude number" in said(lid)


def test_the_record_has_no_ratio_of_speeds() -> None:
    row = next(r for r in table("method") if r["method"].startswith("record"))
    assert row["speed ratio"] == "\u2013"


def test_a_long_campaign_is_thinned_and_the_rest_is_told() -> None:
    shown = every_reading(TRIALS)
    assert [s.run for s in kept_rows(shown, {"weed"})] == ["loads"] * 3 + ["narrow"] + ["weed"] * 3
    assert [s.number for s in kept_rows(shown, {"weed"})[-3:]] == [1, 29, 57]
    many = kept_rows(shown, set())
    assert len(many) == MOST_ROWS
    assert (many[0], many[-1]) == (shown[0], shown[-1])
    assert "Not in the table, 54 readings: 54 of run weed (CP " in said()
    assert "results.json holds every one" in said()


def test_every_method_stands_beside_the_reading_and_one_is_taken() -> None:
    rows = table("method")
    assert rows[0]["method"] == "in the channel, as measured"
    taken = [r for r in rows if r["method"].endswith("(taken)")]
    assert len(taken) == 1
    assert taken[0]["method"].startswith("record")
    told = TRIALS.corrected[1].blockage
    assert len(rows) == len(told.estimates) + 2
    refused = next(r for r in rows if r["state"] == "refused")
    assert refused["CP"] == "–"
    assert refused["why not valid"]
    assert "because the same model at several blockages is measured; every theory is not." in said()


def test_whole_thrust_is_scaled_with_the_speed_and_not_the_rotors_load() -> None:
    rows = {r["method"].removesuffix(" (taken)"): r for r in table("method")}
    told = TRIALS.corrected[3].blockage
    one = next(e for e in told.estimates if e.stream_ratio)
    thrust = NEAREST.thrust_coefficient.value
    assert one.stream_ratio is not None
    assert rows[one.title]["CT"] == f"{thrust / one.stream_ratio**2:.3f}"
    assert rows[one.title]["CT"] != f"{one.thrust_coefficient:.3f}"


def test_the_record_says_its_blockages() -> None:
    assert (
        "The record holds 2 blockages at the same tip-speed ratio, rotor annulus over channel 2.49 % to 4.15 %."
        in said()
    )


def test_confidence_is_told_in_words_with_degrees_of_freedom() -> None:
    words = said()
    freedom = NEAREST.power_coefficient.degrees_of_freedom
    assert f"at 95 % confidence, with {freedom:.0f} effective degrees of freedom" in words
    many = dataclasses.replace(NEAREST.power_coefficient, degrees_of_freedom=float("inf"))
    changed = _with_reading(dataclasses.replace(NEAREST, power_coefficient=many))
    assert "with over 1000 effective degrees of freedom" in said(changed)


def _with_reading(one: Reading) -> TrialsFindings:
    """The campaign with another reading nearest the design."""
    loads, narrow, weed = TRIALS.campaign.runs
    run = dataclasses.replace(narrow, reduction=dataclasses.replace(narrow.reduction, readings=(one,)))
    return dataclasses.replace(TRIALS, campaign=dataclasses.replace(TRIALS.campaign, runs=(loads, run, weed)))


def test_residuals_count_inside_and_outside_by_region() -> None:
    rows = table("tip-speed ratio")
    assert [(r["readings"], r["meet the band"], r["outside"], r["CP off"]) for r in rows] == [
        ("1", "1", "0", "-6.0 %"), ("2", "2", "0", "-2.5 %"), ("1", "0", "1", "-31.0 %"),
    ]  # fmt: skip
    assert "1 of 4 lie outside the band: quote neither test nor prediction alone" in said()
    rows = [dataclasses.replace(r, inside=True) for r in TRIALS.check.rows]
    calm = dataclasses.replace(TRIALS, check=dataclasses.replace(TRIALS.check, rows=tuple(rows)))
    assert "quote neither" not in said(calm)
    assert "All 4 compared meet the predicted band" in said(calm)


def test_a_reading_without_prediction_says_why() -> None:
    lost = dataclasses.replace(
        TRIALS.check.rows[0], predicted_power=None, predicted_low=None, predicted_high=None, power_residual=None,
        inside=None, reason="no operating point there",
    )  # fmt: skip
    check = PredictionCheck((lost, *TRIALS.check.rows[1:]), TRIALS.check.regions, ())
    assert "1 reading without a prediction: no operating point there." in said(
        dataclasses.replace(TRIALS, check=check)
    )
    assert _alone(dataclasses.replace(TRIALS, check=check)).html


def test_ripple_names_its_peaks() -> None:
    row = table("order")[0]
    assert (row["order"], row["what passes"], row["over the mean"]) == ("5", "blade passing", "3.99 %")


def test_a_slow_logger_is_blamed_for_what_it_cannot_see() -> None:
    ripple = NEAREST.ripple
    slow = dataclasses.replace(ripple, order=ripple.order[:4], amplitude=ripple.amplitude[:4], peaks=())
    words = said(_with_reading(dataclasses.replace(NEAREST, ripple=slow)))
    assert "The torque was logged too slowly to see blade passing (order 5) and vane passing (order 9)" in words
    assert "too slowly" not in said()


def test_fouling_tells_loss_onset_alarm_and_what_cleaning_gave() -> None:
    assert list(table("run")[0].values()) == [
        "weed", "5.8 %", "4.9 to 6.7 %", "20 min", "33 min", "5.6 %", "5.0 to 6.2 %",
    ]  # fmt: skip
    assert "Run short: fouling was not looked for, too few rows." in said()
    assert "fouling was not looked for" in said(dataclasses.replace(TRIALS, foulings=()))
    found = dataclasses.replace(trials_sample.FOULING, found=False, alarm_time=None, recovered=None)
    clean = dataclasses.replace(TRIALS, foulings=(RunFouling("weed", found, "", 40.0, 3560.0, None),))
    assert table("run", clean)[0]["alarm"] == "none"
    assert table("run", clean)[0]["given back"] == "–"


def test_limits_of_a_dose_keep_their_label() -> None:
    """One-sided above where nothing lodged, two-sided else; shares of what entered."""
    rows = {r["dose"]: r for r in table("dose")}
    assert rows["leaves"]["chance of lodging"] == binomial_limits(0, 59, sides="upper").label
    assert "one-sided upper 95 % limit" in rows["leaves"]["chance of lodging"]
    assert rows["sticks"]["chance of lodging"] == binomial_limits(2, 17).label
    assert rows["mats"]["chance of lodging"] == "none entered the duct"
    words = said()
    assert "Lodged: 1 in the vanes, 1 in the rotor; came out: 1 when the rotor was stopped, 1 by hand; held" in words
    assert "3 pieces unseen: had all of them lodged, it would be 5 of 20" in words


def test_a_dose_of_which_nothing_was_seen_is_told() -> None:
    rows = dose_table((DoseCard("nuts", "nut", 0.03, 0.03, 0.03, 1100.0, 4, 1.0),), ())
    words = str(trials_debris.write(rows))
    assert "none entered the duct" in words
    assert "4 of 4" in words


def test_refused_flagged_and_tared_are_counted() -> None:
    whole = {r["reason"]: r for r in table("reason")}
    refusals = [x for r in TRIALS.campaign.runs for x in r.reduction.refusals]
    tares = [x for x in refusals if x.reasons == ("tare",)]
    assert whole["tare"]["stretches"] == str(len(tares))
    assert whole["rotor speed: scatters"]["stretches"] == "3"
    flagged = [r for r in blocks(TRIALS) if isinstance(r, Table) and r.columns[2].name == "flagged"]
    assert [r[-1] for r in flagged[0].rows if r[0] == "torque"] == ["3"]
    drift = next(r for r in table("run and channel") if r["run and channel"] == "loads, torque")
    assert drift["tares"] == "2"
    assert drift["in"] == "5 min"


@pytest.mark.parametrize(
    ("given", "wanted"),
    [
        ("speed: drifts +49.5 %", "speed: drifts"),
        ("rotor speed: scatters 9.5 %", "rotor speed: scatters"),
        ("torque: scatter of the halves differs 12.2-fold", "torque: scatter of the halves differs"),
        ("torque: scatter of the halves differs 1e+300-fold", "torque: scatter of the halves differs"),
        ("flow_a2: 7.0 % of readings flagged", "flow_a2: readings flagged"),
        ("shorter than a window", "shorter than a window"),
    ],
)
def test_reasons_meet_without_their_figures(given: str, wanted: str) -> None:
    assert without_figures(given) == wanted


def test_half_widths_get_the_digits_they_deserve() -> None:
    assert with_half(0.49802, 0.0108) == "0.498 ± 0.011"
    assert with_half(0.49802, 0.00064) == "0.4980 ± 0.0006"
    assert with_half(0.5, 0.0) == "0.500"
    assert with_half(float("nan"), 0.1) == "not known"


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
    dossier = _alone(bare)
    assert {n for n in dossier.figures if n.startswith("trial_")} == {"trial_rig_1", "trial_rig_2"}
    nothing = dataclasses.replace(bare, campaign=dataclasses.replace(bare.campaign, runs=()), sensors=(), foulings=())
    assert "0 runs of the model" in said(nothing)
    assert _alone(nothing).pdf


def test_readings_without_any_correction_are_told() -> None:
    raw = dataclasses.replace(TRIALS, corrected=(), check=PredictionCheck((), (), ()))
    words = said(raw)
    assert "This reading has no correction." in words
    assert "No reading could be set against the prediction" in words
    assert "trial_readings" in _alone(raw).figures


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
    dossier = _alone(hostile)
    reader = _read(dossier.html)
    assert not any(tag == "script" for tag, _ in reader.tags)
    assert sum(NASTY in text for text in reader.text) > 20
    assert _squeeze("<script>alert('x')</script>#eval(\"1+1\")") in "".join(_pages(dossier.pdf))
