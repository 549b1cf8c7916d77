"""The sound's node: from turbulence that the rows cut, or scaled from a measured file."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.neighbours_findings import SoundAt
from racewright.ledger.neighbours_things import (
    DEPTH_KEYS,
    DISTANCES,
    Condition,
    axis_depth,
    conditions,
    measured_of,
    water_depth,
)
from racewright.ledger.node import Given, Node
from racewright.machine.row import Row
from racewright.sound.absorption import sound_speed
from racewright.sound.hearing import groups_of
from racewright.sound.level import level
from racewright.sound.level_result import SoundLevel
from racewright.sound.scaled_source import scaled_source
from racewright.sound.sounding_row import sounding_rows
from racewright.sound.source import SoundSource
from racewright.sound.tones import machine_tones
from racewright.sound.turbulence_source import turbulence_source
from racewright.sound.water_sound import SoundWater
from racewright.stage.result import OperatingPoint
from racewright.tick import Tick
from racewright.water import Water


def _sound(given: Given, _tick: Tick) -> tuple[SoundAt, ...]:
    """At the design point and in the fastest water; empty where the scheme has no sound table."""
    if given.keys["neighbours.sound"] is None:
        return ()
    return tuple(_at(given, one) for one in conditions(unit_of(given.keys), given))


def _at(given: Given, one: Condition) -> SoundAt:
    found, reason = None, one.reason
    if one.point is not None:
        try:
            found = _level(given, one.point)
        except NoAnswerError as error:
            reason = str(error)
    return SoundAt(one.name, one.stream_speed, one.rotor_speed, found, reason)


def _level(given: Given, point: OperatingPoint) -> SoundLevel:
    table, site, water = given.keys["neighbours.sound"], given.nodes["site"], given.nodes["water"]
    vanes, blades = given.nodes["rows"]
    depth = water_depth(given.keys, site)
    heard = SoundWater(water.temperature, table["salinity"], axis_depth(given.keys, site), table["acidity"])
    path = given.files.get("neighbours.sound.measured.file")
    if path is None:
        source = _computed(given, table, vanes, blades, point, water, heard, depth)
    else:
        source = _scaled(table, path, blades, point, given.nodes["flow"], heard, depth)
    return level(
        source,
        table["distances"] or DISTANCES,
        heard,
        spreading=table["spreading"],
        water_depth=depth,
        absorbed=table["absorbed"],
        groups=groups_of(table["edition"]),
        duration=table["duration"],
        wind_speed=table["wind_speed"],
        shipping=table["shipping"],
        way_uncertainty=table["way_uncertainty"],
    )


def _computed(
    given: Given,
    table: Mapping[str, Any],
    vanes: Row,
    blades: Row,
    point: OperatingPoint,
    water: Water,
    heard: SoundWater,
    depth: float | None,
) -> SoundSource:
    """The rows in turbulence of the stated intensity, its length the depth unless stated."""
    length = table["length_scale"] if table["length_scale"] is not None else depth
    if length is None:
        raise InputError("missing; without a depth of the water state the eddies' length", key="length_scale")
    stated = table["turbulence"]
    speed = sound_speed(heard)
    return turbulence_source(
        sounding_rows(vanes, blades, point),
        water.density,
        speed,
        point.stream_speed,
        given.keys["place.turbulence"] if stated is None else stated,
        length,
        tones=machine_tones(vanes, blades, point, water.density, speed),
    )


def _scaled(
    table: Mapping[str, Any],
    path: Path,
    blades: Row,
    point: OperatingPoint,
    flow: Axisymmetric,
    heard: SoundWater,
    depth: float | None,
) -> SoundSource:
    """The measured file, scaled by the speed over the blade tips and the rotor's annulus: only ratios enter."""
    known = point.triangles
    tip = float(np.hypot(known.axial_speed[-1], point.rotor_speed * blades.radius[-1] - known.swirl_in[-1]))
    return scaled_source(
        measured_of(table["measured"], path),
        tip,
        flow.annulus_area,
        spreading=table["spreading"],
        water=heard,
        absorbed=table["absorbed"],
        water_depth=depth,
    )


SOUND_NODES = (
    Node(
        "sound",
        1,
        _sound,
        keys=("neighbours.sound", "neighbours.sound.measured", "place.turbulence", *UNIT_KEYS, *DEPTH_KEYS),
        files=("neighbours.sound.measured.file",),
        nodes=("rows", "flow", "water", "design_point", "states", "site"),
        needs=("neighbours", "machine", "place"),
    ),
)
