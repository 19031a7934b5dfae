"""What the tests of editions share."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.history.benches import REPORT, example, published


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The example bench without an edition, and we stand in it."""
    folder = example(tmp_path / "b")
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def once(bench: Path) -> Path:
    """The example bench with its first edition."""
    done = published(REPORT, "--date", "2026-02-01")
    assert done.exit_code == 0, done.output
    return bench
