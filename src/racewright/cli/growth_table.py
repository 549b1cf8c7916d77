"""Sizes and claims as text for the terminal."""

from __future__ import annotations

import math
from collections.abc import Sequence

from racewright.cli.energy_table import printable
from racewright.growth.claims import CheckedClaim
from racewright.growth.grow import GrowthPage
from racewright.ledger.growth_findings import GrowthFindings

_WIDTH = 16
_SHOWN = {"W": ("kW", 1e3), "J": ("kWh", 3.6e6), "N": ("kN", 1e3), "N m": ("kN m", 1e3)}


def growth_table(found: GrowthFindings) -> str:
    """Sizes, what the step between two of them does, factors, claims, remarks."""
    pages = found.growth.pages
    lines = [*_sizes(pages), *(line for page in pages for line in _step(page)), *_claims(found.sheet.claims)]
    remarks = [*found.remarks, *(r for r in found.sheet.remarks if r.severity != "note")]
    if remarks:
        lines += ["", *(f"{r.severity}: {printable(r.about)}: {printable(r.text)}" for r in remarks)]
    if found.invented:
        lines += ["", "The growth is invented."]
    return "\n".join(lines)


def name_of(text: str) -> str:
    """The user's name, cut and padded."""
    return f"{printable(text)[:_WIDTH]:<{_WIDTH}}"


def _sizes(pages: Sequence[GrowthPage]) -> list[str]:
    lines = [
        "The machine at every size, each solved for itself; shaft power with its prior band",
        f"{'size':<{_WIDTH}} {'throat m':>8} {'m/s':>5} {'shaft kW':>9}  {'band kW':<18} {'electrical kW':>13}"
        f" {'rpm':>6} {'kN m':>8} {'thrust kN':>9} {'efficiency %':>12}",
    ]
    for page in pages:
        solved, point = page.solved, page.solved.point
        band = f"{point.band.low / 1e3:.4g} to {point.band.high / 1e3:.4g}"
        lines.append(
            f"{name_of(solved.step.name)} {solved.step.throat_diameter:>8.2f} {point.stream_speed:>5.2f}"
            f" {point.shaft_power / 1e3:>9.4g}  {band:<18} {solved.electrical_power / 1e3:>13.4g}"
            f" {math.degrees(point.rotor_speed) / 6.0:>6.1f} {point.torque / 1e3:>8.4g}"
            f" {point.thrust / 1e3:>9.4g} {100.0 * point.hydraulic_efficiency:>12.1f}"
        )
    for page in pages:
        rated = page.rated
        if rated is not None:
            lines.append(
                f"{name_of(page.solved.step.name)} rated {rated.wanted / 1e3:g} kW asks for"
                f" {rated.speed_for_it:.2f} m/s, or a throat of {rated.diameter_for_it:.2f} m"
            )
    return lines


def _step(page: GrowthPage) -> list[str]:
    before = page.before
    if before is None:
        return []
    low, high = 100.0 * before.forms_low, 100.0 * before.forms_high
    kept = ", ".join(n.name for n in before.numbers if n.verdict == "kept")
    lines = [
        "",
        f"From {printable(before.first.step.name)} to {printable(page.solved.step.name)}",
        f"  shaft power  {before.power.shaft_power:.4g} times: area {before.power.area:.4g}, speed cubed"
        f" {before.power.speed_cubed:.4g}, density {before.power.density:.3f}, share taken"
        f" {before.power.power_coefficient:.3f}",
        f"  efficiency   size {100.0 * before.size_gain:+.2f} points to"
        f" {100.0 * before.like.point.hydraulic_efficiency:.2f} %, gap, surface and shape"
        f" {100.0 * before.shape_gain:+.2f}; step-up says {low:.2f} to {high:.2f} %",
        f"  kept         {kept or 'nothing'}",
    ]
    for one in page.scaled:
        if one.exponent.kind in ("mass", "cost") or one.exponent.over == "throat_diameter":
            lines.append(
                f"  {printable(one.exponent.name):<24.24} {one.factor:>9.3g} times"
                f"  ({one.low_factor:.3g} to {one.high_factor:.3g})"
            )
    return lines


def _claims(claims: Sequence[CheckedClaim]) -> list[str]:
    if not claims:
        return []
    lines = ["", f"{'claim':<34} {'of':<{_WIDTH}} {'figure':>12}  {'band':<26} {'rests on':<14} stands"]
    for one in claims:
        claim = one.claim
        unit, factor = _SHOWN.get(claim.unit, (printable(claim.unit), 1.0))
        figure = "none yet" if claim.value is None else f"{claim.value / factor:.4g} {unit}".strip()
        band = "none" if claim.band is None else f"{claim.band.low / factor:.4g} to {claim.band.high / factor:.4g}"
        lines.append(
            f"{printable(claim.name)[:34]:<34} {name_of(claim.step or 'the machine')} {figure:>12}  {band:<26}"
            f" {claim.basis:<14} {one.verdict}"
        )
    return lines
