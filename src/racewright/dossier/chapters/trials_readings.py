"""The readings of the trials: corrected, how sure they are, set against prediction."""

from __future__ import annotations

import math
from collections.abc import Sequence

from racewright.dossier import format as fmt
from racewright.dossier.chapters.trials_table import readings_table
from racewright.dossier.chapters.trials_words import (
    counted,
    measured,
    named,
    percent,
    percent_off,
    section,
)
from racewright.dossier.document import Block, Column, Heading, Picture, Points, Table, Text
from racewright.dossier.text import clean, sentence, signs
from racewright.dossier.trials_figures import budget, predicted
from racewright.dossier.trials_view import Shown, blockage_groups
from racewright.ledger.trials_check import NEAR, band_words
from racewright.ledger.trials_findings import Region, TrialsFindings
from racewright.trials.result import Measured

_MANY = 1000.0
"""Degrees of freedom from which they are not told apart from endless many."""


def readings(trials: TrialsFindings, shown: Sequence[Shown]) -> tuple[Block, ...]:
    """Figure and table."""
    if not shown:
        return section(
            "Readings", "No stretch of any run was steady enough to give a reading; see what was not used."
        )
    told = predicted(trials)
    open_stream = any(
        not s.fouled and s.corrected is not None and s.corrected.power_coefficient is not None for s in shown
    )
    filled = ", filled: corrected for the channel" if open_stream else ""
    caption = sentence(
        f"Hollow: as measured in the channel{filled}; bars: {percent(trials.confidence)}.",
        "Marks differ by blockage, the duct's circle over the channel's area."
        if len(blockage_groups(shown)) > 1
        else "",
        "Line: the machine as built, at each reading's stream and rotor speed; the band is that of CP."
        if told
        else "",
    )
    return (
        Heading("Readings"),
        Picture("trial_readings", caption, _alt(shown)),
        *readings_table(trials, shown),
    )


def _alt(shown: Sequence[Shown]) -> str:
    ratio = [s.reading.tip_speed_ratio.value for s in shown]
    power = [s.reading.power_coefficient.value for s in shown]
    return (
        f"{counted(len(shown), 'reading')} at tip-speed ratios {fmt.number(min(ratio), 2)} to "
        f"{fmt.number(max(ratio), 2)}; CP in the channel {fmt.number(min(power), 2)} to {fmt.number(max(power), 2)}."
    )


def doubt(at: Shown) -> tuple[Block, ...]:
    """The budget of the reading nearest the design."""
    one = at.reading
    bars, _together = budget(one)
    title = "How sure a reading is"
    if not bars:
        return section(title, f"Reading {named(at)} has no source of uncertainty: its intervals say nothing.")
    pairs = (("CP", one.power_coefficient), ("CT", one.thrust_coefficient), ("Tip-speed ratio", one.tip_speed_ratio))
    words = tuple(_sure(name, m, at.confidence) for name, m in pairs)
    caption = (
        f"Reading {named(at)}: what each source does to CP and CT, as relative standard uncertainty. Random sources "
        "fall with a longer window, the others do not."
    )
    alt = "; ".join(
        f"{clean(n)}: CP {fmt.fixed(p, fmt.SHARE, 2)}, CT {fmt.fixed(t, fmt.SHARE, 2)}" for n, p, t in bars
    )
    return (
        Heading(title),
        Text(
            f"Reading {named(at)} stands for the rest. Its intervals are to hold the true value with "
            f"{percent(at.confidence)} "
            "confidence, the sources below counted and no other. Not among them: friction of seals, cross-talk of "
            "the balance, alignment, the profile of the stream, where the probes stand (those near the machine read "
            "low, and CP high), and drag of the frame."
        ),
        Picture("trial_budget", caption, alt),
        Points(words),
    )


def _sure(name: str, one: Measured, confidence: float) -> str:
    freedom = one.degrees_of_freedom
    many = not math.isfinite(freedom) or freedom > _MANY
    told = f"over {fmt.number(_MANY, 0)}" if many else fmt.number(freedom, 0)
    total = one.random**2 + one.systematic**2
    share = one.random**2 / total if total > 0.0 else 0.0
    return (
        f"{name} {measured(one, confidence)} at {percent(confidence)} confidence, with {told} effective degrees of "
        f"freedom; "
        f"{fmt.fixed(share, fmt.SHARE, 0)} of its variance is random."
    )


def against_prediction(trials: TrialsFindings) -> tuple[Block, ...]:
    """Residuals by region."""
    title, check = "Against the prediction", trials.check
    if not check.regions:
        return section(
            title, "No reading could be set against the prediction: none is left that is clean and corrected."
        )
    known = [r for r in check.rows if r.inside is not None]
    out = sum(not r.inside for r in known)
    columns = (
        Column("tip-speed ratio", share=2.0),
        *(
            Column(n, "end", 1.1)
            for n in ("loads", "intervals reach", "do not", "readings", "CP off", "spread", "CT off")
        ),
    )
    caption = sentence(
        f"Measured less predicted over predicted, means by region; near: within {fmt.fixed(NEAR, fmt.SHARE, 0)} "
        "of the design's tip-speed ratio. Windows of a run at one tip-speed ratio are one load; its intervals reach "
        "the predicted band when those of all its readings do. Spread: standard deviation of CP over the loads.",
    )
    alt = "; ".join(f"{r.region} the design CP {percent_off(r.power_residual)}" for r in check.regions)
    blocks: list[Block] = [
        Heading(title),
        Text(
            "Each reading is set beside the machine as built, solved at the same open stream and rotor speed. "
            f"{band_words(check.rows).capitalize()}. Intervals are those at {percent(trials.confidence)}; of a value "
            "outside whose interval reaches the band, test and prediction may both be right."
        ),
        Picture(
            "trial_residuals",
            f"Residuals over tip-speed ratio; bars {percent(trials.confidence)} of the test alone.",
            alt,
        ),
        Table(caption, columns, tuple(_region(r) for r in check.regions)),
    ]
    if out:
        blocks.append(
            Text(
                f"In {out} of {len(known)} not even the interval reaches the band: quote neither test nor prediction "
                "alone before that is understood.",
                "safety",
            )
        )
    lost = [r for r in check.rows if r.inside is None]
    if lost:
        why = "; ".join(dict.fromkeys(signs(r.reason) for r in lost if r.reason))
        blocks.append(Text(f"{counted(len(lost), 'reading')} without a prediction: {why or 'no reason told'}."))
    return tuple(blocks)


def _region(one: Region) -> tuple[str, ...]:
    return (
        f"{one.region} the design's",
        str(one.loads),
        str(one.inside),
        str(one.loads - one.inside),
        str(one.readings),
        percent_off(one.power_residual),
        fmt.fixed(one.power_spread, fmt.SHARE, 1) if one.loads > 1 else "\u2013",
        percent_off(one.thrust_residual),
    )
