"""All blockage corrections of one reading, side by side, with the one to quote and why."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.errors import NoAnswerError
from racewright.remark import Remark
from racewright.trials.blockage_methods import CORRECTIONS
from racewright.trials.blockage_result import Blockage, ChannelReading, Estimate, MethodSpread
from racewright.trials.machine_response import MachineResponse
from racewright.trials.unbounded_record import RecordReading, blockage_record


def blockage(
    reading: ChannelReading,
    *,
    free: MachineResponse | None = None,
    walled: MachineResponse | None = None,
    record: Sequence[RecordReading] = (),
    shared: float | tuple[float, float] = 0.0,
    along: bool = True,
) -> Blockage:
    """What a reading in a channel is worth in an open stream, by every method there is.

    Parameters
    ----------
    reading : ChannelReading
    free : MachineResponse, optional
        The machine's own u(CH) in an open stream; without it a ducted rig gets a bare-disc correction, flagged.
    walled : MachineResponse, optional
        The same between round walls of the channel's area.
    record : sequence of RecordReading
        The same model at two blockages or more, at this reading's tip-speed ratio.
    shared : float or tuple of float
        Correlation of errors within the record, see `blockage_record` [-].
    along : bool
        Whether there is such a record all along the reading's curve; where not it stands beside and is not preferred,
        so that one curve does not change from one method to another.

    Returns
    -------
    Blockage
        Estimates in the order of the table, their spread over the valid ones, and the preferred one.

    Raises
    ------
    InputError
        A record that cannot be one.
    """
    estimates = tuple(_try(name, reading, free, walled) for name in CORRECTIONS)
    found = {one.method: one for one in estimates}
    whole = blockage_record(record, shared=shared) if record else None
    preferred, why = _prefer(reading, found)
    remarks = []
    if whole is not None:
        remarks += list(whole.remarks)
        if whole.complete and along:
            preferred, why = "record", "the same model at several blockages is measured; every theory is not"
        elif whole.complete:
            why += "; the record does not reach all along this curve, so it stands beside as a check"
        else:
            why += "; the record has no uncertainty, so it is not preferred"
    if reading.ducted and whole is None:
        remarks.append(
            Remark(
                "caution",
                "No correction of a ducted machine has been checked by a published pair of tests: test the same "
                "model at two blockages or depths.",
                "blockage",
            )
        )
    return Blockage(reading, estimates, preferred, why, _spread(estimates), whole, tuple(remarks))


def _try(
    name: str, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
) -> Estimate:
    correction = CORRECTIONS[name]
    try:
        return correction(reading, free, walled)
    except NoAnswerError as error:
        return Estimate(name, correction.title, "refused", (str(error),))


def _prefer(reading: ChannelReading, found: dict[str, Estimate]) -> tuple[str | None, str]:
    momentum = found["closed" if reading.froude is None else "open"]
    wall, closed = found["wall"], found["closed"]
    if reading.ducted and wall.stream_ratio is not None and wall.state == "valid":
        if None in (momentum.stream_ratio, closed.stream_ratio):
            return "wall", "momentum theory has no answer; the machine's own flow between walls has"
        surface = abs((momentum.stream_ratio or 0.0) - (closed.stream_ratio or 0.0))
        near = abs(wall.stream_ratio - (closed.stream_ratio or 0.0))
        if surface <= near:
            return "wall", (
                "the machine's own flow between walls assumes nothing of the duct's share in the thrust "
                f"(walls near the duct move the speed by {near:.4f}, the surface by {surface:.4f})"
            )
        return "open", f"the surface moves the speed by {surface:.4f}, walls near the duct by {near:.4f}"
    for one in (momentum, wall, closed):
        if one.stream_ratio is not None:
            what = "the machine's own u(CT)" if reading.ducted and one.thrust_ratio != 1.0 else "a bare disc"
            why = (
                f"momentum over the channel with {what}" if one.method != "wall" else "the flow solver alone answers"
            )
            if one is not momentum:
                why += f"; '{momentum.method}' is refused: {momentum.reasons[0]}"
            return one.method, why + (f"; indicative: {'; '.join(one.reasons)}" if one.reasons else "")
    return None, f"no method answers: {momentum.reasons[0]}"


def _spread(estimates: Sequence[Estimate]) -> MethodSpread | None:
    valid = [one for one in estimates if one.state == "valid" and one.stream_ratio is not None]
    if not valid:
        return None
    return MethodSpread(
        _ends([one.power_coefficient for one in valid]),
        _ends([one.thrust_coefficient for one in valid]),
        _ends([one.tip_speed_ratio for one in valid]),
        _ends([one.stream_ratio for one in valid]),
        tuple(one.method for one in valid),
    )


def _ends(values: Sequence[float | None]) -> tuple[float, float]:
    known = [one for one in values if one is not None]
    return min(known), max(known)
