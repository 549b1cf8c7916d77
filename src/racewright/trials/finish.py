"""From a window and the tares to a reading."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.trials import budget
from racewright.trials.cell_sums import ALL, COUNT, FIRST, RAW, SECOND, SPIKE_SUM, SPIKES
from racewright.trials.cells import only
from racewright.trials.channel import Channel
from racewright.trials.coefficients import Coefficients, coefficients
from racewright.trials.impossible import impossible
from racewright.trials.result import OF_THE_RUN, ChannelMean, Reading, Source
from racewright.trials.rig import Rig
from racewright.trials.ripple import ripple
from racewright.trials.settings import Settings
from racewright.trials.window import Window, speed_moments
from racewright.trials.zeros import Zero, ZeroAt, zero_at
from racewright.water import properties

Floats = NDArray[np.float64]
LEAST_REYNOLDS = 2e5
"""Below this chord Reynolds number a model's coefficients need not hold at full scale: cross-flow and axial
rotors were found independent above about 2e5 (Bachant & Wosnik 2016; Lust and others 2012)."""


_BELIEVED = {"temperature": ("temperature of the water", "K"), "level": ("depth", "m")}


def reading(
    found: Window, channels: Sequence[Channel], weights: Floats, zeros: Sequence[Zero], rig: Rig, settings: Settings
) -> Reading:
    """Reduce one window."""
    start, end = found.first * settings.cell, (found.first + found.cells) * settings.cell
    offs = [zero_at(zeros, c, 0.5 * (start + end)) if c.tared else None for c in channels]
    rows = [_channel(c, found.totals[k], offs[k]) for k, c in enumerate(channels)]
    q, w, t = (only(channels, role) for role in ("torque", "rotor_speed", "thrust"))
    speed, mean_speed, turbulence = speed_moments(found, channels, weights)
    remarks = _remarks(found, channels, offs)
    temperature = _optional(rows, channels, "temperature", rig.temperature, (273.15, 313.15), remarks)
    depth = _optional(rows, channels, "level", rig.depth, _near(rig.depth), remarks)
    water = properties(temperature, rig.water)
    power = found.mean_power - rows[q].zero * rows[w].mean
    numbers = coefficients(rig, water, speed, rows[w].mean, rows[q].mean, rows[t].mean, depth, power)
    random, correlation = budget.random_part(found, rows[q].zero, rows[t].zero)
    factor, bias = budget.cube_bias(turbulence, settings.follow)
    sources = [random, *_systematic(found, channels, rows, offs, weights, rig), *([bias] if bias else [])]
    defined = (
        numbers.power_coefficient, numbers.torque_coefficient, numbers.thrust_coefficient, numbers.tip_speed_ratio,
    )  # fmt: skip
    results = [budget.measured(k, defined[k], float(factor[k]), sources, settings.confidence) for k in range(4)]
    covariance, effective = budget.mean_covariance(found, rows[q].zero, rows[t].zero, speed)
    return Reading(
        start=start,
        end=end,
        stream_speed=speed,
        mean_speed=mean_speed,
        turbulence_intensity=turbulence,
        torque=rows[q].mean,
        rotor_speed=rows[w].mean,
        thrust=rows[t].mean,
        power=power,
        temperature=temperature,
        depth=depth,
        water=water,
        numbers=numbers,
        power_coefficient=results[0],
        torque_coefficient=results[1],
        thrust_coefficient=results[2],
        tip_speed_ratio=results[3],
        covariance=budget.total_covariance(sources, correlation),
        mean_covariance=covariance,
        effective_count=effective,
        sources=tuple(sources),
        ripple=ripple(found.ripple, rows[q].mean, rows[w].mean, rig.blades, rig.vanes),
        channels=tuple(row for row in rows if row.flagged < 1.0),
        remarks=(*remarks, *_about(numbers, depth, rig), *impossible(numbers, channels)),
    )


def _channel(channel: Channel, total: Floats, off: ZeroAt | None) -> ChannelMean:
    n, first, second = total[COUNT], total[FIRST], total[SECOND]
    zero = off.value if off else 0.0
    if n == 0:
        return ChannelMean(channel.name, math.nan, math.nan, math.nan, zero, int(total[ALL]), 1.0)
    both = (first + total[SPIKE_SUM]) / (n + total[SPIKES])
    deviation = math.sqrt(max(second / n - (first / n) ** 2, 0.0))
    return ChannelMean(
        channel.name,
        float(first / n) - zero,
        float(both) - zero,
        deviation,
        zero,
        int(total[ALL]),
        float(1.0 - n / total[ALL]),
    )


def _near(depth: float) -> tuple[float, float]:
    """Depths that a gauge is believed at: within a quarter of the rig's own [m]."""
    return (0.75 * depth, 1.25 * depth)


def _optional(
    rows: Sequence[ChannelMean],
    channels: Sequence[Channel],
    role: str,
    other: float,
    believed: tuple[float, float],
    remarks: list[Remark],
) -> float:
    """Mean of the channels with a role; the rig's own value, remarked on, where they give none to believe."""
    own = [r.mean for r, c in zip(rows, channels, strict=True) if c.role == role and r.flagged < 1.0]
    if own and believed[0] <= float(np.mean(own)) <= believed[1]:
        return float(np.mean(own))
    names = " and ".join(c.name for c in channels if c.role == role)
    if names:
        what, unit = _BELIEVED[role]
        said = f"says {float(np.mean(own)):.4g} {unit}" if own else "has no good reading"
        text = (
            f"{names} {said}; {believed[0]:g} to {believed[1]:g} {unit} is believed of the {what}, so the rig's"
            f" {other:g} {unit} stands in. Look at the unit and calibration of {names}."
        )
        remarks.append(Remark("warning", text, role))
    return other


def _systematic(
    found: Window,
    channels: Sequence[Channel],
    rows: Sequence[ChannelMean],
    offs: Sequence[ZeroAt | None],
    weights: Floats,
    rig: Rig,
) -> list[Source]:
    """Calibration, reference and zero of each channel, and the rig's own, as relative effects on CP, CQ, CT, TSR."""
    pull = {
        "speed": np.array([-3.0, -2.0, -2.0, -1.0]),
        "torque": np.array([1.0, 1.0, 0.0, 0.0]),
        "thrust": np.array([0.0, 0.0, 1.0, 0.0]),
        "rotor_speed": np.array([1.0, 0.0, 0.0, 1.0]),
    }
    share = dict(zip([k for k, c in enumerate(channels) if c.role == "speed"], weights, strict=True))
    out = []
    standards = [(share[k], c.calibration.reference) for k, c in enumerate(channels) if k in share]
    common = math.fsum(weight * reference for weight, reference in standards)
    if common > 0.0:
        name = "speed: reference standard" + (", one for all probes" if len(standards) > 1 else "")
        out.append(budget.systematic(name, list(pull["speed"] * common)))
    for k, channel in enumerate(channels):
        if channel.role not in pull or rows[k].mean == 0.0:
            continue
        effect = pull[channel.role] * share.get(k, 1.0)
        size, off, law = abs(rows[k].mean), offs[k], channel.calibration
        raw = found.totals[k, RAW] / found.totals[k, COUNT]
        fit = law.fit_uncertainty(raw, off.raw if off else None) / size
        parts = [(": calibration fit", fit, law.degrees_of_freedom)]
        if k not in share:
            parts.append((": reference standard", law.reference, math.inf))
        if off:
            parts.append((OF_THE_RUN, off.uncertainty / size, math.inf))
        out += [budget.systematic(f"{channel.name}{name}", list(effect * u), nu) for name, u, nu in parts if u > 0.0]
    if rig.radius_uncertainty > 0.0:
        out.append(budget.systematic("radius", list(rig.radius_uncertainty * np.array([-2.0, -3.0, -2.0, 1.0]))))
    if rig.density_uncertainty > 0.0:
        out.append(budget.systematic("density", list(rig.density_uncertainty * np.array([-1.0, -1.0, -1.0, 0.0]))))
    return out


def _about(numbers: Coefficients, depth: float, rig: Rig) -> list[Remark]:
    """Remarks on the dimensionless numbers."""
    out = []
    if numbers.chord_reynolds < LEAST_REYNOLDS:
        text = f"Chord Reynolds {numbers.chord_reynolds:.3g} is below {LEAST_REYNOLDS:.0e}; full scale may differ."
        out.append(Remark("caution", text, "Reynolds number"))
    bare = rig.axis_height + rig.tip_radius - depth
    if bare > 0.0:
        out.append(Remark("warning", f"The top of the rotor stands {bare:.3g} m out of the water.", "depth"))
    return out


def _remarks(found: Window, channels: Sequence[Channel], offs: Sequence[ZeroAt | None]) -> list[Remark]:
    """Remarks on the channels."""
    out = []
    for k, channel in enumerate(channels):
        if channel.tared and offs[k] is None:
            text = f"{channel.name} has no tare: its zero is taken as 0 and its doubt is not counted."
            out.append(Remark("warning", text, "tare"))
        count = found.totals[k, COUNT]
        if count == 0.0:
            out.append(Remark("warning", f"{channel.name} has no good reading in this window.", "flags"))
            continue
        raw = found.totals[k, RAW] / count
        law = channel.calibration
        if not law.raw_low <= raw <= law.raw_high:
            text = f"{channel.name} reads {raw:.4g} on average, outside its calibration."
            out.append(Remark("caution", text, "calibration range"))
    return out
