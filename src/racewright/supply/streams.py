"""Random numbers by name: what one name draws does not depend on which other names there are."""

from __future__ import annotations

import hashlib

import numpy as np

from racewright.errors import InputError


def stream(seed: int, *names: str | int) -> np.random.Generator:
    """A generator of its own for (seed, names).

    Adding a case, a cause or an input therefore leaves the draws of the others as they were.

    Parameters
    ----------
    seed : int
        0 or more.
    names : str or int
        Such as the case, the cause and the number of the machine; order counts.

    Raises
    ------
    InputError
        A seed that is negative or no whole number.
    """
    if isinstance(seed, bool) or not isinstance(seed, int) or seed < 0:
        raise InputError(f"the seed is {seed!r}; wanted a whole number of 0 or more")
    text = "\x1f".join(f"{type(name).__name__}:{name}" for name in names)
    words = np.frombuffer(hashlib.sha256(text.encode()).digest(), dtype="<u4")
    return np.random.Generator(np.random.PCG64(np.random.SeedSequence((seed, *words.tolist()))))
