"""Kill a process that saves, somewhere in mid-save, and look what is left of the scheme."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

from racewright.desk.keeper.keeper import Keeper
from racewright.scheme import load_scheme

_CHILD = """
import sys
from pathlib import Path
from racewright.desk.keeper.keeper import Keeper
keeper = Keeper(Path(sys.argv[1]))
print("ready", flush=True)
for turn in range(100000):
    changes = {"machine.river_unit.vanes.turned": f"{turn % 20} deg", "title": "x" * (turn % 1500)}
    keeper.edit(changes, keeper.revision)
    keeper.save(keeper.revision)
"""


def whole_after_kills(scheme: Path, kills: int) -> int:
    """How many kills in mid-save left a scheme that loads, and a keeper that starts.

    Parameters
    ----------
    scheme : Path
        An example's scheme; it changes.
    kills : int
    """
    whole = 0
    for turn in range(kills):
        process = subprocess.Popen([sys.executable, "-c", _CHILD, str(scheme)], stdout=subprocess.PIPE)
        assert process.stdout is not None
        assert process.stdout.readline() == b"ready\n"
        time.sleep(0.05 + 0.013 * (turn % 11))
        process.kill()
        process.wait()
        process.stdout.close()
        load_scheme(scheme)
        Keeper(scheme)
        whole += 1
    return whole
