"""Pin the thread counts of BLAS and compiled kernels; import this before anything loads NumPy."""

from __future__ import annotations

import os
from typing import Final

THREADS: Final = "1"
"""Threads a process may use in BLAS and kernels: more is slower here (small systems) and changes last digits."""

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "NUMBA_NUM_THREADS"):
    os.environ[_name] = THREADS
