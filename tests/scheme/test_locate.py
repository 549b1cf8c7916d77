"""The key locator against TOML's harder spellings."""

from __future__ import annotations

from racewright.scheme.locate import key_lines, line_of

TEXT = '''# first
a = 1
"b c" = """
fake = 2
[not.a.table]
"""
list = [
  "x = 1",  # ] comment
  [1, 2],
]
[t.one]
k = 'it''s'
d.e = 3
  [ t . "two" ]
s = "a # b \\" = c"
z = 1
[[many]]
v = {p = 1, q = "r"}
'''


def test_lines() -> None:
    lines = key_lines(TEXT.replace("'it''s'", "'its'"))
    assert lines[("a",)] == 2
    assert lines[("b c",)] == 3
    assert ("fake",) not in lines
    assert lines[("list",)] == 7
    assert lines[("t", "one")] == 11
    assert lines[("t", "one", "d", "e")] == 13
    assert lines[("t", "two", "z")] == 16
    assert lines[("many", "v")] == 18


def test_falls_back_to_the_parent() -> None:
    lines = key_lines("[t]\nk = {p = 1}\n")
    assert line_of(lines, ("t", "k", "p")) == 2
    assert line_of(lines, ("u", "k")) is None
