"""What lies in the folders of a bench, however odd."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.fault import Fault
from generator.records.files import content, is_record_name, walk


def walked(folder: Path) -> tuple[list[str], list[str]]:
    """The files found and what was told, each by its path below the folder."""
    faults: list[Fault] = []
    files = [path.relative_to(folder).as_posix() for path in walk(folder, faults, lambda _: False)]
    return files, [f"{each.place.file.relative_to(folder).as_posix()}: {each.what}" for each in faults]


def test_files_come_sorted_and_what_belongs_to_editors_and_machines_is_left_alone(tmp_path: Path) -> None:
    for name in ("b.yml", "a/2.yml", "a/10.yml", ".run.yml.swp", "._b.yml", ".DS_Store", ".git/x.yml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("x: y\n", encoding="utf-8")
    (tmp_path / ".#b.yml").symlink_to("nobody@host.1")
    assert walked(tmp_path) == (["a/10.yml", "a/2.yml", "b.yml"], [])


def test_a_folder_a_dead_link_and_a_pipe_with_a_records_name_are_told_and_never_waited_for(
    tmp_path: Path,
) -> None:
    (tmp_path / "folder.yml").mkdir()
    (tmp_path / "folder.yml" / "inside.yml").touch()
    (tmp_path / "link.yml").symlink_to("gone.yml")
    (tmp_path / "round.yml").symlink_to("round.yml")
    os.mkfifo(tmp_path / "pipe.csv")
    os.mkfifo(tmp_path / "pipe")
    assert walked(tmp_path) == (
        [],
        [
            "folder.yml: this is a folder, and a record is a file; rename the folder or take it out",
            "link.yml: this is a link to a file that is not there; put the file itself here",
            "pipe.csv: this is no ordinary file; put a text file in its place",
            "round.yml: this is a link to a file that is not there; put the file itself here",
        ],
    )


def test_links_to_files_and_folders_are_followed_and_none_in_a_circle(tmp_path: Path) -> None:
    bench, elsewhere = tmp_path / "bench", tmp_path / "elsewhere"
    bench.mkdir()
    elsewhere.mkdir()
    (elsewhere / "a.yml").touch()
    (bench / "items").symlink_to(elsewhere)
    (bench / "b.yml").symlink_to(elsewhere / "a.yml")
    (elsewhere / "up").symlink_to(bench)
    assert walked(bench) == (
        ["b.yml", "items/a.yml"],
        ["items/up: this link leads back to a folder above it; take it out"],
    )


def test_a_folder_that_cannot_be_opened_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "closed").mkdir()
    (tmp_path / "open").mkdir()
    (tmp_path / "open" / "a.yml").touch()
    listed = Path.iterdir

    def iterdir(folder: Path) -> object:
        if folder.name == "closed":
            raise PermissionError(13, "Permission denied", str(folder))
        return listed(folder)

    monkeypatch.setattr(Path, "iterdir", iterdir)
    assert walked(tmp_path) == (["open/a.yml"], ["closed: the folder cannot be opened: permission denied"])


def test_the_content_of_what_is_no_file_is_a_fault(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", tmp_path / "none", tmp_path):
        assert isinstance(content(path, 10), Fault)


def test_a_file_that_is_far_too_long_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "long.yml"
    path.write_bytes(b"0123456789")
    assert content(path, 10) == b"0123456789"
    os.truncate(path, 50_000_000)
    fault = content(path, 2_000_000)
    assert isinstance(fault, Fault)
    assert fault.what == "the file has 50.0 MB; one of this type has 2 MB at most"


@pytest.mark.parametrize("name", ["a.yml", "A.YML", "a.yaml", "a.yml.txt", "a.CSV", "a.csv.txt"])
def test_names_of_records(name: str) -> None:
    assert is_record_name(name)


@pytest.mark.parametrize("name", ["a.yml~", "#a.yml#", "a.yml.bak", "Thumbs.db", "notes.txt", "yml", "a.jpg"])
def test_names_of_other_files(name: str) -> None:
    assert not is_record_name(name)
