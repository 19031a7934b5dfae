"""A bench whose records are told by the test, not read."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.host import plugin
from generator.pages.site import Site
from tests.host import samples

Make = Callable[[Site], None]


@pytest.fixture
def make(monkeypatch: pytest.MonkeyPatch) -> Make:
    """Sets what the records of any bench give: `make(site)`."""

    def set_(site: Site) -> None:
        monkeypatch.setattr(plugin, "generated", lambda *_, **__: site)

    set_(samples.site())
    return set_


@pytest.fixture
def bench(tmp_path: Path, make: Make) -> Path:  # noqa: ARG001  # a bench without records to read
    return samples.bench(tmp_path / "bench")
