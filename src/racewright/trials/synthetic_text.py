"""An invented record as the lines of a logger's text file."""

from __future__ import annotations

from collections.abc import Iterator

from racewright.errors import InputError
from racewright.trials.synthetic import Campaign
from racewright.trials.synthetic_truth import INVENTED


def logger_lines(campaign: Campaign, *, decimal_comma: bool = False, junk: int = 4) -> Iterator[str]:
    """Lines of a text file, without line ends.

    First `junk` lines of header clutter, one that says the record is invented, a row of names, a row of units,
    a row that marks every column as invented; then one row per reading of the fastest channel. A slower channel
    leaves blanks between its readings, and so does a drop-out.

    Parameters
    ----------
    campaign : Campaign
    decimal_comma : bool
        Commas in numbers and semicolons between cells; else points and commas.
    junk : int
        Lines of clutter, 0 or more [-].
    """
    if junk < 0:
        raise InputError(f"{junk} lines of clutter; wanted 0 or more")
    mark = ";" if decimal_comma else ","
    sensors, rate = campaign.plan.sensors, campaign.plan.rate
    for k in range(junk):
        yield ("Recorder serial 0000", "Operator: nobody", "", "Trigger=free run\tbuffer 4096")[k % 4]
    yield f"# {INVENTED}; seed {campaign.seed}"
    yield mark.join(["time", *(s.name for s in sensors)])
    yield mark.join(["s", *(s.raw_unit for s in sensors)])
    yield mark.join(["invented"] * (len(sensors) + 1))
    steps = [round(rate / s.rate) for s in sensors]
    for chunk in campaign.chunks():
        columns = [(chunk.values[s.name], chunk.missing.get(s.name)) for s in sensors]
        for i in range(max(v.size * n for (v, _), n in zip(columns, steps, strict=True))):
            cells = [f"{chunk.start + i / rate:.4f}"]
            for (values, missing), step in zip(columns, steps, strict=True):
                place, rest = divmod(i, step)
                blank = rest or (missing is not None and missing[place])
                cells.append("" if blank else f"{values[place]:.7g}")
            line = mark.join(cells)
            yield line.replace(".", ",") if decimal_comma else line
