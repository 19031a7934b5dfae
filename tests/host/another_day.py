"""Builds the sample site in a folder of its own, as if on a given day; run by test_reproducible.py.

Usage: another_day.py FOLDER YYYY-MM-DD
"""

from __future__ import annotations

import sys
import time
from datetime import datetime as real
from datetime import timedelta, tzinfo
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import mkdocs.structure.pages
import mkdocs.utils

from generator.host import plugin
from generator.host.build import build
from tests.host import samples


def shift(day: str) -> None:
    """Move the clock that MkDocs asks to a given day, 23:30 UTC."""
    moved = real.fromisoformat(f"{day}T23:30:00+00:00") - real.fromtimestamp(time.time()).astimezone()

    class Shifted(real):
        """The clock that MkDocs asks, moved to the given day."""

        @classmethod
        def now(cls, tz: tzinfo | None = None) -> Shifted:
            return cls.fromtimestamp(time.time() + moved.total_seconds(), tz) + timedelta()

    mkdocs.utils.datetime = Shifted
    assert mkdocs.structure.pages.get_build_date() == day


def main(folder: Path, day: str) -> None:
    shift(day)
    plugin.generated = lambda bench, *, drafts: samples.site(3)  # noqa: ARG005
    build(samples.bench(folder))


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
