"""The commands. Each imports what it needs when it runs, so that help and check stay quick."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from racewright import __version__
from racewright.cli.trials_app import trials_app

app = typer.Typer(
    name="racewright",
    help="A workbench for makers of ducted two-row water turbines: from a river record and a machine to a dossier.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

app.add_typer(trials_app)

SchemePath = Annotated[
    Path, typer.Argument(help="the scheme file, like demo/scheme.toml", show_default=False, readable=False)
]  # whether it can be read is for `load_scheme` to say, with every other fault of the file
Json = Annotated[bool, typer.Option("--json", help="one JSON object on standard output")]
Case = Annotated[str | None, typer.Option(help="which [case.*] table; the first if left out", show_default=False)]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"racewright {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="show the version and stop")
    ] = False,
    verbose: Annotated[
        bool, typer.Option("--verbose", help="say on standard error what is computed and what is remembered")
    ] = False,
) -> None:
    """Options before the command."""
    if verbose:
        import logging

        logging.basicConfig(level=logging.INFO, format="%(name)s: %(message)s")


@app.command(epilog="Example: racewright new demo")
def new(
    folder: Annotated[Path, typer.Argument(help="folder to make", show_default=False)],
    example: Annotated[
        str, typer.Option(help="river_unit (a machine in a river), or model_test (a model in a water channel)")
    ] = "river_unit",
    force: Annotated[bool, typer.Option("--force", help="overwrite the example's files if they are there")] = False,
    as_json: Json = False,
) -> None:
    """Copy a bundled example, a commented scheme with its data, into a folder."""
    from racewright.cli.new import copy_example

    copy_example(folder, name=example, force=force, as_json=as_json)


@app.command(epilog="Example: racewright check demo/scheme.toml")
def check(scheme: SchemePath, as_json: Json = False) -> None:
    """Read a scheme and its data files and say whether they can be computed."""
    from racewright.cli.check import check_scheme

    check_scheme(scheme, as_json=as_json)


@app.command(epilog="Example: racewright point demo/scheme.toml --stream-speed '2 m/s'")
def point(
    scheme: SchemePath,
    stream_speed: Annotated[
        str | None, typer.Option(help="like '2 m/s'; the design speed if left out", show_default=False)
    ] = None,
    rotor_speed: Annotated[
        str | None,
        typer.Option(help="like '85 rpm'; the design tip-speed ratio if left out", show_default=False),
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute one operating point: power, torque, thrust, efficiency; --json adds triangles, losses and forces."""
    from racewright.cli.point import show_point

    show_point(scheme, stream_speed, rotor_speed, case, as_json=as_json)


@app.command(epilog="Example: racewright map demo/scheme.toml --csv map.csv")
def map(  # the command's name
    scheme: SchemePath,
    case: Case = None,
    csv: Annotated[Path | None, typer.Option(help="write the whole map here", show_default=False)] = None,
    as_json: Json = False,
) -> None:
    """Compute the machine over stream speed and rotor speed, from standstill to beyond runaway."""
    from racewright.cli.map import show_map

    show_map(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright strength demo/scheme.toml --csv roots.csv")
def strength(
    scheme: SchemePath,
    case: Case = None,
    csv: Annotated[
        Path | None, typer.Option(help="write the stresses at vanes and blades here", show_default=False)
    ] = None,
    as_json: Json = False,
) -> None:
    """Check what must be strong: vanes, blades, duct, shaft and flange, fatigue, natural frequencies."""
    from racewright.cli.strength import show_strength

    show_strength(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright size demo/scheme.toml --power '5 kW' --stream-speed '2.8 m/s' --depth '3 m'")
def size(
    scheme: SchemePath,
    power: Annotated[str, typer.Option(help="electrical power of all machines, like '5 kW'", show_default=False)],
    stream_speed: Annotated[
        str, typer.Option(help="stream speed at rated power, like '2.8 m/s'", show_default=False)
    ],
    depth: Annotated[
        str | None, typer.Option(help="water depth where it is to hang, like '3 m'", show_default=False)
    ] = None,
    duct: Annotated[str, typer.Option(help="how far the duct opens: mild, middle or wide")] = "middle",
    drive_efficiency: Annotated[
        float, typer.Option(help="electrical over shaft power (common practice, no source)")
    ] = 0.85,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Propose a first size by rules, solve it, and print it as a table for the scheme; the case gives the water."""
    from racewright.cli.size import show_size

    show_size(scheme, power, stream_speed, depth, duct, drive_efficiency, case, as_json=as_json)


@app.command(epilog="Example: racewright energy demo/scheme.toml --csv bins.csv")
def energy(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with one row a bin of speed", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute a year's energy of one machine: by speed, month and year, and its band by cause."""
    from racewright.cli.energy import show_energy

    show_energy(scheme, csv, case, as_json=as_json)


@app.command(epilog="Example: racewright supply demo/scheme.toml --csv ways.csv")
def supply(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with one row a way of supply", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute a village's hourly year in every way of supply: fuel, hours short, upkeep, spares and money."""
    from racewright.cli.supply import show_supply

    show_supply(scheme, csv, case, as_json=as_json)


@app.command(epilog="Example: racewright passage demo/scheme.toml --csv strikes.csv")
def passage(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with strikes by row and radius", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute what fish and debris meet in the machine, beside bare fast rotors; screening figures."""
    from racewright.cli.passage import show_passage

    show_passage(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright sound demo/scheme.toml --csv bands.csv")
def sound(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with one row a distance and band", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute the machine's sound under water by band and distance, and how far thresholds reach."""
    from racewright.cli.sound import show_sound

    show_sound(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright tethers demo/scheme.toml --csv poses.csv")
def tethers(
    scheme: SchemePath,
    case: Case = None,
    csv: Annotated[
        Path | None, typer.Option(help="write pose and slow tensions of every state here", show_default=False)
    ] = None,
    every: Annotated[bool, typer.Option("--all", help="print every table in full")] = False,
    as_json: Json = False,
) -> None:
    """Compute how the machine is held: worst load case of every line and anchor, poses, sizes that they ask for."""
    from racewright.cli.tethers import show_tethers

    show_tethers(scheme, case, csv, every=every, as_json=as_json)


@app.command(epilog="Example: racewright strike demo/scheme.toml --csv years.csv")
def strike(
    scheme: SchemePath,
    case: Case = None,
    csv: Annotated[
        Path | None, typer.Option(help="write the chance that a year passes a level here", show_default=False)
    ] = None,
    as_json: Json = False,
) -> None:
    """Compute what logs do: the first blow in milliseconds, slow line tension in seconds, and a year of logs."""
    from racewright.cli.strike import show_strike

    show_strike(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright grow demo/scheme.toml --csv sizes.csv")
def grow(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with one row a size", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Solve the machine at every size of its growth: what carries over, what masses become, what claims lack."""
    from racewright.cli.grow import show_growth

    show_growth(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright programme demo/scheme.toml --csv quarters.csv")
def programme(
    scheme: SchemePath,
    csv: Annotated[
        Path | None, typer.Option(help="CSV file to write with cash by quarter", show_default=False)
    ] = None,
    case: Case = None,
    as_json: Json = False,
) -> None:
    """Compute what the steps of growth cost, how likely they pass, and what stopping early is worth."""
    from racewright.cli.programme import show_programme

    show_programme(scheme, case, csv, as_json=as_json)


@app.command(epilog="Example: racewright export demo/scheme.toml --to parts --scale 0.5 --tolerance '0.1 mm'")
def export(
    scheme: SchemePath,
    to: Annotated[
        Path, typer.Option(help="folder to make; one that this command wrote is replaced", show_default=False)
    ],
    scale: Annotated[float, typer.Option(help="size of the files' bodies over that of the machine")] = 1.0,
    tolerance: Annotated[
        str | None,
        typer.Option(
            help="largest distance of triangles from the surface, at the files' scale, like '0.1 mm'; 1/2000 of the "
            "throat's radius, or what the tip gap asks for, if left out",
            show_default=False,
        ),
    ] = None,
    formats: Annotated[
        str, typer.Option("--format", help="stl (in mm), glb (in m), csv (section coordinates); commas between")
    ] = "stl,glb,csv",
    density: Annotated[
        str | None, typer.Option(help="of the material, like '1240 kg/m3': adds masses", show_default=False)
    ] = None,
    case: Case = None,
    machine: Annotated[
        str | None, typer.Option(help="which [machine.*] table, instead of a case", show_default=False)
    ] = None,
    as_json: Json = False,
) -> None:
    """Write duct, hub, vane, blade and all as one body: watertight STL and GLB, and section coordinates as CSV.

    x runs downstream, y up, z to the right as seen looking downstream; the rotor turns clockwise.
    """
    from racewright.cli.export import export_geometry

    export_geometry(scheme, to, scale, tolerance, formats, density, case, machine, as_json=as_json)


@app.command(epilog="Example: racewright report demo/scheme.toml --out demo/reports")
def report(
    scheme: SchemePath,
    out: Annotated[
        Path | None,
        typer.Option(help="reports folder; 'reports' beside the scheme if left out", show_default=False),
    ] = None,
    case: Case = None,
    workers: Annotated[int, typer.Option(min=1, max=64, help="processes to compute with; answers stay the same")] = 1,
    as_json: Json = False,
) -> None:
    """Compute all that the scheme has tables for; write the dossier as HTML and PDF. The last five reports stay."""
    from racewright.cli.report import make_report

    make_report(scheme, out, case, workers=workers, as_json=as_json)


@app.command(epilog="Example: racewright desk demo/scheme.toml --no-browser")
def desk(
    scheme: SchemePath,
    port: Annotated[int, typer.Option(min=0, max=65535, help="port to listen at; 0 takes any free one")] = 8610,
    host: Annotated[
        str, typer.Option(help="address to listen at; beyond this machine a token is asked for, which is printed")
    ] = "127.0.0.1",
    browser: Annotated[bool, typer.Option("--browser/--no-browser", help="open it in the browser")] = True,
) -> None:
    """Open the scheme as a workbench in the browser, on this machine; Ctrl-C ends it."""
    from racewright.cli.desk import open_desk

    open_desk(scheme, host, port, browser=browser)


@app.command(epilog="Example: racewright cache --clear")
def cache(
    clear: Annotated[bool, typer.Option("--clear", help="remove every value kept")] = False, as_json: Json = False
) -> None:
    """Show or clear what is remembered between runs; clearing changes no answer."""
    from racewright.cli.cache import show_cache

    show_cache(clear=clear, as_json=as_json)
