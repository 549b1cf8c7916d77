"""Time zones of records: UTC or a fixed offset; of clocks on a wall, also by the name of a region."""

from __future__ import annotations

import re
from datetime import UTC, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo

from racewright.errors import InputError

_ZONE = re.compile(r"([+-])(\d\d):(\d\d)", re.ASCII)


def zone_offset(zone: str) -> int:
    """Seconds to take off a local stamp to get UTC.

    Parameters
    ----------
    zone : str
        'UTC' or a fixed offset such as '+05:45' or '-03:00', within 14 hours.

    Raises
    ------
    InputError
        Anything else; names of regions are refused because their clocks jump.
    """
    if zone == "UTC":
        return 0
    match = _ZONE.fullmatch(zone)
    if match is not None:
        hours, minutes = int(match.group(2)), int(match.group(3))
        seconds = (hours * 60 + minutes) * 60
        if minutes < 60 and seconds <= 14 * 3600:
            return -seconds if match.group(1) == "-" else seconds
    if re.fullmatch(r"[A-Za-z_]+(/[A-Za-z0-9_+-]+)+", zone):
        raise InputError(
            f"{zone[:60]!r} names a region, whose clocks may be set forward and back, so that an hour is missing or "
            "comes twice; write the fixed offset that the logger kept, like '+01:00', or 'UTC', or give every stamp "
            "its own offset, like '2021-03-31T14:00+02:00'",
            key="zone",
        )
    raise InputError(f"{zone[:60]!r} is not a zone; write 'UTC' or a fixed offset like '+05:45'", key="zone")


def clock_of(text: str) -> tzinfo:
    """A zone by name, such as 'Pacific/Auckland', or 'UTC', or a fixed offset.

    Raises
    ------
    InputError
        No such zone.
    """
    if text == "UTC":
        return UTC
    if text[:1] in ("+", "-"):
        return timezone(timedelta(seconds=zone_offset(text)))
    try:
        return ZoneInfo(text)
    except (KeyError, ValueError, OSError):
        raise InputError(
            f"{text[:60]!r} is no zone; write 'UTC', an offset like '+05:45', or a name like 'Pacific/Auckland'",
            key="zone",
        ) from None
