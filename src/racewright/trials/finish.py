"""From windows and tares to readings, all windows of a record at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.trials.budget import Effects, cube_bias, measured, scatter, total_covariance
from racewright.trials.cells import only
from racewright.trials.channel import Channel
from racewright.trials.channel_means import ChannelMeans, channel_means, channel_remarks, speed_moments
from racewright.trials.coefficients import Coefficients, coefficients
from racewright.trials.impossible import impossible
from racewright.trials.result import NAMES, Reading, Source
from racewright.trials.rig import Rig
from racewright.trials.ripple import ripple
from racewright.trials.settings import Settings
from racewright.trials.systematic_sources import systematic_sources
from racewright.trials.window import Window
from racewright.trials.zeros import Zero
from racewright.water import properties_at

Floats = NDArray[np.float64]
LEAST_REYNOLDS = 2e5
"""Below this chord Reynolds number a model's coefficients need not hold at full scale: cross-flow and axial
rotors were found independent above about 2e5 (Bachant & Wosnik 2016; Lust and others 2012)."""


_BELIEVED = {"temperature": ("temperature of the water", "K"), "level": ("depth", "m")}
"""What the mean of a role is, and its unit."""


def readings(
    windows: Sequence[Window],
    channels: Sequence[Channel],
    weights: Floats,
    zeros: Sequence[Zero],
    rig: Rig,
    settings: Settings,
) -> tuple[Reading, ...]:
    """Reduce the windows of a record; `weights` of the speed probes sum to 1."""
    if not windows:
        return ()
    start = settings.cell * np.array([w.first for w in windows])
    end = settings.cell * np.array([w.first + w.cells for w in windows])
    totals = np.stack([w.totals for w in windows])
    means = channel_means(totals, 0.5 * (start + end), channels, zeros)
    q, w, t = (only(channels, role) for role in ("torque", "rotor_speed", "thrust"))
    speed, mean_speed, turbulence = speed_moments(totals, channels, weights)
    remarks = channel_remarks(means, channels)
    temperature = _optional(means, channels, "temperature", rig.temperature, (273.15, 313.15), remarks)
    depth = _optional(means, channels, "level", rig.depth, _near(rig.depth), remarks)
    power = np.array([one.mean_power for one in windows]) - means.zero[:, q] * means.mean[:, w]
    waters = properties_at(temperature.tolist(), rig.water)
    columns = (speed, means.mean[:, w], means.mean[:, q], means.mean[:, t], depth, power)
    states = np.stack(columns, axis=1).tolist()
    numbers = [coefficients(rig, water, *one) for water, one in zip(waters, states, strict=True)]
    random = scatter(windows, means.zero[:, q], means.zero[:, t], speed)
    factor, bias = cube_bias(turbulence, settings.follow)
    effects = [random.source, *systematic_sources(means, channels, weights, rig), *([bias] if bias else [])]
    defined = np.array([[getattr(one, name) for name in NAMES] for one in numbers])
    doubted = impossible(numbers, channels)
    results = measured(defined, factor, effects, settings.confidence)
    covariance = total_covariance(effects, random.correlation)
    sources, rows = _sources(effects), means.rows([c.name for c in channels])
    starts, ends, means_of_speed, intensity = (x.tolist() for x in (start, end, mean_speed, turbulence))
    return tuple(
        Reading(
            start=starts[i],
            end=ends[i],
            stream_speed=state[0],
            mean_speed=means_of_speed[i],
            turbulence_intensity=intensity[i],
            torque=state[2],
            rotor_speed=state[1],
            thrust=state[3],
            power=state[5],
            temperature=waters[i].temperature,
            depth=state[4],
            water=waters[i],
            numbers=numbers[i],
            power_coefficient=results[i][0],
            torque_coefficient=results[i][1],
            thrust_coefficient=results[i][2],
            tip_speed_ratio=results[i][3],
            covariance=covariance[i],
            mean_covariance=random.mean_covariance[i],
            effective_count=random.effective_count[i],
            sources=sources[i],
            ripple=ripple(windows[i].ripple, state[2], state[1], rig.blades, rig.vanes),
            channels=rows[i],
            remarks=(*remarks[i], *_about(numbers[i], state[4], rig), *doubted[i]),
        )
        for i, state in enumerate(states)
    )


def _sources(effects: Sequence[Effects]) -> list[tuple[Source, ...]]:
    """By window, the sources that are present in it."""
    columns = [
        [
            Source(one.name, one.kind, effect, freedom) if there else None
            for effect, freedom, there in zip(one.effect, one.degrees_of_freedom, one.present.tolist(), strict=True)
        ]
        for one in effects
    ]
    return [tuple(one for one in row if one is not None) for row in zip(*columns, strict=True)]


def _near(depth: float) -> tuple[float, float]:
    """Depths that a gauge is believed at: within a quarter of the rig's own [m]."""
    return (0.75 * depth, 1.25 * depth)


def _optional(
    means: ChannelMeans,
    channels: Sequence[Channel],
    role: str,
    other: float,
    believed: tuple[float, float],
    remarks: list[list[Remark]],
) -> Floats:
    """Mean of the channels with a role; the rig's own value, remarked on, where they give none to believe."""
    places = [k for k, c in enumerate(channels) if c.role == role]
    out = np.full(means.mean.shape[0], other)
    if not places:
        return out
    known = means.flagged[:, places] < 1.0
    count = known.sum(axis=1)
    own = np.where(known, means.mean[:, places], 0.0).sum(axis=1) / np.maximum(count, 1)
    good = (count > 0) & (believed[0] <= own) & (own <= believed[1])
    what, unit = _BELIEVED[role]
    names = " and ".join(channels[k].name for k in places)
    for i in np.flatnonzero(~good).tolist():
        said = f"says {own[i]:.4g} {unit}" if count[i] else "has no good reading"
        text = (
            f"{names} {said}; {believed[0]:g} to {believed[1]:g} {unit} is believed of the {what}, so the rig's"
            f" {other:g} {unit} stands in. Look at the unit and calibration of {names}."
        )
        remarks[i].append(Remark("warning", text, role))
    return np.where(good, own, out)


def _about(numbers: Coefficients, depth: float, rig: Rig) -> list[Remark]:
    """Remarks on the dimensionless numbers."""
    out = []
    if numbers.chord_reynolds < LEAST_REYNOLDS:
        text = f"Chord Reynolds {numbers.chord_reynolds:.3g} is below {LEAST_REYNOLDS:.0e}; full scale may differ."
        out.append(Remark("caution", text, "Reynolds number"))
    if numbers.froude_number is not None and numbers.froude_number >= 1.0:
        text = (
            f"Froude number {numbers.froude_number:.3g}: no trial is made in water faster than its own waves. Look at"
            " the unit and calibration of the stream speed, and at the depth."
        )
        out.append(Remark("warning", text, "Froude number"))
    bare = rig.axis_height + rig.tip_radius - depth
    if bare > 0.0:
        out.append(Remark("warning", f"The top of the rotor stands {bare:.3g} m out of the water.", "depth"))
    return out
