"""Sites of benches of which nothing is published, or not all: what their drafts look like."""

from __future__ import annotations

from pathlib import Path

from generator.history.shelf import drafts_too
from generator.pages import make
from generator.pages.site import Site
from generator.records.bench import Bench


def made(bench: Bench) -> Site:
    """The site of a bench with its drafts."""
    return make.made(drafts_too(bench))


def site_of(folder: Path) -> Site:
    """The site of a bench's folder with its drafts."""
    return make.site_of(folder, drafts_too)
