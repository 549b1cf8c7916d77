"""Invented test records of a half-kilowatt ducted model in a water channel, with the truth beside them.

Nothing here is measured. The model behind the record is not the one that the reduction uses: sensors follow a
sine-bent law, not a polynomial; the machine follows damped turbulence instant by instant; zeros walk at random.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from racewright.errors import InputError
from racewright.trials.channel import Channel, Chunk, Span
from racewright.trials.rig import Rig
from racewright.trials.synthetic_plan import Plan
from racewright.trials.synthetic_simulation import Simulation
from racewright.trials.synthetic_truth import INVENTED, Truth


@dataclass(frozen=True)
class Campaign:
    """An invented campaign: what the engineer knows of it, and the record.

    Attributes
    ----------
    label : str
        Says that it is invented.
    plan : Plan
        With the model as built, true radius included.
    seed : int
    channels : tuple of Channel
        As the engineer believes them, calibrations fitted to invented calibration points.
    rig : Rig
        As the engineer believes it.
    tares, loads : tuple of Span
        Without the ramps.
    """

    label: str
    plan: Plan
    seed: int
    channels: tuple[Channel, ...]
    rig: Rig
    tares: tuple[Span, ...]
    loads: tuple[Span, ...]

    def record(self) -> Iterator[tuple[Chunk, Truth]]:
        """The record in chunks with the truth beside; the same on every call."""
        return Simulation(self.plan, self.seed).run()

    def chunks(self) -> Iterator[Chunk]:
        """The record in chunks."""
        for chunk, _ in self.record():
            yield chunk


def synthetic_campaign(plan: Plan, seed: int) -> Campaign:
    """Draw an invented campaign: radius as built, calibrations, and the seeds of its record.

    Parameters
    ----------
    plan : Plan
        With `model.tip_radius` the stated radius; the built one is drawn about it.
    seed : int

    Returns
    -------
    Campaign
        Its record never sits in memory whole.
    """
    rng = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(1,)))
    model = plan.model
    built = 1.0 + plan.radius_uncertainty * float(rng.standard_normal())
    laws = [s.calibrate(rng)[0] for s in plan.sensors]
    spans: list[tuple[bool, Span]] = []
    at = 0.0
    for s in plan.stretches:
        if s.seconds <= plan.ramp:
            raise InputError(f"a stretch of {s.seconds:g} s is no longer than the ramp of {plan.ramp:g} s")
        first = at + (plan.ramp if at else 0.0)
        spans.append((s.tare, Span(first, at + s.seconds)))
        at += s.seconds
    rig = Rig(
        tip_radius=model.tip_radius, hub_radius=model.hub_radius, blades=model.blades, vanes=model.vanes,
        channel_width=plan.channel_width, depth=plan.depth, axis_height=plan.axis_height,
        blocked_radius=model.duct_radius, chord=0.3 * model.tip_radius, chord_radius=0.7 * model.tip_radius,
        temperature=plan.temperature, radius_uncertainty=plan.radius_uncertainty,
    )  # fmt: skip
    as_built = replace(model, tip_radius=model.tip_radius * built, hub_radius=model.hub_radius * built)
    return Campaign(
        INVENTED,
        replace(plan, model=as_built),
        seed,
        tuple(s.channel(law) for s, law in zip(plan.sensors, laws, strict=True)),
        rig,
        tuple(span for tare, span in spans if tare),
        tuple(span for tare, span in spans if not tare),
    )
