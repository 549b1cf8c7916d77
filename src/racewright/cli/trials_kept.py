"""The readings that a campaign's store keeps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from racewright.ledger.trials_rows import AS_DEFINED, COEFFICIENTS, NUMBERS, QUANTITIES
from racewright.records.campaign.store import Campaign


@dataclass(frozen=True)
class KeptReading:
    """One reading as the store keeps it.

    Attributes
    ----------
    run : str
    number : int
        Of the reading in its run, from 1 [-].
    start, end : float
        After the run's first row [s].
    stream_speed, mean_speed : float
        Cube mean and plain mean [m/s].
    turbulence_intensity : float
        [-]
    torque, rotor_speed, thrust, power : float
        [N m], [rad/s], [N], [W]
    temperature, depth : float
        [K], [m]
    blockage, chord_reynolds : float
        [-]
    froude_number, cavitation_number : float or None
        None under a lid [-].
    power_coefficient, torque_coefficient, thrust_coefficient, tip_speed_ratio : float
        As in the channel, the cube mean corrected for turbulence that the machine does not follow [-].
    power_as_defined : float
        CP from the plain means, without that correction [-].
    frontal_power_coefficient : float
        CP as defined on the duct's frontal area [-].
    power_uncertainty, torque_uncertainty, thrust_uncertainty, ratio_uncertainty : float
        Standard uncertainties of the four coefficients [-].
    power_freedom, torque_freedom, thrust_freedom, ratio_freedom : float or None
        Their effective degrees of freedom; None for endless many [-].
    """

    run: str
    number: int
    start: float
    end: float
    stream_speed: float
    mean_speed: float
    turbulence_intensity: float
    torque: float
    rotor_speed: float
    thrust: float
    power: float
    temperature: float
    depth: float
    blockage: float
    chord_reynolds: float
    power_coefficient: float
    power_as_defined: float
    frontal_power_coefficient: float
    torque_coefficient: float
    thrust_coefficient: float
    tip_speed_ratio: float
    power_uncertainty: float
    torque_uncertainty: float
    thrust_uncertainty: float
    ratio_uncertainty: float
    power_freedom: float | None
    torque_freedom: float | None
    thrust_freedom: float | None
    ratio_freedom: float | None
    froude_number: float | None = None
    cavitation_number: float | None = None


_SHORT = dict(zip(COEFFICIENTS, ("power", "torque", "thrust", "ratio"), strict=True))


def kept_readings(campaign: Campaign, runs: Sequence[str]) -> list[KeptReading]:
    """The readings of some runs, in order."""
    found = []
    wanted = {key for key, _unit in QUANTITIES} | {*NUMBERS, *COEFFICIENTS, AS_DEFINED}
    for run in runs:
        spans = {int(row[1]): (float(row[2]), float(row[3])) for row in campaign.rows("span", run) if row[4]}
        values: dict[int, dict[str, float | None]] = {place: {} for place in spans}
        for _run, place, quantity, value, uncertainty, freedom, _unit in campaign.rows("reading", run):
            if quantity in wanted:
                values[int(place)][quantity] = float(value)
            if quantity in _SHORT:
                values[int(place)][f"{_SHORT[quantity]}_uncertainty"] = float(uncertainty)
                values[int(place)][f"{_SHORT[quantity]}_freedom"] = None if freedom is None else float(freedom)
        for number, place in enumerate(sorted(spans), start=1):
            found.append(KeptReading(run, number, *spans[place], **values[place]))  # type: ignore[arg-type]
    return found
