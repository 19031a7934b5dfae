"""New files come all together or not at all, and never over one that exists."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.store import Occupied, write_new


def test_a_link_to_nothing_is_in_the_way_too(tmp_path: Path) -> None:
    (tmp_path / "a.yml").symlink_to(tmp_path / "nowhere")
    with pytest.raises(Occupied, match=r"a\.yml exists already"):
        write_new({tmp_path / "a.yml": b"x"})
    assert not (tmp_path / "nowhere").exists()


def test_a_file_that_came_meanwhile_stays_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    mine = tmp_path / "folder" / "b.yml"
    exists = Path.exists

    def late(path: Path) -> bool:
        if path == mine and not exists(mine):
            mine.parent.mkdir(exist_ok=True)
            mine.write_bytes(b"theirs")
            return False
        return exists(path)

    monkeypatch.setattr(Path, "exists", late)
    with pytest.raises(Occupied, match=r"b\.yml exists already"):
        write_new({tmp_path / "a.yml": b"ours", mine: b"ours"})
    assert mine.read_bytes() == b"theirs"
    assert not exists(tmp_path / "a.yml")


def test_what_stops_it_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened = Path.open

    def stopped(path: Path, mode: str) -> object:
        if path.name.startswith(".b.yml"):
            raise KeyboardInterrupt
        return opened(path, mode)

    monkeypatch.setattr(Path, "open", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_new({tmp_path / "new" / "a.yml": b"x", tmp_path / "new" / "b.yml": b"x"})
    assert list(tmp_path.iterdir()) == []
