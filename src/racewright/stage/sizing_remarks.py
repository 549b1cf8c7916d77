"""What the reader of a first size must be told."""

from __future__ import annotations

from racewright.remark import Remark
from racewright.stage import sizing_rules as rules
from racewright.stage.thin_row import LOW_REYNOLDS


def sizing_remarks(
    *,
    machines: int,
    power_of_one: float,
    throat_diameter: float,
    stream_speed: float,
    least_depth: float,
    depth: float | None,
    too_shallow: bool,
    least_reynolds: float,
    tip_speed: float,
    cavitation_number: float,
    wide: bool,
) -> tuple[Remark, ...]:
    """Remarks of a proposal; arguments as the fields of `Proposal`, and `power_of_one` electrical [W].

    `too_shallow` is true where the depth and not the build bounds the diameter.
    """
    found: list[Remark] = []
    if machines > 1:
        why = f"One machine would pass {rules.LARGEST_OVERALL:g} m in diameter"
        if too_shallow:
            why = f"{depth:g} m of water is too shallow for one machine"
        text = (
            f"{why}: {machines} machines of {throat_diameter:.2f} m throat and "
            f"{power_of_one / 1e3:.3g} kW each share the wanted power."
        )
        found.append(Remark("caution", text, "machines"))
    if depth is None:
        text = f"Depth is not given: this machine wants {least_depth:.1f} m of water at low water."
        found.append(Remark("note", text, "depth"))
    if stream_speed < rules.SLOW_STREAM:
        text = f"{stream_speed:g} m/s is slow: power goes with its cube, and below 1 m/s machines hardly pay."
        found.append(Remark("warning", text, "stream speed"))
    if least_reynolds < LOW_REYNOLDS:
        text = (
            f"Least chord Reynolds number {least_reynolds:.2g}, below 2e5: drag is known within +-30 % and outlet "
            "angles within +-2 degrees there."
        )
        found.append(Remark("caution", text, "Reynolds number"))
    if tip_speed > rules.FISH_TIP_SPEED:
        text = (
            f"Blade tips pass at {tip_speed:.1f} m/s; strikes below about 5 m/s killed practically no trout (from "
            "memory). Ask the fisheries authority what it accepts."
        )
        found.append(Remark("caution", text, "fish"))
    if cavitation_number < rules.LEAST_CAVITATION:
        text = (
            f"Cavitation number {cavitation_number:.1f} at the highest blade tip, below {rules.LEAST_CAVITATION:g}: "
            "deeper water or a slower rotor is wanted."
        )
        found.append(Remark("warning", text, "cavitation"))
    if wide:
        text = (
            "The wide duct opens at 8 degrees behind the throat, and flow is known to stay on the wall up to 7: if "
            "it leaves, power falls below the figure."
        )
        found.append(Remark("caution", text, "separation"))
    found.append(
        Remark("note", "A first size by simple rules, to be replaced by the solved machine; not a design.", "sizing")
    )
    return tuple(found)
