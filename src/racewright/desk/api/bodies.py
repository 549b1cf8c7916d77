"""What may be sent to the API; nothing unknown, nothing coerced."""

from __future__ import annotations

import math
from typing import Annotated

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StrictBool, StrictFloat, StrictInt, StrictStr

CHANGES = 200
"""Keys that one edit may change."""


def _sound(text: str) -> str:
    """Text that can be written to a file."""
    if any(0xD800 <= ord(c) <= 0xDFFF or (ord(c) < 32 and c not in "\n\t") or ord(c) == 127 for c in text):
        raise ValueError("the text holds control characters or halves of characters")
    return text


def _finite(number: float) -> float:
    if not math.isfinite(number):
        raise ValueError("not a finite number")
    return number


def _near(number: int) -> int:
    if abs(number) >= 2**63:
        raise ValueError("a whole number of more than 63 bits is not taken")
    return number


Text = Annotated[StrictStr, Field(max_length=2000), AfterValidator(_sound)]
Number = Annotated[StrictFloat, AfterValidator(_finite)]
Whole = Annotated[StrictInt, AfterValidator(_near)]
Sent = StrictBool | Whole | Number | Text | Annotated[list[Number | Whole], Field(max_length=100)] | None


class _Body(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)

    revision: Annotated[Whole, Field(ge=0)]
    """Revision of the draft that the request was made on."""


class Edit(_Body):
    """Keys to change, all of them or none."""

    changes: Annotated[
        dict[Annotated[Text, Field(min_length=1, max_length=400)], Sent], Field(min_length=1, max_length=CHANGES)
    ]
    """Value by dotted path, as it would stand in the file; null takes a key out."""


class Step(_Body):
    """One step back or forward."""


class Save(_Body):
    """Write the draft to the file."""

    over: StrictBool = False
    """Write over a file that was changed outside."""
