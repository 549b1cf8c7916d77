"""A campaign's store beside its scheme: logger files taken in, runs reduced from what is kept."""

from __future__ import annotations

import difflib
import hashlib
import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from racewright.errors import InputError, MissingColumn, UnitClash
from racewright.ledger.graph import file_digest
from racewright.ledger.roles import Roles
from racewright.ledger.trials_kept import logger_file, of_store
from racewright.ledger.trials_limits import check_fits, check_times, of_run, rated
from racewright.ledger.trials_mapping import at_mapping, check_columns
from racewright.ledger.trials_rows import rows_of
from racewright.ledger.trials_things import Tested, channels_of, rig_of, settings_of, source_of, steps_of, tares_of
from racewright.records.ahead import ahead
from racewright.records.campaign.cell_file import CellWriter, kept_cells
from racewright.records.campaign.even_rows import EvenRows
from racewright.records.campaign.store import CELLS, Campaign, Run
from racewright.records.campaign.take_in import Taking, begin
from racewright.records.campaign.window_file import ENDING, keep_found, kept_found
from racewright.scheme.load import LoadedScheme
from racewright.tick import Tick, part_of
from racewright.trials.cells import Cells, Ints
from racewright.trials.channel import Channel, Chunk, Floats, Span
from racewright.trials.flags import REASONS, Codes, FlagCount
from racewright.trials.reduce import reduce_found, shares, sieve_of
from racewright.trials.regroup import blocks
from racewright.trials.result import Reduction
from racewright.trials.rig import Rig
from racewright.trials.ripple import most_orders
from racewright.trials.search import AFTER, Found, search
from racewright.trials.settings import Settings

REVISION = 7
"""Raised when equal inputs give another reduction, so that kept ones are made anew."""


@dataclass(frozen=True)
class Reduced:
    """One run reduced from the store.

    Attributes
    ----------
    run : str
    reduction : Reduction or None
        None where the kept one still holds.
    """

    run: str
    reduction: Reduction | None


@dataclass(frozen=True)
class Imported:
    """What became of one logger file.

    Attributes
    ----------
    run : Run
    fresh : bool
        False when the store had the file already.
    reduced : Reduced
    """

    run: Run
    fresh: bool
    reduced: Reduced


class TrialRuns:
    """The runs of a case's campaign: imported into its store and reduced there.

    Parameters
    ----------
    loaded, roles
        The scheme, and the case's tables.
    campaign : Campaign
        Open.
    model : Tested
        The machine as built.

    Raises
    ------
    InputError
        Calibration points that are missing or do not fit.
    """

    def __init__(self, loaded: LoadedScheme, roles: Roles, campaign: Campaign, model: Tested) -> None:
        self._loaded, self._roles, self._campaign, self._model = loaded, roles, campaign, model
        self._keys = roles.plain("trials")
        check_columns(loaded, roles.names["trials"])
        files = {
            path: loaded.data_file(roles.find(path), *roles.scheme_path(path))
            for path in roles.expanded("trials.channels.*.calibration.points.file")
            if roles.find(path) is not None
        }
        self._sheets = sorted((path, file_digest(file)) for path, file in files.items())
        self._channels, self._weights, self.missing = channels_of(self._keys["channels"], self._keys["logger"], files)
        self._settings = settings_of(self._keys["reduction"])

    def take_in(self, only: str | None, tick: Tick) -> list[Imported]:
        """Take in the logger files of all runs, or of one, and reduce them in the same pass.

        A file that the store has already is read once for its digest; a run whose recipe stands is left as it is.

        Raises
        ------
        InputError
            A file as `begin` refuses it; `only` names no run; readings that come faster than the stated rate.
        """
        names = self._names(only)
        found = []
        for done, name in enumerate(names):
            part = part_of(tick, done, len(names))
            with self._placed(name):
                self._rig(name)
                taking = self._begin(name, part)
                run = taking if isinstance(taking, Run) else self._take(taking, name)
                fresh = not isinstance(taking, Run)
                found.append(Imported(run, fresh, self._reduced(run, part, anew=fresh)))
        return found

    def reduce(self, only: str | None, tick: Tick, *, anew: bool = False) -> list[Reduced]:
        """Reduce every run of the store and keep its readings; a run whose recipe stands is left as it is.

        Raises
        ------
        InputError
            A run is not in the store yet; channels and runs do not fit together.
        """
        kept = {run.run: run for run in self._campaign.runs()}
        names = self._names(only)
        found = []
        for done, name in enumerate(names):
            if name not in kept:
                message = f"run {name!r} is not in the campaign yet; say 'racewright trials import' first"
                raise self._loaded.error(message, "trials", self._roles.names["trials"], "runs", name)
            with self._placed(name):
                found.append(self._reduced(kept[name], part_of(tick, done, len(names)), anew=anew))
        return found

    @contextmanager
    def _placed(self, run: str) -> Iterator[None]:
        """Faults of a run pointed at the key of the scheme that they are about."""
        try:
            yield
        except (MissingColumn, UnitClash) as fault:
            raise at_mapping(self._loaded, self._roles.names["trials"], fault) from None
        except InputError as fault:
            fault = of_run(fault, run)
            if fault.file is None and (fault.key or "").startswith("trials."):
                raise self._loaded.error(fault.message, *self._roles.scheme_path(fault.key or "")) from None
            raise fault from None

    def _begin(self, name: str, tick: Tick) -> Taking | Run:
        """The run's file being taken in; the run itself where the store has it, its file there or gone."""
        key = f"trials.runs.{name}.file"
        path = logger_file(self._loaded, self._roles, key, self._roles.find(key))
        kept = next((r for r in self._campaign.runs() if r.run == name and r.raw == path.name), None)
        if of_store(path) and kept is not None:
            return kept
        source = source_of(self._keys["channels"], self._keys["logger"], self._keys["runs"][name])
        return begin(self._campaign, name, path, source, str(path), tick)

    def _take(self, taking: Taking, name: str) -> Run:
        """Raw rows and cells in one pass; the run is committed first, then its cells."""
        making = self._making(name)
        try:
            file = Path(self._roles.find(f"trials.runs.{name}.file")).name
            rows = rated(taking.rows(), self._keys["logger"], file)
            making.run_through(self._even(file).chunks(rows))
            run = taking.finish()
        except BaseException:
            making.drop()
            taking.drop()
            raise
        making.commit(run)
        return run

    def _reduced(self, run: Run, tick: Tick, *, anew: bool) -> Reduced:
        table = self._keys["runs"].get(run.run)
        rig = self._rig(run.run)
        check_times(run.run, table, run.duration, self._settings.cell, run.file)
        cells = self._cells_recipe(run, rig)
        recipe = _digest(cells, table, rig, self._keys["reduction"], self._weights)
        if not anew and self._campaign.recipe(run.run) == recipe:
            return Reduced(run.run, None)
        kept = self._campaign.cells(run.run)
        if kept is None or kept[0] != cells:
            making = self._making(run.run)
            try:
                making.run_through(
                    self._even(run.file).chunks(self._campaign.chunks(run, [c.name for c in self._channels]))
                )
            except BaseException:
                making.drop()
                raise
            making.commit(run)
            kept = self._campaign.cells(run.run)
            assert kept is not None  # just committed
        _recipe, file, counts = kept
        share, tares = shares(self._channels, self._weights), tares_of(table)
        found = self._found(run, cells, file, rig, share, tares, tick)
        flags = tuple(FlagCount(**one) for one in json.loads(counts))
        reduction = reduce_found(found, flags, self._channels, rig, tares=tares, share=share, settings=self._settings)
        self._campaign.put_reduction(run.run, recipe, *rows_of(reduction))
        return Reduced(run.run, reduction)

    def _found(
        self,
        run: Run,
        cells: str,
        file: str,
        rig: Rig,
        share: Floats,
        tares: tuple[Span, ...],
        tick: Tick,
    ) -> Found:
        """The windows of a run's kept cells: as kept where all that they depend on stands, else searched anew."""
        settings = [value for key, value in asdict(self._settings).items() if key not in AFTER]
        seen = (rig.annulus_area, rig.tip_radius, rig.blades, rig.vanes)
        recipe = _digest(cells, settings, seen, share.tolist(), tares)
        folder, kept = self._campaign.folder / CELLS, self._campaign.windows(run.run)
        if kept is not None and kept[0] == recipe and (folder / kept[1]).is_file():
            return kept_found(folder / kept[1])
        found = search(self._kept_cells(file), self._channels, share, rig, tares, self._settings, run.duration, tick)
        name = f"{run.run}-{recipe[:16]}{ENDING}"
        keep_found(folder / name, found, len(self._channels))
        self._campaign.put_windows(run.run, recipe, name)
        if kept is not None and kept[1] != name:
            (folder / kept[1]).unlink(missing_ok=True)
        return found

    def _kept_cells(self, file: str) -> Iterator[Cells]:
        if not file:
            return iter(())
        path = self._campaign.folder / CELLS / file
        return ahead(kept_cells(path, len(self._channels), self._settings.block_cells))

    def _rig(self, name: str) -> Rig:
        run = self._keys["runs"][name]
        check_fits(self._keys["rig"], name, run, self._model.outer_radius)
        return rig_of(self._keys["rig"], run, self._model)

    def _even(self, shown_as: str) -> EvenRows:
        logger = self._keys["logger"]
        steps = steps_of(self._keys["channels"], logger)
        return EvenRows([c.name for c in self._channels], steps, logger["rate"], shown_as)

    def _making(self, name: str) -> _Making:
        rig = self._rig(name)
        return _Making(
            self._campaign,
            self._channels,
            self._settings,
            rig,
            steps_of(self._keys["channels"], self._keys["logger"]),
            lambda run: self._cells_recipe(run, rig),
            self._campaign.folder / CELLS / f"{name}.making.parquet",
        )

    def _cells_recipe(self, run: Run, rig: Rig) -> str:
        settings = (self._settings.cell, self._settings.block_cells, most_orders(rig.blades, rig.vanes))
        told = [_without(table, "weight") for _name, table in sorted(self._keys["channels"].items())]
        return _digest(REVISION, run.sha256, run.mapping, told, self._keys["logger"]["rate"], self._sheets, settings)

    def _names(self, only: str | None) -> list[str]:
        known = sorted(self._roles.find("trials").runs)
        at = ("trials", self._roles.names["trials"])
        if only is not None and only not in known:
            near = difflib.get_close_matches(only, known, n=1, cutoff=0.5)
            hint = f"; did you mean {near[0]!r}?" if near else ""
            message = f"no run {only!r}; the campaign has {', '.join(known) or 'none'}{hint}"
            raise self._loaded.error(message, *at, "runs")
        if not known:
            raise self._loaded.error("no run yet; add a table like [trials.NAME.runs.first] with its file", *at)
        return known if only is None else [only]


class _Making:
    """Cells of one run, written as they come; flags counted on the way."""

    def __init__(
        self,
        campaign: Campaign,
        channels: tuple[Channel, ...],
        settings: Settings,
        rig: Rig,
        steps: Mapping[str, int],
        recipe: Callable[[Run], str],
        path: Path,
    ) -> None:
        self._campaign, self._channels, self._settings, self._recipe = campaign, channels, settings, recipe
        self._flags = _Flags(steps)
        self._sieve = sieve_of(channels, rig, settings, self._flags)
        self._writer = CellWriter(path)

    def run_through(self, chunks: Iterator[Chunk]) -> None:
        """All chunks of the run."""
        settings = self._settings
        for cells in self._sieve.cells(blocks(chunks, self._channels, settings.cell, settings.block_cells)):
            self._writer.add(cells)

    def commit(self, run: Run) -> None:
        """The file first, then its row."""
        recipe = self._recipe(run)
        old, windows = self._campaign.cells(run.run), self._campaign.windows(run.run)
        name = f"{run.run}-{recipe[:16]}.parquet"
        if not self._writer.finish(name):
            name = ""
        counts = json.dumps([asdict(one) for one in self._sieve.flag_counts()])
        self._campaign.put_cells(run.run, recipe, name, counts, self._flags.rows)
        gone = {old[1] if old is not None else "", windows[1] if windows is not None else ""} - {"", name}
        for file in gone:
            (self._campaign.folder / CELLS / file).unlink(missing_ok=True)

    def drop(self) -> None:
        """Leave nothing behind."""
        self._writer.drop()


class _Flags:
    """Collects runs of flagged readings as rows of the store."""

    def __init__(self, steps: Mapping[str, int]) -> None:
        self._steps = steps
        self.rows: list[tuple[str, int, int, str]] = []

    def __call__(self, channel: str, first: Ints, last: Ints, reason: Codes) -> None:
        step = self._steps[channel]
        rows = zip((first * step).tolist(), (last * step + step - 1).tolist(), reason.tolist(), strict=True)
        self.rows += [(channel, a, b, REASONS[code]) for a, b, code in rows]


def _digest(*parts: Any) -> str:
    """Digest of what a value depends on, hex."""
    return hashlib.sha256(repr(parts).encode()).hexdigest()


def _without(table: Mapping[str, Any], *keys: str) -> dict[str, Any]:
    return {key: value for key, value in table.items() if key not in keys}
