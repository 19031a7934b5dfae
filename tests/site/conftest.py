"""The demo site, built once, by the way that a reader's site is built."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.host.build import build

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built demo site."""
    return build(ROOT, strict=True, site_dir=tmp_path_factory.mktemp("demo") / "site")
