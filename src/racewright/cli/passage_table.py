"""Fish and debris as text for the terminal."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.cli.energy_table import printable
from racewright.cli.neighbours_case import told
from racewright.ledger.neighbours_findings import (
    DebrisFound,
    FishAt,
    FishBeside,
    FishFound,
    NeighboursFindings,
    ScreenFound,
    TradeFound,
)

_WIDTH = 16
_DAY = 86400.0


def passage_table(found: NeighboursFindings) -> str:
    """Fish by operating point, down the river, beside bare rotors; debris, screen, trade; remarks and cautions."""
    lines = [*_fish(found.fish), *_river(found.fish), *_beside(found.beside), *_debris(found.debris)]
    if found.screen is not None:
        lines += _screen(found.screen)
    if found.trade is not None:
        lines += _trade(found.trade)
    remarks = [r for r in found.remarks if r.about not in ("source", "sound", "ambient", "tones")]
    return "\n".join([*lines, *told(remarks, "fish", "flood_and_debris")])


def _name(text: str) -> str:
    return f"{printable(text)[:_WIDTH]:<{_WIDTH}}"


def _fish(fish: Sequence[FishFound]) -> list[str]:
    lines: list[str] = []
    for point in dict.fromkeys((at.condition, at.stream_speed) for one in fish for at in one.at):
        lines += [
            f"Fish that come in, {point[0]} ({point[1]:.2f} m/s)",
            f"{'fish':<{_WIDTH}} {'m':>5} {'struck':>7} {'dies':>6}  {'of it known':<13} {'nadir kPa':>9}"
            f" {'strain 1/s':>10}",
        ]
        for one in fish:
            lines += [_at(one, at) for at in one.at if at.condition == point[0]]
        lines.append("")
    return lines


def _at(one: FishFound, at: FishAt) -> str:
    found = at.passage
    if found is None:
        return f"{_name(one.name)} {one.length:>5.2f}  no answer: {at.reason}"
    known = f"{float(found.death_low[0]):.2f} to {float(found.death_high[0]):.2f}"
    left = f"  without {' and '.join(found.left_out)}" if found.left_out else ""
    return (
        f"{_name(one.name)} {one.length:>5.2f} {float(found.strike.chance[0]):>7.2f} {float(found.death[0]):>6.2f}"
        f"  {known:<13} {found.exposure.worst_nadir / 1e3:>9.1f} {found.exposure.strains.largest:>10.0f}{left}"
    )


def _river(fish: Sequence[FishFound]) -> list[str]:
    if not any(one.river for one in fish):
        return []
    lines = [
        "Fish that come down the river evenly with its water, one machine, chances of the design point",
        f"{'fish':<{_WIDTH}} {'standing':<18} {'come in %':>9} {'struck %':>9} {'die %':>8}  of it known %",
    ]
    for one in fish:
        for at in one.river:
            come = 100.0 * at.flow_share * (1.0 - one.avoidance)
            lines.append(
                f"{_name(one.name)} {at.label:<18} {come:>9.2f} {100.0 * at.struck:>9.2f} {100.0 * at.dead:>8.3f}"
                f"  {100.0 * at.dead_low:.3f} to {100.0 * at.dead_high:.3f}"
            )
    return [*lines, ""]


def _beside(beside: Sequence[FishBeside]) -> list[str]:
    if not beside:
        return []
    lines = [
        "The machine less a bare fast rotor, over the bare rotor: + speaks against the machine",
        f"{'fish':<{_WIDTH}} {'bare rotor of equal':<20} {'struck':>7} {'fastest':>8} {'of a stream':>12} "
        f"{'killed of it':>13} {'struck/kWh':>11} {'killed/kWh':>11}",
    ]
    for one in beside:
        for d in one.beside.differences:
            parts = (
                (d.chance[0], 7), (d.fastest, 8), (d.struck_flow[0], 12), (d.deadly_flow[0], 13),
                (d.struck_per_energy[0], 11), (d.deaths_per_energy[0], 11),
            )  # fmt: skip
            cells = " ".join(f"{100.0 * float(value):>+{width - 2}.0f} %" for value, width in parts)
            lines.append(f"{_name(one.name)} {d.against.removeprefix('bare rotor of equal '):<20} {cells}")
    return [*lines, ""]


def _debris(found: DebrisFound) -> list[str]:
    free = found.opening
    lines = [
        "What fits through vanes and blades",
        f"{'row':<8} {'hub mm':>8} {'tip mm':>8} {'least mm':>9} {'sphere mm':>10}",
    ]
    for row in (free.vanes, free.blades):
        ends = (row.opening[0], row.opening[-1], row.opening.min(), row.sphere)
        cells = " ".join(f"{1e3 * float(v):>{w}.0f}" for v, w in zip(ends, (8, 8, 9, 10), strict=True))
        lines.append(f"{row.name:<8} {cells}")
    lines += [
        f"Through both: sphere {1e3 * free.sphere:.0f} mm, a stick {1e3 * free.stick_diameter:.0f} mm thick"
        f" {1e3 * free.stick_anywhere:.0f} mm long at every angle; between the rows {1e3 * free.axial_gap:.0f} mm",
        "",
    ]
    if found.drift:
        lines.append(f"{'debris':<{_WIDTH}} {'stays':>6}  {'range':<13} fate")
    for one in found.drift:
        band = one.fate.staying
        known = f"{band.low:.2f} to {band.high:.2f}"
        lines.append(f"{_name(one.name)} {band.value:>6.2f}  {known:<13} {one.fate.words}")
    return lines


def _screen(found: ScreenFound) -> list[str]:
    option = found.option
    held = ", ".join(printable(n) for n in found.held_back) or "none of the fish given"
    lines = [
        "",
        "Screen of bars",
        f"  power lost   clean {100.0 * option.clean_power_share:.1f} %, with"
        f" {100.0 * option.fouled_loss.closed_share:.0f} % of the gaps closed"
        f" {100.0 * option.fouled_power_share:.1f} %",
        f"  approach     {option.clean_loss.approach_speed:.2f} m/s over the whole screen",
        f"  holds back   {held}",
    ]
    if option.fill_time is not None:
        lines.append(f"  fouled in    {option.fill_time / _DAY:.2g} days, if nobody rakes")
    return lines


def _trade(found: TradeFound) -> list[str]:
    lines = [
        "",
        f"Moved one at a time, rows designed anew; {printable(found.fish)} of {found.length:.2f} m",
        f"{'variant':<22} {'kW':>6} {'N m':>6} {'struck':>7} {'dies':>6} {'edge m/s':>9} {'opening mm':>11}",
    ]
    for row in found.rows:
        if row.reason:
            lines.append(f"{row.label:<22} cannot be: {row.reason}")
            continue
        lines.append(
            f"{row.label:<22} {row.shaft_power / 1e3:>6.2f} {row.torque:>6.0f} {row.strike_chance:>7.2f}"
            f" {row.death:>6.2f} {row.fastest:>9.1f} {1e3 * row.smallest_opening:>11.0f}"
        )
    return lines
