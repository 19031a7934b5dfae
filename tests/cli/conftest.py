"""What the tests of commands share."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.cli.new import asking
from tests.cli.fresh import run


@pytest.fixture
def fresh(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A new bench without an example, and we stand in it."""
    monkeypatch.chdir(tmp_path)
    assert run("new", "bench", "b").exit_code == 0
    monkeypatch.chdir(tmp_path / "b")
    return tmp_path / "b"


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """There is a person to ask."""
    monkeypatch.setattr(asking, "has_terminal", lambda: True)
