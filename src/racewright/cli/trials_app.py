"""The commands below `racewright trials`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

trials_app = typer.Typer(
    name="trials",
    help="Channel trials: logger files into a campaign, reduced, corrected, set against prediction.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

SchemePath = Annotated[
    Path, typer.Argument(help="the scheme file, like bench/scheme.toml", show_default=False, readable=False)
]
Json = Annotated[bool, typer.Option("--json", help="one JSON object on standard output")]
Case = Annotated[
    str | None, typer.Option(help="which [case.*] table; the first with trials if left out", show_default=False)
]
Run = Annotated[str | None, typer.Option(help="one run by its name; all if left out", show_default=False)]

Csv = Annotated[Path | None, typer.Option(help="write every reading here", show_default=False)]


@trials_app.command("import", epilog="Example: racewright trials import bench/scheme.toml")
def import_(scheme: SchemePath, run: Run = None, case: Case = None, as_json: Json = False) -> None:
    """Take logger files into the campaign's store, as they came, and reduce them to readings in the same pass.

    Files that are there already are left alone.
    """
    from racewright.cli.trials_import import import_trials

    import_trials(scheme, run, case, as_json=as_json)


@trials_app.command(epilog="Example: racewright trials reduce bench/scheme.toml --csv readings.csv")
def reduce(
    scheme: SchemePath,
    run: Run = None,
    again: Annotated[bool, typer.Option("--again", help="reduce runs that have not changed, too")] = False,
    csv: Csv = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Print the store's readings with their uncertainty; runs whose thresholds or tares changed are reduced again.

    'import' reduces what it takes in. Nothing is removed in silence.
    """
    from racewright.cli.trials_reduce import reduce_trials

    reduce_trials(scheme, csv, run, case, anew=again, as_json=as_json)


@trials_app.command(epilog="Example: racewright trials compare bench/scheme.toml --csv compared.csv")
def compare(scheme: SchemePath, csv: Csv = None, case: Case = None, as_json: Json = False) -> None:
    """Take walls and surface off every reading and set it against the prediction of the as-built machine."""
    from racewright.cli.trials_compare import compare_trials

    compare_trials(scheme, csv, case, as_json=as_json)


@trials_app.command(epilog="Example: racewright trials export bench/scheme.toml --out archive --format parquet")
def export(
    scheme: SchemePath,
    out: Annotated[Path, typer.Option(help="folder to make", show_default=False)],
    format: Annotated[str, typer.Option(help="of the raw data: csv, parquet or netcdf")] = "csv",
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Write the campaign to a new folder in open formats: raw data, readings, zeros, calibrations, its tables."""
    from racewright.cli.trials_export import export_trials

    export_trials(scheme, out, format, case, as_json=as_json)
