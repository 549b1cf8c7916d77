"""From the neighbours' findings to their drawings."""

from __future__ import annotations

from racewright.dossier.figures import debris_opening, fish_beside, fish_chance, fish_lines, sound_bands
from racewright.dossier.figures.fish_chance import Bar
from racewright.dossier.figures.fish_lines import Felt
from racewright.dossier.figures.save import svg
from racewright.dossier.neighbours_view import against, passages
from racewright.ledger.findings import Findings, MachineFindings
from racewright.ledger.neighbours_findings import FishFound, NeighboursFindings
from racewright.ledger.neighbours_things import DESIGN
from racewright.machine.row import Row
from racewright.passage.fish import FishPassage
from racewright.passage.line_pressure import line_pressure
from racewright.passage.species import fish_class
from racewright.stage.cavitation import STANDARD_ATMOSPHERE
from racewright.stage.cover import GRAVITY

_SHORT = {DESIGN: "design"}


def draw_neighbours(findings: Findings, width: float) -> dict[str, bytes]:
    """Every drawing of the chapters that the findings allow, as SVG by name."""
    found, machine = findings.neighbours, findings.machine
    if found is None or machine is None:
        return {}
    invented = found.invented
    drawn = {"debris_opening": svg(debris_opening.draw(found.debris.opening, width))}
    bars = _bars(found)
    if bars:
        drawn["fish_chance"] = svg(fish_chance.draw(bars, width, invented=invented))
    if found.beside:
        drawn["fish_beside"] = svg(fish_beside.draw(against(found.beside), width, invented=invented))
    felt = felt_at_design(found, machine)
    if felt is not None:
        drawn["fish_lines"] = svg(fish_lines.draw(felt, width))
    known = [at for at in found.sound if at.level is not None]
    for number, at in enumerate(known, start=1):
        if at.level is not None:
            point = f"{at.condition[0].upper()}{at.condition[1:]}"
            drawn[f"sound_bands_{number}"] = svg(sound_bands.draw(at.level, point, width))
    return drawn


def _bars(found: NeighboursFindings) -> list[Bar]:
    bars = []
    for one, at in passages(found.fish):
        told = at.passage
        if told is not None:
            chances = (told.strike.chance, told.death_low, told.death, told.death_high)
            bars.append(Bar(one.name, _SHORT.get(at.condition, "fastest water"), *(float(c[0]) for c in chances)))
    return bars


def felt_at_design(found: NeighboursFindings, machine: MachineFindings) -> Felt | None:
    """Pressure on the lines of the design point, and strains; None where no fish has an answer there."""
    at_design = [(one, at.passage) for one, at in passages(found.fish) if at.condition == DESIGN]
    fish = [(one, told) for one, told in at_design if told is not None]
    if not fish:
        return None
    told = fish[0][1].exposure
    lines, water = told.lines, machine.water
    change = line_pressure(machine.vanes, machine.blades, water.density, machine.design_point, lines)
    weight = water.density * GRAVITY
    pressure = STANDARD_ATMOSPHERE + weight * (found.hub_depth - lines.radius) + change
    strains = told.strains
    return Felt(
        lines.x,
        pressure,
        told.worst_nadir,
        (_place(machine.vanes, "vanes"), _place(machine.blades, "rotor")),
        tuple(zip(strains.place, strains.rate.tolist(), strict=True)),
        _borne(fish),
    )


def _place(row: Row, name: str) -> tuple[float, float, str]:
    half = 0.5 * float(row.chord[0])
    return row.place_x - half, row.place_x + half, name


def _borne(fish: list[tuple[FishFound, FishPassage]]) -> tuple[tuple[str, float], ...]:
    limits = [(one.name, fish_class(one.kind).shear) for one, _told in fish]
    return tuple((name, shear.harmless) for name, shear in limits if shear is not None and shear.harmless is not None)
