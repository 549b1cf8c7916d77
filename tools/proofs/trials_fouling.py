"""How often a loss of 3 % over an hour is found, and how often one is feigned, on invented records."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "src"))

from racewright.tick import Tick, silent
from racewright.trials.channel import Chunk
from racewright.trials.exponent import torque_exponent
from racewright.trials.fouling import Fouling, fouling
from racewright.trials.reduce import reduce
from racewright.trials.synthetic import synthetic_campaign
from racewright.trials.synthetic_plan import Leaves, Plan, Stretch, invented_sensors
from racewright.trials.synthetic_truth import Truth

TARE, OTHER, HOUR, AFTER = 60.0, 80.0, 3600.0, 900.0
LOADS = (1.6, 2.2)
"""Two short runs ahead of the long one: they tell how the torque answers the flow."""
BEFORE = TARE + OTHER * len(LOADS)
WANDER = 0.001
_PLAN = Plan(
    stretches=(
        Stretch(TARE, tare=True),
        *(Stretch(OTHER, load) for load in LOADS),
        Stretch(HOUR + AFTER, 1.9),
        Stretch(70.0, tare=True),
    ),
    sensors=tuple(
        replace(s, wander=WANDER if s.role == "torque" else s.wander)
        for s in invented_sensors(20.0)
        if s.name not in ("flow_b", "bus_voltage", "depth_gauge")
    ),
)
"""Two short loads, one hour at one load and a quarter more after the cleaning; flow with 1 % of coloured drift, zeros
walking."""


@dataclass(frozen=True)
class FoulingCount:
    """Counts over invented records.

    Attributes
    ----------
    seed, records : int
        Record i has seed `seed` + i, once with leaves and once without [-].
    found, false_alarms : int
        Alarms with leaves, without [-].
    held, recovered_held : int
        Intervals of loss and of recovery that hold the truth [-].
    mean_loss, mean_recovered, mean_alarm : float
        [-], [-], after the hour's beginning [s].
    true_loss : float
        [-]
    """

    seed: int
    records: int
    found: int
    false_alarms: int
    held: int
    recovered_held: int
    mean_loss: float
    mean_recovered: float
    mean_alarm: float
    true_loss: float

    def text(self) -> str:
        """One line."""
        return (
            f"seed {self.seed}, {self.records} records: found {self.found}, false alarms {self.false_alarms}; loss "
            f"{100 * self.mean_loss:.2f} % against {100 * self.true_loss:g} % (interval holds it {self.held} times), "
            f"recovered {100 * self.mean_recovered:.2f} % (held {self.recovered_held} times), "
            f"alarm after {self.mean_alarm / 60:.0f} min on average"
        )


def one(seed: int, loss: float, plan: Plan = _PLAN) -> Fouling:
    """One invented record, with or without leaves, as the reduction sees it."""
    leaves = Leaves(BEFORE, HOUR, loss, BEFORE + HOUR) if loss > 0.0 else None
    campaign = synthetic_campaign(replace(plan, leaves=leaves), seed)
    truths: list[Truth] = []

    def chunks() -> Iterator[Chunk]:
        for chunk, truth in campaign.record():
            truths.append(truth)
            yield chunk

    found = reduce(chunks(), campaign.channels, campaign.rig, tares=campaign.tares)
    short, span = campaign.loads[:-1], campaign.loads[-1]
    ahead = [r for r in found.readings if any(s.start - 1.0 <= r.start and r.end <= s.end + 1.0 for s in short)]
    exponents = torque_exponent(
        [r.tip_speed_ratio.value for r in ahead], [r.torque_coefficient.value for r in ahead], 1.9
    )
    run = found.series.between(span.start + 5.0, span.end - 5.0)
    return fouling(
        run.time, run.stream_speed, run.rotor_speed, run.torque,
        cleaned=BEFORE + HOUR, zero_wander=WANDER, tare_after=True, exponents=exponents,
    )  # fmt: skip


def count(records: int, seed: int = 20260201, loss: float = 0.03, tick: Tick = silent) -> FoulingCount:
    """Count over `records` seeds, each once with leaves and once without."""
    fouled, clean = [], []
    for i in range(records):
        fouled.append(one(seed + i, loss))
        clean.append(one(seed + i, 0.0))
        tick((i + 1) / records)
    alarms = [f.alarm_time - BEFORE for f in fouled if f.alarm_time is not None]
    back = [(f.recovered, f.recovered_low, f.recovered_high) for f in fouled if f.recovered is not None]
    return FoulingCount(
        seed=seed,
        records=records,
        found=sum(f.found for f in fouled),
        false_alarms=sum(f.found for f in clean),
        held=sum(f.loss_low <= loss <= f.loss_high for f in fouled),
        recovered_held=sum(low is not None and high is not None and low <= loss <= high for _, low, high in back),
        mean_loss=sum(f.loss for f in fouled) / records,
        mean_recovered=sum(b[0] for b in back) / max(len(back), 1),
        mean_alarm=sum(alarms) / max(len(alarms), 1),
        true_loss=loss,
    )


if __name__ == "__main__":
    print(count(int(sys.argv[1])).text())
