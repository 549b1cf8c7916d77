"""Trials: runs of the campaign, raw traces with flagged spans, readings on the predicted band, fouling."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from pydantic import Field

from racewright.desk import look
from racewright.desk.parts.trial_store import UNITS
from racewright.desk.seam import Asked, Drawing, Options, Page
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

_COVERAGE = 2.0
"""Standard uncertainties of a bar, as `trials compare` prints them."""


class TrialOptions(Options):
    """Which raw trace is asked for; none when left out."""

    run: str = Field("", max_length=200)
    """Run of the store."""
    channel: str = Field("", max_length=200)
    """Channel of that run."""
    start: float = Field(0.0, ge=0.0, allow_inf_nan=False)
    """From when, after the run's first row [s]."""
    end: float | None = Field(None, ge=0.0, allow_inf_nan=False)
    """Until when [s]; to the end when left out."""


def data(asked: Asked) -> dict[str, Any]:
    """The case's campaign; `trials` is that of `report --json`, `store` what was taken in, `trace` a raw channel."""
    from racewright.cli.trials_compared import trials_figures
    from racewright.desk.parts.chapter import told
    from racewright.desk.parts.trial_store import kept_runs, trace
    from racewright.dossier.chapters import trials as chapter
    from racewright.ledger.trials_check import band_words

    raw = {"store": kept_runs(asked), **trace(asked)}
    found = asked.findings()
    if found.trials is None or found.machine is None:
        return {"trials": None, "band": "", "chapter": None, **raw}
    written = chapter.write(found.trials, found.machine)
    words = band_words(found.trials.check.rows)
    return {"trials": trials_figures(found.trials), "band": words, "chapter": told(written), **raw}


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """The drawings of the dossier's chapter on the trials."""
    from racewright.desk.parts.chapter import paired
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.trials_figures import draw_trials

    found = asked.findings()
    wide = draw_trials(found, WIDE)
    asked.tick(0.9)
    return paired(wide, draw_trials(found, NARROW))


def controls(screen: Screen) -> None:
    """Take logger files in; stays while answers come and go. Nothing in a case without trials."""
    if screen.table("trials"):
        from racewright.desk.parts.trial_logger import logger_area

        logger_area(screen)


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    from racewright.desk.parts.chapter_view import chapter
    from racewright.desk.parts.trial_traces import traces

    trials = data["trials"]
    if trials is None:
        look.empty(
            "No trials in this case yet.",
            "Add a [trials.NAME] table with the rig, the logger's columns as channels and a file for each run, and"
            ' name it in the case as trials = "NAME", beside the machine that was tested. The example'
            " 'racewright new demo --example model_test' shows how.",
        )
        return
    if trials["invented"]:
        look.cautions(["Invented data: a formula wrote the logger's files, nothing was measured."])
    _runs(trials)
    _predicted(trials, data["band"])
    traces(screen, data["store"])
    chapter(screen, data["chapter"])


def _runs(trials: dict[str, Any]) -> None:
    fouled = {f["run"]: f for f in trials["foulings"]}
    rows = []
    for one in trials["campaign"]["runs"]:
        reduction, rig = one["reduction"], one["rig"]
        refused = sum(r["end_s"] - r["start_s"] for r in reduction["refusals"])
        size = f"{fmt.number(rig['channel_width_m'], 2)} × {fmt.quantity(rig['depth_m'], fmt.LENGTH)}"
        rows.append(
            [
                one["run"],
                size,
                f"{fmt.number(reduction['duration_s'], 0)}{fmt.THIN}s",
                str(len(reduction["readings"])),
                f"{fmt.number(refused, 0)}{fmt.THIN}s",
                _fouling(fouled.get(one["run"])),
            ]
        )
    names = ("channel, width × depth", "length", "readings", "refused")
    columns = [look.Column("run"), *(look.Column(n, number=True) for n in names), look.Column("fouling")]
    with look.section("Runs"):
        look.table("Runs of the campaign, reduced from the logger's files", columns, rows)


def _fouling(one: dict[str, Any] | None) -> str:
    if one is None:
        return "not looked for"
    if one["found"] is None:
        return f"not to be told: {one['reason']}"
    if not one["found"]["found"]:
        return "none found"
    loss = one["found"]
    ends = (fmt.number(100.0 * loss["loss_low"], 1), fmt.fixed(loss["loss_high"], fmt.SHARE, 1))
    return f"{fmt.fixed(loss['loss'], fmt.SHARE, 1)} of the torque lost ({ends[0]} to {ends[1]})"


def _predicted(trials: dict[str, Any], band: str) -> None:
    """Power coefficient as measured in the channel and in the open stream, on the predicted band."""
    rows = sorted(
        (r for r in trials["check"]["rows"] if r["predicted_low"] is not None), key=lambda r: r["tip_speed_ratio"]
    )
    measured = [r for run in trials["campaign"]["runs"] for r in run["reduction"]["readings"]]
    with look.section("Readings on the predicted band"):
        if not measured:
            look.empty("No steady reading yet.", "The tables below say what was not used of each run, and why.")
            return
        line = look.Line(
            [r["tip_speed_ratio"] for r in rows],
            [r["predicted_power"] for r in rows],
            "",
            "second",
            low=[r["predicted_low"] for r in rows],
            high=[r["predicted_high"] for r in rows],
        )
        corrected = [c for c in trials["corrected"] if c["power_coefficient"] is not None]
        look.chart(
            f"{band.capitalize() or 'No reading compared'} (filled: corrected); hollow: as in the channel",
            [line],
            x="tip-speed ratio, -",
            y="power coefficient CP, -",
            name="readings",
            height=360,
            more={"hovermode": "closest"},
            traces=[
                _marks(
                    "as measured in the channel",
                    [r["tip_speed_ratio"]["value"] for r in measured],
                    [r["power_coefficient"]["value"] for r in measured],
                    [r["power_coefficient"]["standard_uncertainty"] for r in measured],
                    "circle-open",
                ),
                _marks(
                    "corrected for the channel",
                    [c["tip_speed_ratio"] for c in corrected],
                    [c["power_coefficient"] for c in corrected],
                    [c["power_uncertainty"] for c in corrected],
                    "circle",
                ),
            ],
        )
        look.note("Bars: two standard uncertainties. Fouled runs are among the hollow marks.", "soft")
        _regions(trials["check"]["regions"])


def _marks(name: str, x: list[float], y: list[float], uncertainty: list[float | None], symbol: str) -> dict[str, Any]:
    from racewright.desk.look.palette import NAMED

    colour = NAMED["accent"]  # measured; predicted is the second, as in the dossier
    bars = {"type": "data", "array": [_COVERAGE * (u or 0.0) for u in uncertainty], "color": colour, "thickness": 1}
    marker = {"symbol": symbol, "size": 8, "color": colour, "line": {"width": 1.5, "color": colour}}
    return {"type": "scatter", "mode": "markers", "name": name, "x": x, "y": y, "error_y": bars, "marker": marker}


def _regions(regions: list[dict[str, Any]]) -> None:
    rows = [
        [
            f"{r['region']} the design's tip-speed ratio",
            str(r["readings"]),
            str(r["loads"]),
            str(r["inside"]),
            *(_signed(r[key]) for key in ("power_residual", "thrust_residual")),
            fmt.fixed(r["power_spread"], fmt.SHARE, 1),
        ]
        for r in regions
    ]
    if rows:
        names = ("readings", "loads", "loads whose intervals reach the band", "CP off", "CT off", "spread of CP")
        columns = [look.Column("region"), *(look.Column(n, number=True) for n in names)]
        look.table("Measured less predicted, over predicted", columns, rows)


def _signed(value: float) -> str:
    text = fmt.fixed(value, fmt.SHARE, 1)
    return f"+{text}" if value > 0.0 else text


PAGE = Page("trials", "Trials", "Trials", 30, data, view, drawings, controls, options=TrialOptions, units=UNITS)
