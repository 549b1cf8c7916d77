"""The type of pytest's `record_property`: a check says 'measured' and the difference it found, in words."""

from __future__ import annotations

from collections.abc import Callable

Record = Callable[[str, object], None]
