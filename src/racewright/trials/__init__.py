"""Model tests: reduction of the logger's record, fouling, debris doses, invented records to try it on."""

from __future__ import annotations
