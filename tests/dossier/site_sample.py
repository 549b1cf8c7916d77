"""The invented reach, its yearly energy and the village: plausible analytic stand-ins."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.ledger.findings import CommunityFindings, PlaceFindings
from racewright.place.result import DurationCurve, Site, SpeedClimate, Standing
from racewright.remark import Remark
from racewright.supply.result import Comparison, DieselCost, LevelisedCost, YearlyEnergy
from racewright.uncertainty import Band
from tests.bands import relative_band
from tests.dossier.machine_shapes import U

Floats = NDArray[np.float64]
KWH = 3.6e6


def place(clearance_low: float = 0.18) -> PlaceFindings:
    """A reach 3 m deep at median flow."""
    rank = np.arange(1, 731) / 731
    discharge = 42.0 * np.exp(-1.05 * np.sqrt(2) * _erfinv(2 * rank - 1))
    speed = 1.75 * (discharge / 42.0) ** 0.3
    edge = np.arange(0.5, 3.8, 0.1)
    share = np.histogram(speed, edge)[0].astype(float)
    share /= share.sum()
    top, outer = 0.78, 1.235
    standings = (
        Standing("low water (Q95)", 8.1, 0.9, top + outer + clearance_low, top, clearance_low, 1.12),
        Standing("median", 42.0, 1.62, 3.02, top, 3.02 - top - outer, 1.75),
        Standing("high water (Q5)", 221.0, 3.31, 4.71, top, 4.71 - top - outer, 2.86),
    )
    site = Site(
        731,
        DurationCurve(discharge, rank),
        DurationCurve(speed, rank),
        SpeedClimate(edge, share, float(np.mean(speed)), float(np.mean(speed**3) ** (1 / 3))),
        standings,
        2.0,
        (
            Remark(
                "caution",
                "The record is 2.0 years long; a dry or wet year may move the yield by 15 %.",
                "record",
            ),
        ),
    )
    return PlaceFindings(
        "reach",
        "Reach below the old ferry, invented.",
        site,
        1.40,
        ((0.0, 2.0), (10.0, -1.4), (40.0, -1.1), (60.0, 2.2)),
    )


def _erfinv(y: Floats) -> Floats:
    a = 0.147
    t = np.log(1 - y**2)
    b = 2 / (np.pi * a) + t / 2
    return np.sign(y) * np.sqrt(np.sqrt(b**2 - t / a) - b)


def energy() -> YearlyEnergy:
    """About 13 MWh a year."""
    climate = place().site.climate
    speed = 0.5 * (climate.edge[1:] + climate.edge[:-1])
    power = np.where(speed >= 0.9, np.minimum(3400.0 * (speed / U) ** 3, 5000.0), 0.0)
    made = power * climate.share * 8760 * 3600 * 0.92
    total = float(made.sum())
    return YearlyEnergy(
        speed,
        climate.share,
        power,
        made,
        relative_band(total, 0.25, "prior band on power carried through"),
        total / (8760 * 3600),
        total / (8760 * 3600) / 5000,
        float(climate.share[speed < 0.9].sum()),
        float(climate.share[power >= 5000.0].sum()),
        (Remark("note", "Availability of 92 % is assumed, not measured.", "availability"),),
    )


def community() -> CommunityFindings:
    """A village with a 60 kW diesel set."""
    cost = 0.41 / KWH
    comparison = Comparison(
        LevelisedCost(0.0858, cost, 0.29 / KWH, 0.12 / KWH),
        Band(0.33 / KWH, cost, 0.55 / KWH, "energy band"),
        DieselCost(18000.0, 0.3, 0.31e-3 / KWH, 2100.0, 0.651 / KWH, 0.08 / KWH, 0.06 / KWH, 0.791 / KWH, 48.9),
        relative_band(12.1e3 * KWH, 0.25, "energy band"),
        Band(-1850.0, -420.0, 1010.0, ""),
        Band(2300.0, 4610.0, 6920.0, ""),
        Band(1.9, 2.6, 3.2, ""),
        Band(2.8, 3.75, 4.7, ""),
        "EUR",
        (Remark("caution", "The diesel runs at 30 % load, where its fuel use is least certain.", "diesel load"),),
        relative_band(7.9e3 * KWH, 0.25, "energy band"),
        0.246e-3 / KWH * 2100.0,
        False,
    )
    return CommunityFindings("village", "A village of 60 people, invented.", comparison)
