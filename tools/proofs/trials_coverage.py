"""How often the intervals of CP and CT hold the truth, over many short invented campaigns at two loads."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "src"))

from racewright.tick import Tick, silent
from racewright.trials.channel import Chunk
from racewright.trials.reduce import reduce
from racewright.trials.synthetic import Campaign, synthetic_campaign
from racewright.trials.synthetic_plan import Plan, Stretch, invented_sensors
from racewright.trials.synthetic_truth import Truth, truth_over

LOADS = (1.7, 2.5)
_PLAN = Plan(
    stretches=(Stretch(30.0, tare=True), Stretch(80.0, LOADS[0]), Stretch(80.0, LOADS[1]), Stretch(45.0, tare=True)),
    sensors=tuple(s for s in invented_sensors() if s.name not in ("flow_b", "bus_voltage")),
)


@dataclass(frozen=True)
class Coverage:
    """Share of campaigns whose interval holds the truth.

    Attributes
    ----------
    seed, campaigns : int
        Campaign i has seed `seed` + i [-].
    readings : tuple of int
        Campaigns with a reading, by load [-].
    power, thrust : tuple of float
        Share of those whose interval holds the true CP, CT, by load [-].
    power_error, thrust_error : tuple of float
        Mean relative error, by load [-].
    power_width, thrust_width : tuple of float
        Mean relative half-width of the interval, by load [-].
    """

    seed: int
    campaigns: int
    readings: tuple[int, ...]
    power: tuple[float, ...]
    thrust: tuple[float, ...]
    power_error: tuple[float, ...]
    thrust_error: tuple[float, ...]
    power_width: tuple[float, ...]
    thrust_width: tuple[float, ...]

    def text(self) -> str:
        """One line."""
        parts = [
            f"load {k + 1}: CP {100 * self.power[k]:.1f} %, CT {100 * self.thrust[k]:.1f} %"
            f" (half-widths {100 * self.power_width[k]:.2f} and {100 * self.thrust_width[k]:.2f} %, mean errors "
            f"{100 * self.power_error[k]:+.2f} and {100 * self.thrust_error[k]:+.2f} %, n {self.readings[k]})"
            for k in range(len(self.readings))
        ]
        return f"seed {self.seed}, {self.campaigns} campaigns; " + "; ".join(parts)


@dataclass
class _Tally:
    inside: list[bool] = field(default_factory=list)
    error: list[float] = field(default_factory=list)
    width: list[float] = field(default_factory=list)

    def add(self, low: float, value: float, high: float, truth: float) -> None:
        self.inside.append(low <= truth <= high)
        self.error.append(value / truth - 1.0)
        self.width.append(0.5 * (high - low) / abs(value))


def coverage(campaigns: int, seed: int = 20260101, plan: Plan = _PLAN, tick: Tick = silent) -> Coverage:
    """Count over `campaigns` invented campaigns; the first reading inside each load stretch is judged."""
    loads = sum(not s.tare for s in plan.stretches)
    power = [_Tally() for _ in range(loads)]
    thrust = [_Tally() for _ in range(loads)]
    for i in range(campaigns):
        campaign = synthetic_campaign(plan, seed + i)
        truths: list[Truth] = []
        found = reduce(_noting(campaign, truths), campaign.channels, campaign.rig, tares=campaign.tares)
        for k, span in enumerate(campaign.loads):
            own = [r for r in found.readings if span.start - 1.0 <= r.start and r.end <= span.end]
            if own:
                truth = truth_over(campaign.plan.model, truths, own[0].start, own[0].end)
                p, t = own[0].power_coefficient, own[0].thrust_coefficient
                power[k].add(p.low, p.value, p.high, truth.power_coefficient)
                thrust[k].add(t.low, t.value, t.high, truth.thrust_coefficient)
        tick((i + 1) / campaigns)
    return Coverage(
        seed,
        campaigns,
        tuple(len(t.inside) for t in power),
        *(tuple(_mean(t.inside) for t in side) for side in (power, thrust)),
        *(tuple(_mean(t.error) for t in side) for side in (power, thrust)),
        *(tuple(_mean(t.width) for t in side) for side in (power, thrust)),
    )


def _noting(campaign: Campaign, truths: list[Truth]) -> Iterator[Chunk]:
    """The chunks of a record; their truth is put aside."""
    for chunk, truth in campaign.record():
        truths.append(truth)
        yield chunk


def _mean(values: list[bool] | list[float]) -> float:
    return sum(values) / len(values) if values else float("nan")


if __name__ == "__main__":
    print(coverage(int(sys.argv[1])).text())
