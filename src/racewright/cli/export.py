"""`racewright export`: the machine's geometry as solids and tables of coordinates."""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass
from pathlib import Path

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.cli.machine_case import machine_case
from racewright.cli.option import quantity_option
from racewright.cli.progress import progress
from racewright.errors import InputError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.classes import CLASSES
from racewright.ledger.convert import duct_of, hub_of
from racewright.ledger.graph import evaluate
from racewright.ledger.roles import roles_of
from racewright.ledger.store import Store, cache_folder
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.machine_solids import MachineSolids, machine_solids, tolerance_limits
from racewright.machine.row import Row
from racewright.records.machine_files import PartFacts, machine_files, part_facts
from racewright.records.own_folder import check_folder, write_folder
from racewright.records.section_tables import section_tables
from racewright.records.stl_file import AXES
from racewright.remark import Remark
from racewright.scheme import LoadedScheme, load_scheme
from racewright.scheme.model import CaseTable
from racewright.tick import Tick

KINDS = ("stl", "glb", "csv")
MAKER = "racewright export"
SCALES = (1e-3, 1e3)
USUAL = 5e-4
"""Tolerance over throat radius when none is given, where tip gap and roots allow it. Own choice."""
_SEEN = "looking downstream the rotor turns clockwise, from y to z; x = 0 is the duct's leading edge"


@dataclass(frozen=True)
class Exported:
    """What was written.

    Attributes
    ----------
    folder : str
        Where.
    files : tuple of str
        Names of the files.
    scale : float
        Size of what was written over that of the machine [-].
    tolerance : float
        Largest distance between triangles and surface, at that scale [m].
    axes : str
        Axes of every file, and the sense of rotation.
    parts : tuple of PartFacts
        Duct, hub, one vane, one blade.
    whole : PartFacts or None
        All parts as one body; None for tables alone.
    handles : int or None
        Openings right through the whole; as many as vanes, or vanes and blades where blades have no tip gap.
    """

    folder: str
    files: tuple[str, ...]
    scale: float
    tolerance: float
    axes: str
    parts: tuple[PartFacts, ...]
    whole: PartFacts | None
    handles: int | None


@dataclass(frozen=True)
class Wanted:
    """What was asked for: kinds of files, scale [-], tolerance at that scale [m] and density [kg/m3] where given."""

    kinds: set[str]
    scale: float
    tolerance: float | None
    density: float | None


Shape = tuple[Duct, Hub, Row, Row]


def export_geometry(
    path: Path,
    folder: Path,
    scale: float,
    tolerance: str | None,
    formats: str,
    density: str | None,
    case_name: str | None,
    machine: str | None,
    *,
    as_json: bool,
) -> None:
    """Write the folder and print what is in it."""
    wanted = _wanted(scale, tolerance, formats, density)
    check_folder(folder, MAKER)
    loaded = load_scheme(path)
    name, case = _case(loaded, case_name, machine)
    provenance = {"version": __version__, "command": "export", "scheme_sha256": scheme_hash(loaded)}
    with progress("geometry") as tick:
        shape, said = _shape(loaded, name, case, tick)
        kept = _tolerance(shape, wanted)
        try:
            solids = machine_solids(shape[0], shape[1], shape[2], shape[3], kept)
        except InputError as fault:
            raise loaded.error(fault.message, "machine", case.machine or "") from None
        (parts, whole, handles), files = _made(solids, shape, wanted, tick)
        about = {
            **{key: provenance[key] for key in ("version", "scheme_sha256")},
            "machine": case.machine,
            "scale": scale,
            "tolerance_mm": kept * scale * 1e3,
            "units": {"stl": "mm", "glb": "m", "csv": "as each table's first line says"},
            "axes": f"{AXES}; {_SEEN}",
        }
        names = write_folder(folder, files, MAKER, about)
        tick(1.0)
    said = [*solids.remarks, *said]
    answer = Exported(str(folder), tuple(names), scale, kept * scale, f"{AXES}; {_SEEN}", parts, whole, handles)
    if as_json:
        sys.stdout.write(to_json({"export": answer, "remarks": said}, provenance) + "\n")
    sys.stderr.write(_told(answer, said) + "\n")


def _wanted(scale: float, tolerance: str | None, formats: str, density: str | None) -> Wanted:
    kinds = _kinds(formats)
    if not (math.isfinite(scale) and SCALES[0] <= scale <= SCALES[1]):
        raise InputError(
            f"{scale:g} is out of range; it must lie between {SCALES[0]:g} and {SCALES[1]:g}", key="--scale"
        )
    allowed = None if tolerance is None else quantity_option(tolerance, "length", "--tolerance", 1e-7, 1.0)
    heavy = None if density is None else quantity_option(density, "density", "--density", 10.0, 25000.0)
    return Wanted(kinds, scale, allowed, heavy)


def _shape(loaded: LoadedScheme, name: str, case: CaseTable, tick: Tick) -> tuple[Shape, list[Remark]]:
    """Duct, hub and rows as they are run, and which rows are not the drawn ones."""
    store = Store(cache_folder(), CLASSES)
    nodes = ("rows", "built_rows")
    values = evaluate(loaded, name, case, wanted=nodes, store=store, tick=lambda done: tick(0.4 * done))
    roles = roles_of(loaded.scheme, name, case)
    keys = {role: roles.plain(role) for role in ("machine.duct", "machine.hub")}
    vanes, blades = values["rows"]
    said = [
        Remark("note", f"The {one.row.kind} are as part {one.part} was measured, not as drawn.", "as built")
        for one in values["built_rows"]
        if one is not None
    ]
    return (duct_of(keys), hub_of(keys), vanes, blades), said


def _kinds(formats: str) -> set[str]:
    wanted = [one.strip() for one in formats.split(",")]
    for one in wanted:
        if one not in KINDS:
            raise InputError(
                f"{one!r} is none of {', '.join(KINDS)}; several stand with commas between", key="--format"
            )
    return set(wanted)


def _case(loaded: LoadedScheme, case_name: str | None, machine: str | None) -> tuple[str, CaseTable]:
    if machine is None:
        return machine_case(loaded, case_name)
    if case_name is not None:
        raise InputError("a case names its machine; give --case or --machine, not both", key="--machine")
    if machine not in loaded.scheme.machine:
        known = ", ".join(loaded.scheme.machine) or "none"
        raise InputError(f"no table [machine.{machine}]; the scheme has {known}", key="--machine")
    return "", CaseTable(machine=machine)


def _tolerance(shape: Shape, wanted: Wanted) -> float:
    """On the machine [m]; asked for at the scale of the files."""
    duct, hub, vanes, blades = shape
    low, high = tolerance_limits(duct, hub, (vanes, blades))
    asked, scale = wanted.tolerance, wanted.scale
    if asked is None:
        return min(USUAL * duct.throat_radius, high)
    if not low <= asked / scale <= high:
        raise InputError(
            f"{1e3 * asked:.4g} mm is out of range; at this scale throat, tip gap and roots want "
            f"{1e3 * low * scale:.3g} to {1e3 * high * scale:.3g} mm",
            key="--tolerance",
        )
    return asked / scale


Found = tuple[tuple[PartFacts, ...], PartFacts | None, int | None]


def _made(solids: MachineSolids, shape: Shape, wanted: Wanted, tick: Tick) -> tuple[Found, dict[str, bytes]]:
    """What each part and the whole measure, with its handles, and the files."""
    counts, scale = {"vane": solids.vanes, "blade": solids.blades}, wanted.scale
    parts = tuple(
        part_facts(one, counts.get(one.name, 1), solids.volumes[one.name], scale, wanted.density)
        for one in (solids.duct, solids.hub, solids.vane, solids.blade)
    )
    whole, facts, handles = None, None, None
    tick(0.6)
    if wanted.kinds != {"csv"}:
        from racewright.records.solid_fuse import fused

        whole, handles = fused(solids.all_parts())
        facts = part_facts(whole, 1, solids.volumes["whole"], scale, wanted.density)
    tick(0.9)
    files = machine_files(solids, whole, wanted.kinds, scale)
    if "csv" in wanted.kinds:
        files |= section_tables(*shape, scale)
    return (parts, facts, handles), files


def _told(answer: Exported, said: list[Remark]) -> str:
    lines = [
        f"At scale {answer.scale:g}, triangles within {1e3 * answer.tolerance:.3g} mm of the surface:",
        f"{'part':>8} {'count':>6} {'volume L':>10} {'off %':>7} {'area m2':>9} {'triangles':>10} {'closed':>7}"
        + (f" {'mass kg':>9}" if answer.parts[0].mass is not None else ""),
    ]
    for one in (*answer.parts, *([answer.whole] if answer.whole else [])):
        mass = "" if one.mass is None else f" {one.mass:>9.4g}"
        lines.append(
            f"{one.name:>8} {one.count:>6d} {1e3 * one.volume:>10.4g} {100.0 * one.difference:>7.3f} {one.area:>9.4g}"
            f" {one.triangles:>10d} {'yes' if one.watertight else 'NO':>7}{mass}"
        )
    lines += [f"{remark.severity}: {remark.text}" for remark in said]
    lines += [
        f"Axes: {answer.axes}. STL in mm, GLB in m.",
        "As if solid, without shells, fillets, struts and fittings. Shapes are no proof of strength.",
        f"{len(answer.files)} files: {answer.folder}",
    ]
    return "\n".join(lines)
