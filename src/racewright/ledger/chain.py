"""One case from tables to findings: each step a pure function of what stands before it."""

from __future__ import annotations

import hashlib
from pathlib import Path

from racewright import __version__
from racewright.ledger import words
from racewright.ledger.compute_machine import machine_findings, water_of
from racewright.ledger.compute_place import outer_radius, place_findings
from racewright.ledger.compute_supply import community_findings, energy_of
from racewright.ledger.convert import unit_of
from racewright.ledger.findings import Findings, MachineFindings, PlaceFindings
from racewright.ledger.inputs import case_of, input_rows
from racewright.machine.diffuser import diffuser_remarks
from racewright.remark import Remark
from racewright.scheme.inside import inside
from racewright.scheme.load import LoadedScheme
from racewright.scheme.place_tables import WaterTable
from racewright.stage.cover import drawing_air_cover
from racewright.supply.result import YearlyEnergy
from racewright.tick import Tick, silent

_WORST_FIRST = {"warning": 0, "caution": 1, "note": 2}


def compute(loaded: LoadedScheme, case_name: str | None = None, tick: Tick = silent) -> Findings:
    """Compute one case of a scheme, as far as it has tables.

    Parameters
    ----------
    loaded : LoadedScheme
    case_name : str, optional
        The first case when left out.
    tick : Tick

    Raises
    ------
    InputError
        A data file or a combination of values is wrong.
    NoAnswerError
        The computation could not answer.
    """
    scheme = loaded.scheme
    name, case = case_of(loaded, case_name)
    table = scheme.machine.get(case.machine or "")
    community_table = scheme.community.get(case.community or "")
    place_table = scheme.place.get(case.place or "")
    unit = unit_of(table) if table else None
    place = place_findings(loaded, case, unit) if place_table else None
    tick(0.05)
    machine: MachineFindings | None = None
    if table is not None:
        water = water_of(place_table.water if place_table else WaterTable())
        fastest = max(1.6 * table.design.stream_speed, float(place.site.climate.edge[-1]) if place else 0.0)
        machine = machine_findings(case.machine or "", table, water, fastest, lambda done: tick(0.05 + 0.9 * done))
    energy = energy_of(machine, place, table) if machine and place and table else None
    community = None
    if energy is not None and table is not None and table.cost is not None and community_table is not None:
        community = community_findings(case.community or "", community_table, table.cost, energy, case.count)
    tick(1.0)
    return Findings(
        title=scheme.title,
        case=name,
        version=__version__,
        scheme_hash=scheme_hash(loaded),
        invented=words.invented(scheme, case),
        machine=machine,
        place=place,
        energy=energy,
        community=community,
        inputs=input_rows(loaded, name) if name else (),
        assumptions=words.assumptions(case),
        missing=words.missing(case, has_cost=community is not None),
        duties=words.duties(case),
        remarks=_remarks(machine, place, energy, community.comparison.remarks if community else ()),
    )


def scheme_hash(loaded: LoadedScheme) -> str:
    """SHA-256 over the scheme file and the data files that it names."""
    whole = hashlib.sha256(loaded.digest.encode())
    for place in loaded.scheme.place.values():
        for file in (place.record.file, place.transect.file if place.transect else None):
            if file is not None:
                path: Path = inside(loaded.folder, file)
                whole.update(file.encode())
                if path.is_file():
                    whole.update(hashlib.sha256(path.read_bytes()).digest())
    return whole.hexdigest()


def _remarks(
    machine: MachineFindings | None,
    place: PlaceFindings | None,
    energy: YearlyEnergy | None,
    costs: tuple[Remark, ...],
) -> tuple[Remark, ...]:
    """All remarks, each once, worst first."""
    found: list[Remark] = []
    if place is not None:
        found += place.site.remarks
    if machine is not None:
        found += [*diffuser_remarks(machine.unit.duct), *machine.flow.remarks, *machine.design_point.remarks]
        if place is not None:
            found += _drawing_air(machine, place)
    if energy is not None:
        found += energy.remarks
    found += costs
    return tuple(sorted(dict.fromkeys(found), key=lambda r: _WORST_FIRST[r.severity]))


def _drawing_air(machine: MachineFindings, place: PlaceFindings) -> list[Remark]:
    """Is there cover enough against drawing air, at each standing?"""
    point = machine.design_point
    found = []
    for standing in place.site.standings:
        needed = drawing_air_cover(point.speed_ratio, point.head_coefficient, standing.speed)
        cover = standing.cover + outer_radius(machine.unit) - float(machine.blades.radius[-1])
        if standing.cover >= 0.0 and cover < needed:
            text = (
                f"At {standing.label} the water above the blade tips is {cover:.2f} m; {needed:.2f} m is wanted"
                " against drawing air. Hang the machine deeper."
            )
            found.append(Remark("caution", text, "cover"))
    return found
