"""A campaign's store beside its scheme: logger files taken in, runs reduced from what is kept."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from racewright.errors import InputError
from racewright.ledger.graph import file_digest
from racewright.ledger.roles import Roles
from racewright.ledger.trials_things import (
    channels_of,
    rig_of,
    settings_of,
    source_of,
    steps_of,
    tares_of,
)
from racewright.machine.row import Row
from racewright.records.campaign.even_rows import EvenRows
from racewright.records.campaign.store import Campaign, Run
from racewright.records.campaign.take_in import Taken, take_in
from racewright.remark import Remark
from racewright.scheme.load import LoadedScheme
from racewright.tick import Tick
from racewright.trials.cells import Ints
from racewright.trials.channel import Channel, Chunk
from racewright.trials.flags import REASONS, Codes
from racewright.trials.reduce import reduce
from racewright.trials.result import Reading, Reduction

REVISION = 1
"""Raised when equal inputs give another reduction, so that kept ones are made anew."""
QUANTITIES = (
    ("stream_speed", "m/s"),
    ("mean_speed", "m/s"),
    ("turbulence_intensity", "-"),
    ("torque", "N m"),
    ("rotor_speed", "rad/s"),
    ("thrust", "N"),
    ("power", "W"),
    ("temperature", "K"),
    ("depth", "m"),
)
"""Means of a reading that the store keeps, with their units."""
COEFFICIENTS = ("power_coefficient", "torque_coefficient", "thrust_coefficient", "tip_speed_ratio")
NUMBERS = ("blockage", "froude_number", "chord_reynolds", "cavitation_number")


@dataclass(frozen=True)
class Reduced:
    """One run reduced from the store.

    Attributes
    ----------
    run : str
    reduction : Reduction or None
        None where the kept one still holds.
    remarks : tuple of Remark
        What is missing of the channels' uncertainty.
    """

    run: str
    reduction: Reduction | None
    remarks: tuple[Remark, ...]


def campaign_folder(loaded: LoadedScheme, name: str) -> Path:
    """Where the campaign of [trials.NAME] is kept: `campaign_NAME` beside the scheme."""
    return loaded.folder / f"campaign_{name}"


def import_runs(loaded: LoadedScheme, roles: Roles, campaign: Campaign, only: str | None, tick: Tick) -> list[Taken]:
    """Take in the logger files of all runs, or of one; a file that the store has already costs one read.

    Raises
    ------
    InputError
        A file as `take_in` refuses it; `only` names no run.
    """
    keys = roles.plain("trials")
    source = source_of(keys["channels"], keys["logger"])
    names = _runs(loaded, roles, only)
    found = []
    for done, name in enumerate(names):
        path = loaded.data_file(
            roles.find(f"trials.runs.{name}.file"), *roles.scheme_path(f"trials.runs.{name}.file")
        )
        found.append(take_in(campaign, name, path, source, str(path), _part(tick, done, len(names))))
    return found


def reduce_runs(
    loaded: LoadedScheme,
    roles: Roles,
    campaign: Campaign,
    rows: tuple[Row, Row],
    outer_radius: float,
    only: str | None,
    tick: Tick,
    *,
    anew: bool = False,
) -> list[Reduced]:
    """Reduce every run from the store and keep the readings there; a run whose recipe stands is left as it is.

    Raises
    ------
    InputError
        A run is not in the store yet, or channels and runs do not fit together.
    """
    keys = roles.plain("trials")
    files = {
        path: loaded.data_file(roles.find(path), *roles.scheme_path(path))
        for path in roles.expanded("trials.channels.*.calibration.points.file")
        if roles.find(path) is not None
    }
    channels, weights, missing = channels_of(keys["channels"], keys["logger"], files)
    kept = {run.run: run for run in campaign.runs()}
    names = _runs(loaded, roles, only)
    found = []
    for done, name in enumerate(names):
        if name not in kept:
            message = f"run {name!r} is not in the campaign yet; say 'racewright trials import' first"
            raise loaded.error(message, "trials", roles.names["trials"], "runs", name)
        run, table = kept[name], keys["runs"][name]
        rig = rig_of(keys["rig"], table, *rows, outer_radius)
        recipe = _recipe(run, keys, table, rig, sorted((p, file_digest(f)) for p, f in files.items()))
        if not anew and campaign.recipe(name) == recipe:
            found.append(Reduced(name, None, missing))
            continue
        flags = _Flags(steps_of(keys["channels"], keys["logger"]))
        try:
            reduction = reduce(
                stored(campaign, run, keys, channels),
                channels,
                rig,
                tares=tares_of(table),
                weights=weights,
                settings=settings_of(keys["reduction"]),
                duration=run.seconds,
                flagged=flags,
                tick=_part(tick, done, len(names)),
            )
        except InputError as fault:
            raise InputError(fault.message, file=fault.file or run.file, line=fault.line, key=fault.key) from None
        campaign.put_reduction(name, recipe, flags.rows, *_kept(reduction))
        found.append(Reduced(name, reduction, missing))
    return found


def stored(campaign: Campaign, run: Run, keys: Mapping[str, Any], channels: Sequence[Channel]) -> Iterator[Chunk]:
    """A run's channels from the store, evenly spaced at their own rates."""
    names = [c.name for c in channels]
    logger = keys["logger"]
    even = EvenRows(names, steps_of(keys["channels"], logger), logger["rate"], run.file)
    return even.chunks(campaign.chunks(run, names))


class _Flags:
    """Collects runs of flagged readings as rows of the store."""

    def __init__(self, steps: Mapping[str, int]) -> None:
        self._steps = steps
        self.rows: list[tuple[str, int, int, str]] = []

    def __call__(self, channel: str, first: Ints, last: Ints, reason: Codes) -> None:
        step = self._steps[channel]
        rows = zip((first * step).tolist(), (last * step + step - 1).tolist(), reason.tolist(), strict=True)
        self.rows += [(channel, a, b, REASONS[code]) for a, b, code in rows]


def _kept(
    reduction: Reduction,
) -> tuple[list[tuple[float, float, bool, str]], list[tuple[int, str, float, float | None, float | None, str]]]:
    """Spans in order of time, and the readings' quantities by span."""
    both: list[tuple[float, float, Reading | None, str]] = [(r.start, r.end, r, "") for r in reduction.readings]
    both += [(r.start, r.end, None, "; ".join(r.reasons)) for r in reduction.refusals]
    both.sort(key=lambda one: one[0])
    spans = [(start, end, one is not None, why) for start, end, one, why in both]
    readings: list[tuple[int, str, float, float | None, float | None, str]] = []
    for place, (_start, _end, one, _why) in enumerate(both):
        if one is None:
            continue
        readings += [(place, key, float(getattr(one, key)), None, None, unit) for key, unit in QUANTITIES]
        readings += [(place, key, float(getattr(one.numbers, key)), None, None, "-") for key in NUMBERS]
        for key in COEFFICIENTS:
            found = getattr(one, key)
            freedom = found.degrees_of_freedom if math.isfinite(found.degrees_of_freedom) else None
            readings.append((place, key, found.value, found.standard_uncertainty, freedom, "-"))
    return spans, readings


def _recipe(run: Run, *parts: Any) -> str:
    """Digest of all that a reduction depends on, hex."""
    whole = repr((REVISION, run.sha256, run.mapping, *parts))
    return hashlib.sha256(whole.encode()).hexdigest()


def _runs(loaded: LoadedScheme, roles: Roles, only: str | None) -> list[str]:
    known = sorted(roles.find("trials").runs)
    if only is not None and only not in known:
        message = f"no run {only!r}; the campaign has {', '.join(known) or 'none'}"
        raise loaded.error(message, "trials", roles.names["trials"], "runs")
    if not known:
        message = "no run yet; add a table like [trials.NAME.runs.first] with its file"
        raise loaded.error(message, "trials", roles.names["trials"])
    return known if only is None else [only]


def _part(tick: Tick, done: int, of: int) -> Tick:
    return lambda fraction: tick((done + fraction) / of)
