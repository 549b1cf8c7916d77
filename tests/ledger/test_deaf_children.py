"""Ctrl-C while worker processes start: theirs is left to the parent, and the parent's is not lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator

import pytest

from racewright.ledger.graph import _deaf_children


@pytest.fixture(autouse=True)
def heard() -> Iterator[None]:
    """The usual handler, whatever the suite was started with."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def test_an_interrupt_while_a_worker_starts_is_raised_afterwards() -> None:
    with pytest.raises(KeyboardInterrupt), _deaf_children():
        os.kill(os.getpid(), signal.SIGINT)
    assert signal.SIGINT not in signal.pthread_sigmask(signal.SIG_BLOCK, ())


def test_a_worker_does_not_hear_it() -> None:
    code = "print('up', flush=True); input(); print('whole')"
    with _deaf_children():
        worker = subprocess.Popen([sys.executable, "-c", code], stdin=-1, stdout=-1, text=True)
    with worker:
        assert worker.stdout is not None
        assert worker.stdout.readline() == "up\n"
        worker.send_signal(signal.SIGINT)
        told, _none = worker.communicate("\n", timeout=30)
    assert told == "whole\n"
    assert worker.returncode == 0
