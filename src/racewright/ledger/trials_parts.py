"""The trials' part of a case's findings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from racewright.ledger.roles import Roles
from racewright.ledger.trials_findings import Corrected, Sensor, TrialsFindings
from racewright.remark import Remark
from racewright.trials.result import Reading


def trials_of(roles: Roles, values: dict[str, Any]) -> TrialsFindings | None:
    """All that was found of the case's campaign; None where it has none."""
    if values["campaign"] is None:
        return None
    table = roles.find("trials")
    return TrialsFindings(
        name=roles.names["trials"],
        description=table.description,
        invented=table.invented,
        surface=table.rig.surface,
        thrust_on=table.rig.thrust_on,
        confidence=table.reduction.confidence,
        sensors=tuple(
            Sensor(
                name,
                one.column,
                one.measures,
                one.unit,
                one.sensor,
                one.calibration.source,
                one.rate or table.logger.rate,
            )
            for name, one in sorted(table.channels.items())
        ),
        campaign=values["campaign"],
        corrected=values["corrected"],
        check=values["prediction_check"],
        foulings=values["foulings"],
        doses=values["doses"] or (),
        remarks=trials_remarks(values),
    )


def of_readings(run: str, readings: Sequence[Reading]) -> list[Remark]:
    """What single readings of a run remark: each cause once, with how many say it, in the words of the first."""
    causes: dict[tuple[str, str, str], list[Remark]] = {}
    for one in readings:
        for remark in one.remarks:
            kind = re.sub(r"[-+]?[0-9][0-9.e+-]*", "#", remark.text)
            causes.setdefault((remark.severity, remark.about, kind), []).append(remark)
    return [
        Remark(said[0].severity, f"Run {run}, {len(said)} of {len(readings)} readings: {said[0].text}", said[0].about)
        for said in causes.values()
    ]


def trials_remarks(values: dict[str, Any]) -> tuple[Remark, ...]:
    """Remarks of a campaign as a whole, each once; those of single readings stay with them."""
    if values["campaign"] is None:
        return ()
    found = [*values["campaign"].remarks]
    for one in values["campaign"].runs:
        found += [Remark(r.severity, f"Run {one.run}: {r.text}", r.about) for r in one.reduction.remarks]
        found += of_readings(one.run, one.reduction.readings)
        if not one.reduction.readings:
            reasons = sorted({text for refused in one.reduction.refusals for text in refused.reasons})[:4]
            told = f"Run {one.run} gave no steady reading: {'; '.join(reasons) or 'it is empty'}."
            found.append(Remark("warning", told, "trials"))
    for fouled in values["foulings"]:
        if fouled.found is not None and fouled.found.found:
            told = (
                f"Run {fouled.run}: fouling took {100 * fouled.found.loss:.1f} % of the torque"
                f" ({100 * fouled.found.loss_low:.1f} to {100 * fouled.found.loss_high:.1f} %, 95 %)."
            )
            found.append(Remark("caution", told, "fouling"))
        elif fouled.found is None:
            found.append(Remark("note", f"Run {fouled.run}: fouling was not looked for, {fouled.reason}.", "fouling"))
    found += values["prediction_check"].remarks
    return tuple(dict.fromkeys((*found, *_of_walls(values["corrected"]))))


def _of_walls(corrected: Sequence[Corrected]) -> list[Remark]:
    """What corrections remark, each cause with how many readings it is said of."""
    causes: dict[Remark, int] = {}
    for one in corrected:
        for remark in one.blockage.remarks:
            if remark.severity != "note":
                causes[remark] = causes.get(remark, 0) + 1
    told = [
        Remark(r.severity, f"{count} of {len(corrected)} readings: {r.text}", r.about) for r, count in causes.items()
    ]
    return [*told, *_record_beside(corrected)]


def _record_beside(corrected: Sequence[Corrected]) -> list[Remark]:
    """How the record, where it does not reach all along a curve, stands to the method taken there."""
    off: dict[str, list[float]] = {}
    for one in corrected:
        record = one.blockage.record
        if record is not None and one.blockage.preferred not in (None, "record") and one.power_coefficient:
            method = one.blockage.preferred or ""
            off.setdefault(method, []).append(record.power_coefficient / one.power_coefficient - 1.0)
    return [
        Remark(
            "note",
            f"The record of several blockages does not reach all along a curve and stands beside '{method}' there: on"
            f" {len(found)} readings its CP lies {100.0 * sum(found) / len(found):+.1f} % off on average. Test the"
            " narrow channel over the same tip-speed ratios to have the record taken.",
            "blockage",
        )
        for method, found in off.items()
    ]
