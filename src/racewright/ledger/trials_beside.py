"""What an archive of a campaign needs beside its data: the scheme's tables and the calibrations that were used."""

from __future__ import annotations

import math
from typing import Any

from racewright.ledger.roles import Roles
from racewright.ledger.trials_things import channels_of
from racewright.scheme.load import LoadedScheme
from racewright.trials.channel import Channel


def beside(loaded: LoadedScheme, roles: Roles) -> dict[str, Any]:
    """Name of each JSON file, without ending, and what it holds.

    Raises
    ------
    InputError
        Calibration points that are missing or do not fit.
    """
    keys = roles.plain("trials")
    files = {
        path: loaded.data_file(roles.find(path), *roles.scheme_path(path))
        for path in roles.expanded("trials.channels.*.calibration.points.file")
        if roles.find(path) is not None
    }
    channels, _weights, _remarks = channels_of(keys["channels"], keys["logger"], files)
    return {
        "trials": loaded.raw["trials"][roles.names["trials"]],
        "calibrations": [_calibration(one, keys["channels"][one.name]["unit"]) for one in channels],
    }


def _calibration(one: Channel, unit: str) -> dict[str, Any]:
    law = one.calibration
    return {
        "channel": one.name,
        "measures": one.role,
        "logged_in": unit,
        "law": "SI value = c0 + c1 raw + c2 raw^2 ...",
        "coefficients": law.coefficients.tolist(),
        "covariance": law.covariance.tolist(),
        "degrees_of_freedom": _known(law.degrees_of_freedom),
        "raw_low": _known(law.raw_low),
        "raw_high": _known(law.raw_high),
        "reference_relative_standard_uncertainty": law.reference,
    }


def _known(value: float) -> float | None:
    """None where it is endless."""
    return value if math.isfinite(value) else None
