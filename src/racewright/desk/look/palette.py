"""Colours of the desk: those of the dossier's figures, light and dark, by plain names."""

from __future__ import annotations

from racewright.dossier.figures.house import ACCENT, BED, BODY, DARK, INK, PAPER, RULE, SECOND, SOFT, WATER

NAMED = {
    "paper": PAPER,
    "ink": INK,
    "soft": SOFT,
    "rule": RULE,
    "accent": ACCENT,
    "second": SECOND,
    "water": WATER,
    "bed": BED,
    "body": BODY,
}
"""Names that charts take."""


def style() -> str:
    """CSS variables in both lights, and charts that turn dark with the page."""
    light = " ".join(f"--{name}: {value};" for name, value in NAMED.items())
    dark = " ".join(f"--{name}: {DARK[value]};" for name, value in NAMED.items())
    svg_light = " ".join(f"--p{i}: {value};" for i, value in enumerate(DARK))
    svg_dark = " ".join(f"--p{i}: {value};" for i, value in enumerate(DARK.values()))
    charts = "\n".join(_turned(name, value) for name, value in NAMED.items())
    return f":root {{ {light} {svg_light} }}\n.body--dark {{ {dark} {svg_dark} }}\n{charts}"


def _turned(name: str, value: str) -> str:
    """A chart draws with the light colour; in the dark the same marks take the dark one."""
    rgb = ", ".join(str(int(value[i : i + 2], 16)) for i in (1, 3, 5))
    return "\n".join(
        f'.body--dark .chart [style*="{part}: rgb({rgb})"] {{ {part}: var(--{name}) !important; }}'
        for part in ("stroke", "fill")
    )
