"""The sound of a machine as text for the terminal."""

from __future__ import annotations

from racewright.cli.energy_table import printable
from racewright.cli.neighbours_case import told
from racewright.ledger.neighbours_findings import SoundAt
from racewright.sound.level_result import SoundLevel, ThresholdRange
from racewright.sound.propagation import FARTHEST


def sound_table(found: tuple[SoundAt, ...]) -> str:
    """Levels by distance, ranges to thresholds, one uncertainty; remarks and the caution."""
    lines: list[str] = []
    for at in found:
        lines.append(f"Sound, {at.condition} ({at.stream_speed:.2f} m/s)")
        lines += [f"  no answer: {at.reason}", ""] if at.level is None else _level(at.level)
    known = [at.level for at in found if at.level is not None]
    if known:
        lines += _ranges(known[-1], next(at for at in reversed(found) if at.level is not None))
        lines += _published(known[-1])
    remarks = dict.fromkeys(remark for one in known for remark in one.remarks)
    return "\n".join([*lines, *told(remarks, "sound")])


def _level(one: SoundLevel) -> list[str]:
    parts = ", ".join(f"{p.name} {p.half_width:.1f}" for p in one.uncertainty_parts)
    lines = [
        f"  source       {one.broadband_source:.0f} dB re 1 uPa m, {printable(one.source)}",
        f"  uncertainty  +-{one.uncertainty:.0f} dB about 95 % ({parts})",
        f"  {'m':>7} {'dB re 1 uPa':>12} {'most above ambient':>20}",
    ]
    for i, distance in enumerate(one.distance):
        k = int(one.excess[i].argmax())
        above = f"{one.excess[i, k]:+.0f} dB at {one.frequency[k]:.0f} Hz"
        lines.append(f"  {distance:>7.0f} {one.broadband[i]:>12.0f} {above:>20}")
    for tone in one.tones:
        level = "no level" if tone.level is None else f"at most {tone.level:.0f} dB re 1 uPa m"
        lines.append(f"  tone         {tone.frequency:.1f} Hz, {tone.name}: {level}")
    return [*lines, f"  any band reaches the ambient at {_far(one.audible_distance)}", ""]


def _ranges(one: SoundLevel, at: SoundAt) -> list[str]:
    lines = [
        f"How far thresholds reach, {at.condition}; {one.spreading} spreading, an animal that stays"
        f" {one.duration / 3600.0:.3g} h",
        f"  {'edition':<8} {'threshold':>9}  {'reaches':<18} {'at most':<18} whom",
    ]
    return [*lines, *(_range(row) for row in one.thresholds), ""]


def _range(row: ThresholdRange) -> str:
    edition = row.edition if row.edition.isdigit() else "none"
    reach = f"{_far(row.distance):<18} {_far(row.distance_high):<18}"
    return f"  {edition:<8} {row.threshold:>6.0f} dB  {reach} {row.title}"


def _far(distance: float) -> str:
    if distance <= 1.0:
        return "nowhere beyond 1 m"
    return f"beyond {FARTHEST / 1e3:.0f} km" if distance >= FARTHEST else f"{distance:.3g} m"


def _published(one: SoundLevel) -> list[str]:
    lines = ["What others found at other machines"]
    for row in one.published:
        size = f"{row.low:g}" if row.low == row.high else f"{row.low:g} to {row.high:g}"
        lines.append(f"  {row.title}: {size} {row.reference} ({row.source}; {row.status})")
    return lines
