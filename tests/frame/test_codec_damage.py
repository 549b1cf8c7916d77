"""A damaged or foreign cache value is a miss: never an error, never a wrong answer."""

from __future__ import annotations

import io
import random
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from racewright.ledger import codec
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import encode, sealed
from racewright.ledger.node import Node, node_key
from racewright.ledger.store import Store
from racewright.water import properties
from tests.frame.common import FULL, count

KEY = "ab" + "0" * 62
VALUE = (properties(281.15, "fresh"), np.linspace(0.0, 1.0, 7), np.array([True, False]), None, "text")


def written(folder: Path) -> tuple[Store, Path, bytes]:
    store = Store(folder, CLASSES)
    store.put(KEY, VALUE)
    path = next(folder.glob("??/*.npz"))
    return store, path, path.read_bytes()


def same(found: object) -> bool:
    return encode(found, KEY) == encode(VALUE, KEY)


def test_a_whole_value_is_found(tmp_path: Path) -> None:
    store, _path, _data = written(tmp_path)
    hit, value = store.get(KEY)
    assert hit
    assert same(value)


def test_every_truncation_is_a_miss(tmp_path: Path, record_property: Callable[[str, object], None]) -> None:
    store, path, data = written(tmp_path)
    lengths = range(0, len(data), 1 if FULL else 17)
    for length in lengths:
        path.write_bytes(data[:length])
        assert store.get(KEY) == (False, None), length
    record_property("measured", f"{len(lengths)} truncations")


def test_flipped_bits_are_a_miss_or_change_nothing(
    tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    store, path, data = written(tmp_path)
    bits = range(8 * len(data))
    chosen = bits if FULL else random.Random(1).sample(bits, 1500)
    for bit in chosen:
        damaged = bytearray(data)
        damaged[bit // 8] ^= 1 << (bit % 8)
        path.write_bytes(damaged)
        hit, value = store.get(KEY)
        assert not hit or same(value), bit
    record_property("measured", f"{len(chosen)} flipped bits")


def test_random_bytes_are_a_miss(tmp_path: Path) -> None:
    store, path, data = written(tmp_path)
    random_bytes = random.Random(2)
    for turn in range(count(100, 3000)):
        start = data[: random_bytes.randrange(200)] if turn % 2 else b""
        path.write_bytes(start + random_bytes.randbytes(random_bytes.randrange(3000)))
        assert store.get(KEY) == (False, None)


def other_npz() -> bytes:
    stream = io.BytesIO()
    np.savez(stream, a=np.arange(3))
    return stream.getvalue()


def other_key() -> bytes:
    return encode(VALUE, "cd" + "0" * 62)


def sealed_npz() -> bytes:
    return sealed(other_npz())


def sealed_text() -> bytes:
    return sealed(b"not a zip file")


@pytest.mark.parametrize("foreign", [other_npz, other_key, sealed_npz, sealed_text])
def test_a_foreign_value_is_a_miss(tmp_path: Path, foreign: Callable[[], bytes]) -> None:
    store, path, _data = written(tmp_path)
    path.write_bytes(foreign())
    assert store.get(KEY) == (False, None)


def test_a_value_of_an_older_format_is_a_miss(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store, path, _data = written(tmp_path)
    monkeypatch.setattr(codec, "FORMAT", codec.FORMAT - 1)
    path.write_bytes(encode(VALUE, KEY))
    assert store.get(KEY)[0]
    monkeypatch.undo()
    assert store.get(KEY) == (False, None)


def test_a_value_with_an_unknown_class_or_field_is_a_miss(tmp_path: Path) -> None:
    _store, _path, _data = written(tmp_path)
    assert Store(tmp_path, {}).get(KEY) == (False, None)
    assert Store(tmp_path, {"Water": Node}).get(KEY) == (False, None)


def test_an_older_revision_has_another_key() -> None:
    keys = [node_key(Node("flow", revision, lambda _g, _t: None), {}, {}, {}) for revision in (1, 2)]
    assert keys[0] != keys[1]


def test_a_folder_in_the_place_of_a_value_is_a_miss(tmp_path: Path) -> None:
    store, path, _data = written(tmp_path)
    path.unlink()
    path.mkdir()
    assert store.get(KEY) == (False, None)
    store.put(KEY, VALUE)
    assert store.get(KEY) == (False, None)
