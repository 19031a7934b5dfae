"""Writing files: all or none, never over what changed meanwhile, nothing left behind."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.store import Meanwhile, Write, write_all


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
    replace = Path.replace

    def refuses(self: Path, target: Path) -> Path:
        if target.name == "c.yml":
            raise OSError(28, "No space left on device")
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", refuses)
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
