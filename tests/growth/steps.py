"""Three sizes of one invented machine, solved once: a model, a river unit, a tidal unit."""

from __future__ import annotations

from dataclasses import replace

from racewright.growth.step import SolvedStep, Step, StepPlace, like_step, solve_step
from racewright.stage.design import design_rows
from racewright.water import properties
from tests.stage.solved import FLOW, UNIT

FRESH, SEA = properties(283.15, "fresh"), properties(283.15, "sea")


def _river() -> Step:
    vanes, blades = design_rows(UNIT, FLOW, FRESH)
    place = StepPlace(depth=3.0, hub_depth=1.2, channel_area=80.0, turbulence=0.12, fish_length=0.3)
    return Step("river unit", UNIT, vanes, blades, FLOW, FRESH, place, 5000.0)


def _model(river: Step) -> Step:
    place = StepPlace(depth=3.0, hub_depth=1.5, channel_area=9.0, turbulence=0.03, fish_length=0.3)
    return replace(like_step(river, 0.43, 2.4, FRESH, "model"), place=place)


def _tidal(river: Step) -> Step:
    place = StepPlace(depth=40.0, hub_depth=20.0, turbulence=0.12, fish_length=0.3, open_water=True)
    return replace(like_step(river, 14.0, 3.0, SEA, "tidal unit"), place=place, rated_power=1e6)


RIVER: SolvedStep = solve_step(_river())
MODEL: SolvedStep = solve_step(_model(RIVER.step))
TIDAL: SolvedStep = solve_step(_tidal(RIVER.step))
