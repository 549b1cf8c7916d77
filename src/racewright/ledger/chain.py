"""One case from tables to findings: the graph's values, and the words around them."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from racewright import __version__
from racewright.flow.response import reach
from racewright.ledger import words
from racewright.ledger.convert import UNIT_KEYS, drive_of, unit_of
from racewright.ledger.drive_findings import DriveFindings
from racewright.ledger.energy_parts import WORST_FIRST, energy_of, parts_of
from racewright.ledger.findings import CommunityFindings, Findings, MachineFindings, PlaceFindings
from racewright.ledger.graph import evaluate, file_digest
from racewright.ledger.growth_parts import growth_of, growth_remarks
from racewright.ledger.holding_parts import holding_of, holding_remarks
from racewright.ledger.inputs import case_of, input_rows
from racewright.ledger.neighbours_parts import neighbours_of, neighbours_remarks
from racewright.ledger.place_inputs import outer_radius
from racewright.ledger.roles import Roles, roles_of
from racewright.ledger.store import Store
from racewright.ledger.strength_parts import strength_of, strength_remarks
from racewright.ledger.supply_findings import supply_of, supply_remarks, upkeep_of
from racewright.ledger.tip_cavitation import cavitation_remarks, tip_cavitation, vapour_remarks
from racewright.ledger.trials_parts import trials_of, trials_remarks
from racewright.machine.diffuser import diffuser_remarks
from racewright.remark import Remark
from racewright.scheme.inside import inside
from racewright.scheme.load import LoadedScheme
from racewright.stage.cover import drawing_air_cover
from racewright.tick import Tick, silent


def compute(
    loaded: LoadedScheme,
    case_name: str | None = None,
    tick: Tick = silent,
    *,
    store: Store | None = None,
    workers: int = 1,
) -> Findings:
    """Compute one case of a scheme, as far as it has tables.

    Parameters
    ----------
    loaded : LoadedScheme
    case_name : str, optional
        The first case when left out.
    tick : Tick
    store : Store, optional
        The cache; without one everything is computed.
    workers : int
        Processes to compute with; the findings do not depend on it.

    Raises
    ------
    InputError
        A data file or a combination of values is wrong.
    NoAnswerError
        The computation could not answer.
    """
    name, case = case_of(loaded, case_name)
    values = evaluate(loaded, name, case, store=store, workers=workers, tick=tick)
    roles = roles_of(loaded.scheme, name, case)
    machine, place = _machine(roles, values), _place(roles, values)
    if machine is not None and place is not None:
        machine = replace(machine, cavitation=tip_cavitation(machine, place.site.standings))
    holding, strength = holding_of(roles, values), strength_of(roles, values)
    community = None
    if values["comparison"] is not None:
        community = CommunityFindings(case.community or "", roles.find("community.description"), values["comparison"])
    return Findings(
        title=loaded.scheme.title,
        case=name,
        version=__version__,
        scheme_hash=scheme_hash(loaded),
        invented=words.invented(loaded.scheme, case),
        machine=machine,
        place=place,
        energy=energy_of(values),
        community=community,
        inputs=input_rows(loaded, name) if name else (),
        assumptions=words.assumptions(loaded.scheme, case),
        missing=words.missing(
            case,
            has_cost=community is not None,
            has_strength=strength is not None,
            energy=energy_of(values),
            has_supply=values["supply_year"] is not None,
            has_money=values["money"] is not None,
        ),
        duties=words.duties(loaded.scheme, case),
        remarks=_remarks(machine, place, values, (*holding_remarks(holding), *_warnings(strength_remarks(strength)))),
        count=case.count,
        left_out=words.left_out(loaded.scheme, case),
        energy_parts=parts_of(values),
        trials=trials_of(roles, values),
        neighbours=neighbours_of(roles, values),
        holding=holding,
        strength=strength,
        growth=growth_of(roles, values),
        supply=supply_of(values),
        upkeep=upkeep_of(values),
    )


def scheme_hash(loaded: LoadedScheme) -> str:
    """SHA-256 over the scheme file and the data files that it names."""
    whole = hashlib.sha256(loaded.digest.encode())
    for file in sorted(set(loaded.scheme.files())):
        path = inside(loaded.folder, file)
        whole.update(file.encode())
        if path.is_file():
            whole.update(file_digest(path).encode())
    return whole.hexdigest()


def _machine(roles: Roles, values: dict[str, Any]) -> MachineFindings | None:
    if values["design_point"] is None:
        return None
    keys = {path: roles.plain(path) for path in (*UNIT_KEYS, "machine.drive")}
    vanes, blades = values["rows"]
    return MachineFindings(
        name=roles.names["machine"],
        description=roles.find("machine.description"),
        unit=unit_of(keys),
        drive=drive_of(keys),
        vanes=vanes,
        blades=blades,
        water=values["water"],
        flow=values["flow"],
        streamlines=values["streamlines"],
        design_point=replace(values["design_point"], band=values["bands"].combined),
        curve=values["curve"],
        power_curve=values["power_curve"],
        states=values["states"],
        bands=values["bands"],
        map=values["map"],
        built=values["built_rows"],
        control=DriveFindings(values["control"], values["start_up"], values["letting_go"], values["drive_parts"]),
    )


def _place(roles: Roles, values: dict[str, Any]) -> PlaceFindings | None:
    if values["site"] is None:
        return None
    site, case = values["site"], roles.case
    depth = case.hub_depth
    if depth is None and case.hub_height is not None:
        water = next((s.depth for s in site.standings if "median" in s.label), roles.find("place.depth"))
        depth = water - case.hub_height if water is not None else None
    description = roles.find("place.description")
    return PlaceFindings(
        roles.names["place"],
        description,
        site,
        depth or 0.0,
        values["bed"],
        values["rating"],
        values["rating_band"],
        values["spots"],
        values["speed_causes"],
        values["tide"],
        values["tidal_site"],
        values["tide_trace"],
    )


def _remarks(
    machine: MachineFindings | None, place: PlaceFindings | None, values: dict[str, Any], more: tuple[Remark, ...]
) -> tuple[Remark, ...]:
    """All remarks, each once, worst first."""
    found: list[Remark] = []
    if place is not None:
        found += [*place.site.remarks, *(place.rating.remarks if place.rating is not None else ())]
    if machine is not None:
        found += [*diffuser_remarks(machine.unit.duct), *_flow_remarks(machine), *machine.design_point.remarks]
        found += [*vapour_remarks(machine, machine.cavitation), *cavitation_remarks(machine.cavitation)]
        found += [r for row in machine.built if row is not None for r in row.remarks]
        if place is not None:
            found += _drawing_air(machine, place)
        found += [*machine.control.control.remarks, *machine.control.start.remarks, *machine.control.parts.remarks]
    found += [*trials_remarks(values), *more]
    found += [r for r in neighbours_remarks(values) if r.severity != "note"]
    found += [r for r in growth_remarks(values) if r.severity != "note"]
    found += supply_remarks(values)
    for name in ("energy", "energy_band", "years", "months", "turbulence", "river_share", "comparison"):
        found += values[name].remarks if values[name] is not None else ()
    return tuple(sorted(dict.fromkeys(found), key=lambda r: WORST_FIRST[r.severity]))


def _flow_remarks(machine: MachineFindings) -> list[Remark]:
    """The flow's own; a wake that stops converging well above every state used is only a note."""
    used = max([machine.design_point.head_coefficient, *(s.head_coefficient for s in machine.states)])
    far = used < reach(machine.flow) - 0.05
    return [replace(r, severity="note") if far and r.about == "convergence" else r for r in machine.flow.remarks]


def _drawing_air(machine: MachineFindings, place: PlaceFindings) -> list[Remark]:
    """Is there cover enough against drawing air, on load and at runaway, at each standing?"""
    spare = outer_radius(machine.unit.duct) - float(machine.blades.radius[-1])
    found = []
    for standing in place.site.standings:
        if standing.cover < 0.0:
            continue
        for state in (s for s in machine.states if s.name in ("on load", "runaway")):
            needed = drawing_air_cover(state.speed_ratio, state.head_coefficient, standing.speed)
            if standing.cover + spare < needed:
                text = (
                    f"At {standing.label}, {state.name}, the water above the blade tips is"
                    f" {standing.cover + spare:.2f} m; {needed:.2f} m is wanted against drawing air. Hang the machine"
                    " deeper, or keep it from running away."
                )
                found.append(Remark("caution", text, "cover"))
                break
    return found


def _warnings(remarks: Iterable[Remark]) -> list[Remark]:
    return [r for r in remarks if r.severity == "warning"]
