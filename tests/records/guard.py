"""A guard against hangs: a test that is caught in a loop ends with a traceback of where it was."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


class Hangs(Exception):
    """It has run far longer than anything of its kind does."""


@contextmanager
def guarded(seconds: int) -> Iterator[None]:
    """Stop what runs longer; where the machine has no alarm, nothing is guarded."""
    if not hasattr(signal, "SIGALRM"):
        yield
        return

    def stop(_: int, __: FrameType | None) -> None:
        raise Hangs(f"still running after {seconds} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
