"""Sources that do not fall with time: calibration, reference standard and zero of each channel, and the rig's own."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.trials.budget import Effects, systematic
from racewright.trials.channel import Channel
from racewright.trials.channel_means import ChannelMeans
from racewright.trials.result import OF_THE_RUN
from racewright.trials.rig import Rig

Floats = NDArray[np.float64]
_PULL = {
    "speed": np.array([-3.0, -2.0, -2.0, -1.0]),
    "torque": np.array([1.0, 1.0, 0.0, 0.0]),
    "thrust": np.array([0.0, 0.0, 1.0, 0.0]),
    "rotor_speed": np.array([1.0, 0.0, 0.0, 1.0]),
}
_RADIUS, _DENSITY = np.array([-2.0, -3.0, -2.0, 1.0]), np.array([-1.0, -1.0, -1.0, 0.0])


def systematic_sources(found: ChannelMeans, channels: Sequence[Channel], weights: Floats, rig: Rig) -> list[Effects]:
    """All of them over n windows, as relative effects on CP, CQ, CT and TSR; `weights` are those of the probes."""
    windows = np.ones(found.mean.shape[0])
    share = dict(zip([k for k, c in enumerate(channels) if c.role == "speed"], weights.tolist(), strict=True))
    common = math.fsum(weight * channels[k].calibration.reference for k, weight in share.items())
    out = []
    if common > 0.0:
        name = "speed: reference standard" + (", one for all probes" if len(share) > 1 else "")
        out.append(systematic(name, _PULL["speed"], common * windows))
    for k, channel in enumerate(channels):
        if channel.role in _PULL:
            out += _of_channel(found, k, channel, share.get(k))
    if rig.radius_uncertainty > 0.0:
        out.append(systematic("radius", _RADIUS, rig.radius_uncertainty * windows))
    if rig.density_uncertainty > 0.0:
        out.append(systematic("density", _DENSITY, rig.density_uncertainty * windows))
    return out


def _of_channel(found: ChannelMeans, k: int, channel: Channel, share: float | None) -> list[Effects]:
    """Calibration fit, reference and zero of one channel; absent in a window where its mean is 0."""
    pull = _PULL[channel.role] * (1.0 if share is None else share)
    law, off = channel.calibration, found.offs[k]
    live = found.mean[:, k] != 0.0
    size = np.where(live, np.abs(found.mean[:, k]), 1.0)
    fit = law.fit_uncertainties(found.raw[:, k], off.raw if off else None) / size
    parts = [(": calibration fit", fit, law.degrees_of_freedom)]
    if share is None:
        parts.append((": reference standard", np.full(size.size, law.reference), math.inf))
    if off:
        parts.append((OF_THE_RUN, off.uncertainty / size, math.inf))
    return [systematic(f"{channel.name}{name}", pull, u, live & (u > 0.0), nu) for name, u, nu in parts]
