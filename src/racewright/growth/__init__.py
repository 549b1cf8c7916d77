"""Growth: steps from model to tidal unit, what carries over from one to the next, and what the way is worth."""

from racewright.growth.step_up import StepUp, step_up

__all__ = ["StepUp", "step_up"]
