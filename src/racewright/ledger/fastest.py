"""The fastest water of a place: what runaway and loads are reckoned in."""

from __future__ import annotations

from racewright.place.result import Site


def fastest_water(site: Site) -> float:
    """Upper edge of the fastest speeds recorded, with the machine in all year [m/s].

    A season that takes the machine out of a flood does not count here: who is late, or whose winch fails, meets it.
    """
    climate = site.open_climate or site.climate
    return float(climate.edge[1:][climate.share > 0.0][-1])


def design_water(site: Site, allowance: float) -> float:
    """The fastest water times a holding's allowance for doubt in the speed and for rarer floods [m/s]."""
    return allowance * fastest_water(site)
