"""Walls and surface taken off every reading of a campaign: every method, one of them along each curve."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from racewright.errors import InputError, NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.ledger.convert import duct_of, hub_of
from racewright.ledger.trials_findings import Corrected
from racewright.ledger.trials_records import blockage_groups, records
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.remark import Remark
from racewright.stage.bands import PowerBands, relative_ends
from racewright.trials.blockage_compare import blockage
from racewright.trials.blockage_methods import CORRECTIONS
from racewright.trials.blockage_result import Blockage, ChannelReading
from racewright.trials.machine_response import MachineResponse, response_of_flow, wall_radius
from racewright.trials.result import Reading

_SAME_WALL = 0.005
"""Relative difference of blockage within which one solved wall serves, half of what the estimate allows."""
_PANELS = 60


@dataclass(frozen=True)
class InChannel:
    """One reading as the corrections want it.

    Attributes
    ----------
    run : str
    number : int
        Of the reading in its run, from 1 [-].
    reading : Reading
    channel : ChannelReading
    clean : bool
        False in a fouled stretch: such readings make no record.
    predicted : bool
        True where the rotor's load is predicted, as the balance carries the whole machine.
    """

    run: str
    number: int
    reading: Reading
    channel: ChannelReading
    clean: bool
    predicted: bool


def channel_reading(
    one: Reading, flow: Axisymmetric, keys: Mapping[str, Any], load: float | None
) -> tuple[ChannelReading, bool]:
    """The reading with the rotor's load: measured where the balance carries the rotor, else predicted (True)."""
    measured = keys["trials.rig.thrust_on"] == "rotor"
    numbers = one.numbers
    outer = math.pi * float(flow.duct_r.max()) ** 2  # the circle that the reading's blockage stands on
    told = ChannelReading(
        power_coefficient=abs(one.power_coefficient.value),  # its sign is given back in `in_open_stream`
        thrust_coefficient=max(one.thrust_coefficient.value, 0.0) if measured or load is None else load,
        tip_speed_ratio=one.tip_speed_ratio.value,
        blockage=numbers.blockage * flow.annulus_area / outer,
        froude=numbers.froude_number if keys["trials.rig.surface"] == "free" else None,
        ducted=True,
        thrust="rotor" if measured or load is not None else "total",
    )
    return told, not measured and load is not None


class Corrections:
    """Every correction of a campaign's readings.

    Parameters
    ----------
    rows : sequence of InChannel
    flow : Axisymmetric
        The machine in an open stream.
    walls : Walls
    bands : PowerBands
        Of the prediction, whose loads stand in where the balance carries the whole machine.
    """

    def __init__(self, rows: Sequence[InChannel], flow: Axisymmetric, walls: Walls, bands: PowerBands) -> None:
        self._rows, self._walls, self._free = rows, walls, response_of_flow(flow)
        low, high = relative_ends(bands)
        self._load_doubt = (high - low) / (2.0 * math.sqrt(3.0))
        self._records = records(
            [one.reading for one in rows], [o.channel.blockage for o in rows], [o.clean for o in rows]
        )

    def of(self, k: int) -> Blockage:
        """All methods of one reading; the preferred one is settled by `one_method`."""
        one = self._rows[k].channel
        walled, found = self._walls.of(one.blockage), self._records.get(k)
        if found is None or not found.readings:
            told = blockage(one, free=self._free, walled=walled)
            return told if found is None else _said(told, found.why)
        try:
            return blockage(
                one, free=self._free, walled=walled, record=found.readings, shared=found.shared, along=found.along
            )
        except InputError as fault:
            return _said(blockage(one, free=self._free, walled=walled), fault.message)

    def open_stream(self, k: int, told: Blockage) -> Corrected:
        """One reading by its preferred method."""
        one = self._rows[k]
        return in_open_stream(one.run, one.number, one.reading, told, self._of_load(one, told))

    @property
    def curves(self) -> list[int]:
        """Which curve each reading belongs to: those of about one blockage [-]."""
        return blockage_groups([one.channel.blockage for one in self._rows])

    def _of_load(self, one: InChannel, told: Blockage) -> float:
        """Standard doubt of the stream ratio that the predicted load's band makes, relative [-]."""
        if not one.predicted or told.preferred in (None, "record"):
            return 0.0
        best = told[told.preferred or ""]
        found = []
        for factor in (1.0 - self._load_doubt, 1.0 + self._load_doubt):
            other = replace(one.channel, thrust_coefficient=one.channel.thrust_coefficient * factor)
            try:
                ratio = CORRECTIONS[best.method](other, self._free, self._walls.of(other.blockage)).stream_ratio
            except NoAnswerError:  # beyond the end of the method: the other side tells
                continue
            if ratio is not None and best.stream_ratio:
                found.append(abs(ratio / best.stream_ratio - 1.0))
        return max(found, default=0.0)


class Walls:
    """The machine between round walls, solved once for blockages that are nearly alike."""

    def __init__(self, keys: Mapping[str, Any], flow: Axisymmetric) -> None:
        self._keys, self._flow = keys, flow
        self._solved: list[tuple[float, MachineResponse | None]] = []

    def of(self, share: float) -> MachineResponse | None:
        """Response at a blockage; None where the flow between such walls has no answer."""
        for known, solved in self._solved:
            if abs(known - share) <= _SAME_WALL * share:
                return solved
        duct_x, duct_r = duct_contour(duct_of(self._keys), _PANELS)
        hub_x, hub_r = hub_contour(hub_of(self._keys), _PANELS)
        try:
            flow = axisymmetric(
                duct_x,
                duct_r,
                hub_x=hub_x,
                hub_r=hub_r,
                rotor_x=self._keys["machine.rotor"]["place_x"],
                channel_radius=wall_radius(self._flow.annulus_area, share),
            )
            response = response_of_flow(flow)
        except (InputError, NoAnswerError):  # such walls are too near; the wall estimate then says that it is missing
            self._solved.append((share, None))
            return None
        self._solved.append((share, response))
        return response


def one_method(told: Sequence[Blockage], curves: Sequence[int]) -> list[Blockage]:
    """The same with one preferred theory along each curve: the one preferred by most, where it answers everywhere.

    Parameters
    ----------
    told : sequence of Blockage
    curves : sequence of int
        Which curve each belongs to [-].
    """
    found = list(told)
    for curve in sorted(set(curves)):
        own = [k for k, c in enumerate(curves) if c == curve]
        by_theory = [k for k in own if told[k].preferred not in (None, "record")]
        ranked = Counter(told[k].preferred for k in by_theory).most_common()
        for name, count in ranked[:1] if len(ranked) > 1 else ():
            if all(told[k][name or ""].stream_ratio is not None for k in by_theory):
                why = (
                    f"'{name}' is preferred by {count} of {len(by_theory)} readings of this curve and taken along it"
                )
                for k in by_theory:
                    if told[k].preferred != name:
                        found[k] = replace(told[k], preferred=name, why=why)
    return found


def _said(told: Blockage, why: str) -> Blockage:
    note = Remark("note", f"Readings at another blockage make no record: {why}.", "blockage")
    return replace(told, remarks=(*told.remarks, note))


def in_open_stream(run: str, number: int, one: Reading, told: Blockage, load_doubt: float = 0.0) -> Corrected:
    """The preferred estimate with the spread of the valid ones, and the doubt of a predicted load, as further doubts.

    Parameters
    ----------
    run, number, one, told
        The reading and its corrections.
    load_doubt : float
        Standard doubt of the stream ratio from the predicted load, relative [-].
    """
    if told.preferred is None:
        return Corrected(run, number, told, None, None, None, None, None, None)
    if told.preferred == "record" and told.record is not None:
        record = told.record
        return Corrected(
            run, number, told, None, record.power_coefficient, record.thrust_coefficient, record.tip_speed_ratio,
            record.power_uncertainty, record.thrust_uncertainty,
        )  # fmt: skip
    best = told[told.preferred]
    power, ratio = best.power_coefficient, best.stream_ratio
    if power is not None:
        power = math.copysign(power, one.power_coefficient.value)
    thrust = None if ratio is None else one.thrust_coefficient.value / ratio**2
    doubt = load_doubt
    if told.spread is not None:
        least, most = told.spread.stream_ratio
        doubt = math.hypot(doubt, (most - least) / (2.0 * math.sqrt(3.0)))
    own = (
        _scaled(one.power_coefficient.standard_uncertainty, power, one.power_coefficient.value),
        _scaled(one.thrust_coefficient.standard_uncertainty, thrust, one.thrust_coefficient.value),
    )
    return Corrected(
        run, number, told, best.stream_ratio, power, thrust, best.tip_speed_ratio,
        math.hypot(own[0], 3.0 * abs(power or 0.0) * doubt), math.hypot(own[1], 2.0 * abs(thrust or 0.0) * doubt),
    )  # fmt: skip


def _scaled(uncertainty: float, corrected: float | None, measured: float) -> float:
    return uncertainty * abs((corrected or 0.0) / measured) if measured else uncertainty
