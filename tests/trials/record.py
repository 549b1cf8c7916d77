"""A small record for the tests of the reduction: noise about set means, exact calibrations."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from racewright.trials import Channel, Chunk, Rig, exact

RIG = Rig(0.2, 0.05, 4, 7, 2.0, 1.2, 0.6, 0.25, 0.05, 0.14)
MEANS = {"speed": 1.5, "torque": 8.0, "rotor_speed": 15.0, "thrust": 120.0, "level": 1.25, "temperature": 285.15}
RATES = {"speed": 25.0, "torque": 100.0, "rotor_speed": 50.0, "thrust": 100.0, "level": 10.0, "temperature": 1.0}


def channels(**changes):
    """One channel per role, raw unit = SI unit; changes by role, each a dict."""
    return [replace(Channel(role, role, RATES[role], exact(0.0, 1.0)), **changes.get(role, {})) for role in MEANS]


def values(seconds, seed=0, scatter=0.01, **means):
    """Raw readings of every channel over a stretch."""
    rng = np.random.default_rng(seed)
    out = {}
    for role, mean in {**MEANS, **means}.items():
        n = round(seconds * RATES[role])
        spread = 1e-4 if role in ("level", "temperature", "rotor_speed") else scatter
        out[role] = mean * (1.0 + spread * rng.standard_normal(n))
    return out


def still(raw, start, end):
    """Rotor standing and water at rest over a stretch, as a tare wants it."""
    for role in ("rotor_speed", "speed"):
        raw[role][round(start * RATES[role]) : round(end * RATES[role])] = 0.0


def cut(raw, edges):
    """Chunks cut at whole seconds."""
    return [
        Chunk(float(a), {k: v[round(a * RATES[k]) : round(b * RATES[k])] for k, v in raw.items()})
        for a, b in pairwise(edges)
    ]
