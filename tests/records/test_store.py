"""Writing files: all or none, never over what changed meanwhile, nothing left behind."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from generator.records.store import Meanwhile, Write, left_behind, write_all


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b"/"
        for path in folder.rglob("*")
    }


def test_new_and_changed_files_are_written_with_their_folders(tmp_path: Path) -> None:
    (tmp_path / "a.yml").write_bytes(b"old")
    (tmp_path / "a.yml").chmod(0o640)
    write_all([Write(tmp_path / "x" / "y" / "b.csv", b"b"), Write(tmp_path / "a.yml", b"new", b"old")])
    assert tree(tmp_path) == {"x": b"/", "x/y": b"/", "x/y/b.csv": b"b", "a.yml": b"new"}
    assert (tmp_path / "a.yml").stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("there", [b"otherwise", None])
def test_a_file_that_changed_meanwhile_stops_all_of_them(tmp_path: Path, there: bytes | None) -> None:
    if there is not None:
        (tmp_path / "a.yml").write_bytes(there)
    before = tree(tmp_path)
    with pytest.raises(Meanwhile) as stop:
        write_all([Write(tmp_path / "x" / "b.csv", b"b"), Write(tmp_path / "a.yml", b"new", b"old")])
    assert stop.value.path == tmp_path / "a.yml"
    assert tree(tmp_path) == before


def test_a_new_file_is_put_over_none(tmp_path: Path) -> None:
    (tmp_path / "b.csv").write_bytes(b"somebody's")
    with pytest.raises(Meanwhile):
        write_all([Write(tmp_path / "b.csv", b"b")])
    assert tree(tmp_path) == {"b.csv": b"somebody's"}


def test_what_was_done_is_undone_where_the_machine_refuses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.yml").write_bytes(b"old")
    before = tree(tmp_path)
    link = os.link

    def refuses(fresh: Path, target: Path) -> None:
        if target.name == "c.yml":
            raise OSError(28, "No space left on device")
        link(fresh, target)

    monkeypatch.setattr(os, "link", refuses)
    with pytest.raises(OSError, match="No space"):
        write_all(
            [
                Write(tmp_path / "x" / "b.csv", b"b"),
                Write(tmp_path / "a.yml", b"new", b"old"),
                Write(tmp_path / "c.yml", b"c"),
            ]
        )
    assert tree(tmp_path) == before


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.yml").write_bytes(b"old")
    (tmp_path / "a.yml").symlink_to("real.yml")
    write_all([Write(tmp_path / "a.yml", b"new", b"old")])
    assert (tmp_path / "a.yml").is_symlink()
    assert (tmp_path / "real.yml").read_bytes() == b"new"


def test_where_files_have_one_name_alone_a_new_file_is_put_over_none_either(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuses(_: Path, __: Path) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuses)
    write_all([Write(tmp_path / "a.yml", b"a")])
    assert tree(tmp_path) == {"a.yml": b"a"}
    opened = Path.open

    def late(path: Path, mode: str) -> object:
        if mode == "xb":
            path.write_bytes(b"theirs")
        return opened(path, mode)

    monkeypatch.setattr(Path, "open", late)
    with pytest.raises(Meanwhile):
        write_all([Write(tmp_path / "b.yml", b"ours")])
    assert tree(tmp_path) == {"a.yml": b"a", "b.yml": b"theirs"}


def test_what_was_left_beside_a_place_is_found_below(tmp_path: Path) -> None:
    (tmp_path / "x" / "editions").mkdir(parents=True)
    for name in (".2.yml.4711.new", "3.yml", ".DS_Store"):
        (tmp_path / "x" / "editions" / name).write_bytes(b"")
    assert [path.name for path in left_behind(tmp_path)] == [".2.yml.4711.new"]
