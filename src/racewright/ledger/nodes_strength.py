"""Strength's nodes: loads of the rows by state, stresses, natural frequencies, fatigue."""

from __future__ import annotations

from typing import Any

from racewright.errors import InputError
from racewright.ledger.convert import UNIT_KEYS, duct_of, unit_of
from racewright.ledger.node import Given, Node
from racewright.ledger.place_inputs import form_of
from racewright.ledger.strength_duct import built_ring, duct_stress
from racewright.ledger.strength_findings import NaturalFrequencies, PlaceFatigue, StatePoint, Stresses
from racewright.ledger.strength_roots import blade_root, vane_roots
from racewright.ledger.strength_shaft import shaft_cases
from racewright.ledger.strength_things import load_factor, material_factor, material_of
from racewright.machine.row import Row
from racewright.records.table_csv import read_columns
from racewright.remark import Remark
from racewright.safety_factors import SafetyFactor, safety_factor
from racewright.stage.operating_point import operating_point
from racewright.strength.damage import rainflow_damage
from racewright.strength.materials import material
from racewright.strength.resonance import resonance
from racewright.strength.ring_modes import ring_modes
from racewright.strength.row_sections import row_sections
from racewright.strength.sn_curves import sn_curve
from racewright.strength.span_load import Support
from racewright.strength.span_modes import SpanModes, span_modes
from racewright.tick import Tick, part_of

HEAVY = ("on load", "runaway", "held")
"""States whose loads on vanes and blades are looked at; 'parked' has those of 'held'."""
_S = "machine.strength"


def _points(given: Given, tick: Tick) -> tuple[StatePoint, ...]:
    """Triangles and forces of the heavy states, at the design speed and in the fastest water."""
    unit, (vanes, blades) = unit_of(given.keys), given.nodes["rows"]
    states = [state for state in given.nodes["states"] if state.name in HEAVY]
    found = []
    for done, state in enumerate(states):
        tick(done / len(states))
        point = operating_point(
            unit, vanes, blades, given.nodes["flow"], given.nodes["water"], state.stream_speed, state.rotor_speed
        )
        found.append(
            StatePoint(state.name, state.stream_speed, state.rotor_speed, point.torque, point.triangles, point.forces)
        )
    return tuple(found)


def _stresses(given: Given, _tick: Tick) -> Stresses:
    keys, (vanes, blades) = given.keys, given.nodes["rows"]
    factors, points = keys[f"{_S}.factors"], given.nodes["strength_points"]
    density = given.nodes["water"].density
    roots = []
    for point in points:
        roots += vane_roots(vanes, point, density, keys[f"{_S}.vane_ends"], keys[f"{_S}.vanes"], factors)
        roots.append(blade_root(blades, point, density, keys[f"{_S}.blades"], factors))
    brake = keys["machine.drive.brake"]
    wall = keys[f"{_S}.duct"]
    return Stresses(
        roots=tuple(roots),
        duct=duct_stress(
            built_ring(duct_of(keys), wall, density), wall, given.nodes["states"], given.nodes["struck"], factors
        ),
        shaft=shaft_cases(
            keys[f"{_S}.shaft"],
            keys[f"{_S}.flange"],
            points,
            given.nodes["control"].way.torque,
            brake["torque"] if brake else None,
            factors,
        ),
        factors=_factors(given),
        remarks=_remarks(given),
    )


def _factors(given: Given) -> tuple[SafetyFactor, ...]:
    """Those in use, each once."""
    keys, factors = given.keys, given.keys[f"{_S}.factors"]
    parts = [keys[f"{_S}.{name}"] for name in ("vanes", "blades", "duct", "shaft")]
    used = [material_of(part) for part in parts if part is not None]
    if keys[f"{_S}.flange"] is not None:
        used.append(material(keys[f"{_S}.flange"]["bolt_class"]))
    found = [load_factor(factors), *(material_factor(of, factors) for of in used), safety_factor(factors["fatigue"])]
    return tuple({factor.key: factor for factor in found}.values())


def _remarks(given: Given) -> tuple[Remark, ...]:
    keys = given.keys
    found = [
        Remark(
            "caution",
            "Materials are typical minima or as you stated them: put in the figures of your own certificate, wet, "
            "and have a licensed engineer check every part under the local code.",
            "materials",
        ),
        Remark(
            "caution",
            "Loads are those of steady flow. Gusts, turbulence, waves, the passing of blades behind vanes, debris "
            "and blows on vanes and blades come on top and are not in these stresses.",
            "loads",
        ),
    ]
    plain = [
        name for name in ("vanes", "blades", "duct", "shaft") if (keys[f"{_S}.{name}"] or {}).get("notch") == 1.0
    ]
    if plain:
        told = f"No notch is stated for {', '.join(plain)}: fillets, keyways, welds and bolt holes are not counted."
        found.append(Remark("caution", told, "notches"))
    if keys[f"{_S}.vane_ends"] == "both ends":
        told = (
            "The vanes carry the hub: its drag, the rotor's thrust and torque go through them. If struts carry it, "
            "the vanes bear less than told here."
        )
        found.append(Remark("note", told, "vanes"))
    for name in ("shaft", "flange"):
        if keys[f"{_S}.{name}"] is None:
            found.append(Remark("note", f"No {name} is given: it is not looked at.", name))
    return tuple(found)


def _frequencies(given: Given, _tick: Tick) -> NaturalFrequencies:
    """From the least rotor speed on load to runaway in the fastest water."""
    keys, (vanes, blades) = given.keys, given.nodes["rows"]
    density = given.nodes["water"].density
    vane = _span(vanes, keys[f"{_S}.vanes"], density, keys[f"{_S}.vane_ends"])
    blade = _span(blades, keys[f"{_S}.blades"], density, "blade")
    built = built_ring(duct_of(keys), keys[f"{_S}.duct"], density)
    ring = ring_modes(built.ring, built.mass, density)
    turning = given.nodes["control"].way.curve.rotor_speed
    speeds = [state.rotor_speed for state in given.nodes["states"] if state.rotor_speed > 0.0]
    free = given.nodes["letting_go"].free
    fastest = max([*speeds, *([free.rotor_speed] if free is not None else [])])
    slowest = min([*turning[turning > 0.0].tolist(), fastest])
    natural = {"vane": vane.in_water, "blade": blade.in_water, "duct": ring.in_water}
    met = resonance(natural, slowest, fastest, blades.count, vanes.count, margin=keys[f"{_S}.margin"])
    return NaturalFrequencies(vane, blade, ring, slowest, fastest, met)


def _span(row: Row, part: Any, water_density: float, ends: str) -> SpanModes:
    """A blade is held at the hub, a vane at both ends or at the duct alone."""
    made_of, radius, sections = material_of(part), row.radius, row_sections(row)
    if ends == "one end":
        radius, sections = radius[-1] - radius[::-1], sections[::-1]
    support: Support = "both ends" if ends == "both ends" else "one end"
    return span_modes(radius, sections, made_of.elasticity, made_of.density, water_density, support=support)


def _fatigue(given: Given, tick: Tick) -> tuple[PlaceFatigue, ...]:
    """Each series on its own curve."""
    series = sorted(given.keys[f"{_S}.series"].items())
    return tuple(_one(given, name, table, part_of(tick, i, len(series))) for i, (name, table) in enumerate(series))


def _one(given: Given, name: str, table: Any, tick: Tick) -> PlaceFatigue:
    path = given.files[f"{_S}.series.{name}.file"]
    column = table["stress_column"]
    stress = read_columns(path, {column: table["unit"]}, str(path), form_of(table))[column]
    factor = safety_factor(given.keys[f"{_S}.factors.fatigue"])
    try:
        found = rainflow_damage(
            stress,
            sn_curve(table["curve"]),
            thickness=table["thickness"],
            damage_factor=None if _on_range(factor) else factor,
            range_factor=factor if _on_range(factor) else None,
            duration=table["duration"],
            tick=tick,
        )
    except InputError as fault:
        raise InputError(f"{name}: {fault.message}", key="series") from None
    wanted = given.keys["machine.cost.life"]
    enough = None if wanted is None else found.life is None or found.life >= wanted
    return PlaceFatigue(name, table["duration"], found, wanted, enough, found.safety)


def _on_range(factor: SafetyFactor) -> bool:
    """Whether a factor stands on the range of stress, not on the damage."""
    return "range" in factor.item or "strength" in factor.item


_PARTS = tuple(f"{_S}.{name}" for name in ("vanes", "blades", "vane_ends", "duct"))
_STATES = ("rows", "states", "water")
STRENGTH_NODES = (
    Node(
        "strength_points",
        1,
        _points,
        keys=UNIT_KEYS,
        nodes=("rows", "flow", "water", "states"),
        needs=("machine", _S),
    ),
    Node(
        "stresses",
        1,
        _stresses,
        keys=(
            *_PARTS,
            f"{_S}.shaft",
            f"{_S}.flange",
            f"{_S}.factors",
            "machine.duct",
            "machine.drive.brake",
        ),
        nodes=(*_STATES, "strength_points", "control", "struck"),
        needs=("machine", _S),
    ),
    Node(
        "natural_frequencies",
        2,
        _frequencies,
        keys=(*_PARTS, f"{_S}.margin", "machine.duct"),
        nodes=(*_STATES, "control", "letting_go"),
        needs=("machine", _S),
    ),
    Node(
        "fatigue",
        1,
        _fatigue,
        keys=(f"{_S}.series", f"{_S}.factors.fatigue", "machine.cost.life"),
        files=(f"{_S}.series.*.file",),
        needs=("machine", _S),
    ),
)
