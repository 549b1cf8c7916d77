"""From the plain values of a campaign's tables to the rig, channels, logger form and doses that the tests know."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.ledger.place_inputs import form_of
from racewright.ledger.trials_unit_check import unit_remarks
from racewright.machine.row import Row
from racewright.record_rules import seconds_held
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.take_in import Source
from racewright.records.table_csv import read_columns
from racewright.records.word_table import read_words
from racewright.records.zone import zone_offset
from racewright.remark import Remark
from racewright.trials.calibration import Calibration, fit_calibration
from racewright.trials.channel import WIDEST, Channel, Span
from racewright.trials.doses import DoseCard, Piece
from racewright.trials.rig import Rig
from racewright.trials.settings import Settings

CHORD_AT = 0.7
"""Radius over tip radius where the chord of the Reynolds number is taken (common practice)."""
_HOUR = 3600.0
_ROOM_DEGREES = 15.0
_STEPS = 6.0
"""Converter steps that are the least spike."""
_STANDARD = "The uncertainty of the reference standard"
_COVARIANCE = "The covariance of the calibration"
_WANDER = "The wander of the zero (zero_wander)"
_SO = {
    _STANDARD: "intervals that rest on it are too narrow",
    _COVARIANCE: "intervals that rest on it are too narrow",
    _WANDER: "between tares the zero is taken to stay as they say",
}
"""What follows from each thing that is not given."""
Keys = Mapping[str, Any]


@dataclass(frozen=True)
class Tested:
    """The model as built.

    Attributes
    ----------
    vanes, blades : Row
    outer_radius : float
        Of the duct [m].
    hub_radius, wall_radius : float
        At the rotor; the annulus between them is the reference of every coefficient, as in the prediction [m].
    """

    vanes: Row
    blades: Row
    outer_radius: float
    hub_radius: float
    wall_radius: float


def tested(rows: tuple[Row, Row], flow: Axisymmetric) -> Tested:
    """The model with its rows as built in its duct."""
    radius = flow.station_radius
    return Tested(rows[0], rows[1], float(flow.duct_r.max()), float(radius[0]), float(radius[-1]))


def rig_of(rig: Keys, run: Keys, model: Tested) -> Rig:
    """The model in the channel of one run."""
    vanes, blades = model.vanes, model.blades
    tip = float(blades.radius[-1])
    return Rig(
        tip_radius=tip,
        hub_radius=model.hub_radius,
        wall_radius=model.wall_radius,
        blades=blades.count,
        vanes=vanes.count,
        channel_width=run["width"] or rig["width"],
        depth=run["depth"] or rig["depth"],
        axis_height=rig["axis_height"],
        blocked_radius=model.outer_radius,
        chord=float(np.interp(CHORD_AT * tip, blades.radius, blades.chord)),
        chord_radius=CHORD_AT * tip,
        water="sea" if rig["water"] == "sea" else "fresh",
        temperature=rig["temperature"],
        air_pressure=rig["air_pressure"],
        gravity=rig["gravity"],
        lid=rig["surface"] == "lid",
        radius_uncertainty=rig["radius_error"] or 0.0,
        density_uncertainty=rig["density_error"],
    )


def channels_of(
    tables: Keys, logger: Keys, files: Mapping[str, Path]
) -> tuple[tuple[Channel, ...], tuple[float, ...], tuple[Remark, ...]]:
    """Channels in order of their names, the weights of the probes of speed, and what is missing of uncertainty."""
    found, weights, blame = [], [], dict[str, list[str]]()
    wrong: list[Remark] = []
    for name, table in sorted(tables.items()):
        path = files.get(f"trials.channels.{name}.calibration.points.file")
        law, missing = _calibration(table, path)
        if table["tared"] and table["zero_wander"] == 0.0:
            missing.append(_WANDER)
        for cause in missing if table["measures"] != "other" else ():
            blame.setdefault(cause, []).append(name)
        slope = _slope(law)
        room = float(law.value(np.array(_ROOM_DEGREES))) if table["measures"] == "temperature" else None
        wrong += unit_remarks(name, table["measures"], table["unit"], slope, room)
        found.append(
            Channel(
                name,
                table["measures"],
                table["rate"] or logger["rate"],
                law,
                low=max(table["lowest"], -WIDEST),
                high=min(table["highest"], WIDEST),
                stuck_count=table["stuck"],
                spike_factor=table["spike_factor"],
                spike_floor=_STEPS * table["step"],
                tared=table["tared"],
                zero_wander=table["zero_wander"] * slope / math.sqrt(_HOUR),
                noise=table["noise"] * slope,
            )
        )
        if table["measures"] == "speed":
            weights.append(table["weight"])
    return tuple(found), tuple(weights), (*wrong, *_not_given(blame))


def _not_given(blame: Mapping[str, Sequence[str]]) -> list[Remark]:
    """What is missing of the uncertainty, each cause once with the channels that lack it."""
    return [
        Remark("caution", f"{cause} is not given for {_listed(names)}, so {_SO[cause]}.", "uncertainty")
        for cause, names in blame.items()
    ]


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _calibration(table: Keys, path: Path | None) -> tuple[Calibration, list[str]]:
    law, missing = table["calibration"], []
    reference = law["reference"]
    if reference is None:
        missing.append(_STANDARD)
    points = law["points"]
    if points is not None and path is not None:
        columns = {points["raw_column"]: "1", points["value_column"]: points["value_unit"]}
        rows = read_columns(path, columns, str(path), form_of(points))
        raw, value = rows[points["raw_column"]], rows[points["value_column"]]
        try:
            return fit_calibration(raw, value, points["degree"], reference=reference or 0.0), missing
        except InputError as fault:
            raise InputError(fault.message, file=str(path)) from None
    numbers = np.array(law["coefficients"], np.float64)
    covariance = np.zeros((numbers.size, numbers.size))
    if law["covariance"] is None:
        missing.insert(0, _COVARIANCE)
    else:
        covariance = np.array(law["covariance"], np.float64).reshape(covariance.shape)
    low, high = law["lowest"], law["highest"]
    return (
        Calibration(
            numbers,
            covariance,
            -math.inf if low is None else low,
            math.inf if high is None else high,
            reference or 0.0,
            law["degrees_of_freedom"] or math.inf,
        ),
        missing,
    )


def _slope(law: Calibration) -> float:
    """|d value/d raw| in the middle of the calibrated range, at 0 where that is open [SI unit per raw unit]."""
    middle = 0.5 * (law.raw_low + law.raw_high)
    at = middle if math.isfinite(middle) else 0.0
    powers = np.arange(1, law.coefficients.size)
    return abs(float(np.sum(powers * law.coefficients[1:] * at ** (powers - 1))))


def source_of(tables: Keys, logger: Keys, run: Keys) -> Source:
    """Columns, units and form of the logger's files, and which stretch is the run."""
    form = LoggerForm(
        logger["delimiter"],
        logger["decimal"],
        logger["encoding"],
        logger["clock"],
        logger["time_column"],
        logger["rate"] if logger["clock"] == "rate" else math.nan,
        float(zone_offset(logger["zone"])),
    )
    return Source(
        {n: t["column"] for n, t in tables.items()},
        {n: t["unit"] for n, t in tables.items()},
        form,
        run["begin"] or 0.0,
        math.inf if run["end"] is None else run["end"],
    )


def steps_of(tables: Keys, logger: Keys) -> dict[str, int]:
    """Rows of the logger for one reading of each channel."""
    return {n: round(logger["rate"] / t["rate"]) if t["rate"] else 1 for n, t in tables.items()}


def settings_of(table: Keys) -> Settings:
    """Thresholds of the reduction."""
    given = {k: v for k, v in table.items() if k not in ("follows_least", "follows_most")}
    return Settings(**given, follow=(table["follows_least"], table["follows_most"]))


def tares_of(run: Keys) -> tuple[Span, ...]:
    """Tares of a run, in order of time."""
    return tuple(sorted((Span(t["start"], t["end"]) for t in run["tares"].values()), key=lambda s: s.start))


def cards_of(tables: Keys) -> tuple[DoseCard, ...]:
    """Dose cards in order of their names."""
    return tuple(DoseCard(name, **table) for name, table in sorted(tables.items()))


def pieces_of(table: Keys | None, path: Path | None) -> tuple[Piece, ...]:
    """What became of the pieces; faults name file and line."""
    if table is None or path is None:
        return ()
    columns = [table[f"{key}_column"] for key in ("dose", "outcome", "where", "cleared", "held")]
    found = []
    for line, (dose, outcome, where, cleared, held) in read_words(path, columns, str(path), form_of(table)):
        try:
            seconds = seconds_held(held, table["decimal"])
            found.append(Piece(dose, outcome, where or "none", cleared or "not needed", seconds))  # type: ignore[arg-type]
        except InputError as fault:
            raise InputError(fault.message, file=str(path), line=line) from None
    return tuple(found)
