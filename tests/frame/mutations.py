"""Hostile schemes and records: text of the example changed at random, the same for the same seed."""

from __future__ import annotations

import random
import re

VALUES = (
    '""',
    '"1,5 m"',
    '"1 kg"',
    "1",
    "-1",
    '"-1 m"',
    "nan",
    "inf",
    "-inf",
    '"nan m"',
    '"inf m"',
    '"1e999 m"',
    '"1e-999 m"',
    "1e308",
    "9223372036854775807",
    "0x" + "f" * 5000,
    "1" * 5000,
    "9" * 400,
    "0",
    "true",
    "[]",
    "{}",
    "[[[]]]",
    "{a = {b = 1}}",
    "1979-05-27",
    "1979-05-27T07:32:00Z",
    '"\\u0000"',
    '"\\uFFFF"',
    '"\\U0001F600 m"',
    '"\u0661 m"',
    '"\u00b2"',
    '"\u202e m"',
    '"../../etc/passwd"',
    '"/etc/passwd"',
    '"/dev/zero"',
    '"/dev/stdin"',
    '"."',
    '""',
    '" "',
    '"discharge.csv/x"',
    '"con\\u0000"',
    '"~/x.csv"',
    '"$(touch x)"',
    '"<script>alert(1)</script>"',
    '"#import \\"x\\""',
    '"{{ 7*7 }}"',
    '"\\n\\n"',
    "'''x\ny'''",
    '"' + "a" * 3000 + '"',
    '"' + "0" * 5000 + ' m"',
    '"1 m/s"',
    '"1 EUR"',
    '"1 USD/L"',
    '"15 degC"',
    '"100 %"',
    '"0 m"',
    '"1e2 m"',
    '"0x10 m"',
    '"1_000 m"',
    '"1 m; 2"',
    '"9**9 m"',
    '"histogram"',
    '"speed"',
    '"sea"',
    '"+14:00"',
    '"+99:99"',
)
LINES = (
    "[",
    "]",
    "[case]",
    "[place]",
    "[machine.river_unit]",
    "[[machine.river_unit]]",
    '[case.""]',
    "[case.'a b']",
    "format = 1",
    "format = 3",
    "format = 0",
    "format = true",
    'format = "1"',
    "a.b.c.d = 1",
    '"" = 1',
    "= 1",
    "x",
    '"""',
    "'''",
    "[case.second]\nplace = 'otter_bend'",
    "[place.otter_bend.extra]",
    "[community.landing.diesel.x]",
    "\ufeff",
    "\r",
    "\x00",
    "a = " + "[" * 300 + "]" * 300,
    "a = " + "{b = " * 200 + "1" + "}" * 200,
    "a" + ".a" * 500 + " = 1",
    "[" + "a." * 400 + "b]",
    "a = " + "[" * 30000,
)
CELLS = (
    "",
    " ",
    "nan",
    "NaN",
    "inf",
    "-1",
    "1e400",
    "1e999",
    "1,5",
    '"',
    '"1"',
    "\u0661",
    "1_0",
    "0x1",
    "--",
    "9" * 400,
    "true",
    "2012-13-01",
    "2012-02-30",
    "0000-01-01",
    "9999-12-31",
    "2012-01-01T25:00",
    "2012-01-01T00:00:00Z",
    "2012-01-01 00:00",
    "2012-01-01T00:00:00+14:00",
    "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00",
    "\x00",
    "\u202e",
    "a" * 5000,
    "=1+1",
    "<b>",
)


def scheme(rng: random.Random, text: str) -> bytes:
    """A scheme with one to four changes; now and then random bytes."""
    lines = text.splitlines()
    for _turn in range(rng.choice((1, 1, 1, 2, 4))):
        _change_scheme(rng, lines)
    data = "\n".join(lines).encode("utf-8", "surrogatepass")
    return _bytes(rng, data) if rng.random() < 0.1 else data


def _change_scheme(rng: random.Random, lines: list[str]) -> None:
    keyed = [i for i, line in enumerate(lines) if re.match(r"\w+ *=", line)]
    at = rng.randrange(len(lines)) if not keyed or rng.random() < 0.3 else rng.choice(keyed)
    kind = rng.random()
    if kind < 0.45 and "=" in lines[at]:
        lines[at] = lines[at].split("=")[0] + "= " + rng.choice(VALUES)
    elif kind < 0.6 and "=" in lines[at]:
        lines[at] = _nudged(rng, lines[at])
    elif kind < 0.7 and len(lines) > 1:
        del lines[at]
    elif kind < 0.78:
        lines.insert(at, lines[rng.randrange(len(lines))])
    elif kind < 0.9:
        lines.insert(at, rng.choice(LINES))
    else:
        key, sign, rest = lines[at].partition("=")
        place = rng.randrange(len(key) + 1)
        lines[at] = (
            key[:place] + chr(rng.choice((95, 97, 46, 233, 0x4E00, 0x1F600, 34, 9))) + key[place:] + sign + rest
        )


def _nudged(rng: random.Random, line: str) -> str:
    """Another number of the same kind, often still sound."""
    factor = rng.choice((0.0, 0.5, 0.9, 0.99, 1.01, 1.1, 2.0, 10.0, -1.0, 1e3, 1e-3, 1e9))
    key, _, rest = line.partition("=")
    return key + "=" + re.sub(r"\d+(\.\d+)?", lambda m: f"{float(m[0]) * factor:.6g}", rest, count=1)


def record(rng: random.Random, text: str) -> bytes:
    """A CSV file with one to four changes; now and then random bytes."""
    rows = [line.split(",") for line in text.splitlines()]
    for _turn in range(rng.choice((1, 1, 2, 4))):
        row = rng.choice((0, rng.randrange(len(rows))))
        kind = rng.random()
        if kind < 0.6:
            rows[row][rng.randrange(len(rows[row]))] = rng.choice(CELLS)
        elif kind < 0.7 and len(rows) > 1:
            del rows[row]
        elif kind < 0.8:
            rows.insert(row, list(rows[rng.randrange(len(rows))]))
        elif kind < 0.9:
            rows[row].append(rng.choice(CELLS))
        else:
            rows.insert(row, [rng.choice(("#", ";", "\t", "# a comment", "", "\ufeff", "\r"))])
    joint = rng.choice((",", ",", ",", ";", "\t", "|"))
    data = rng.choice(("\n", "\n", "\r\n", "\r")).join(joint.join(row) for row in rows).encode("utf-8")
    return _bytes(rng, data) if rng.random() < 0.1 else data


def _bytes(rng: random.Random, data: bytes) -> bytes:
    """Damage of the bytes themselves."""
    kind = rng.randrange(4)
    if kind == 0:
        return data[: rng.randrange(len(data) + 1)]
    if kind == 1:
        return rng.randbytes(rng.randrange(400))
    if kind == 2:
        return data.decode("utf-8").encode("utf-16")
    damaged = bytearray(data or b" ")
    for _turn in range(rng.randrange(1, 8)):
        damaged[rng.randrange(len(damaged))] = rng.randrange(256)
    return bytes(damaged)
