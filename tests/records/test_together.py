"""Files that make sense together only: stopped at any moment, they are all there or none is."""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

import pytest

from generator.records import together
from generator.records.store import Meanwhile, Write
from generator.records.together import LIST, NoList, finish, is_unfinished, write_together
from tests.records.test_store import tree


def writes(folder: Path) -> list[Write]:
    return [
        Write(folder / "new" / "b.yml", b"b"),
        Write(folder / "a.yml", b"after", b"before"),
        Write(folder / "c.yml", b"c"),
    ]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "a.yml").write_bytes(b"before")
    return tmp_path


DONE = {"new": b"/", "new/b.yml": b"b", "a.yml": b"after", "c.yml": b"c"}


def test_all_are_written_and_nothing_else_is_left(folder: Path) -> None:
    write_together(folder, writes(folder))
    assert tree(folder) == DONE
    assert finish(folder) == 0


class Stopped(BaseException):
    """As if the program were killed: nothing is put back."""


def test_what_was_stopped_with_its_list_is_finished(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object) -> None:
        (folder / LIST).write_bytes((folder / LIST).read_bytes())
        kept.update(tree(folder))
        raise Stopped

    kept: dict[str, bytes] = {}
    monkeypatch.setattr(together, "_named", stopped)
    with pytest.raises(Stopped):
        write_together(folder, writes(folder))
    monkeypatch.undo()
    for number in range(4):  # as many of them as had their name
        _laid(folder, kept)
        entries = json.loads(kept[LIST])
        for each in entries[:number]:
            (folder / each["fresh"]).replace(folder / each["path"])
        assert is_unfinished(folder)
        assert finish(folder) == 3
        assert tree(folder) == DONE, number
        assert not is_unfinished(folder)


def _laid(folder: Path, files: dict[str, bytes]) -> None:
    for name in sorted(tree(folder), reverse=True):
        (folder / name).rmdir() if (folder / name).is_dir() else (folder / name).unlink()
    for name, data in sorted(files.items()):
        if data == b"/":
            (folder / name).mkdir()
        else:
            (folder / name).write_bytes(data)


def test_what_somebody_wrote_since_stays(folder: Path) -> None:
    (folder / ".c.new").write_bytes(b"c")
    hashed = {"before": "", "after": sha256(b"c").hexdigest()}
    (folder / LIST).write_text(json.dumps([{"path": "c.yml", "fresh": ".c.new", **hashed}]), encoding="utf-8")
    (folder / "c.yml").write_bytes(b"mine")
    assert finish(folder) == 1
    assert tree(folder) == {"a.yml": b"before", "c.yml": b"mine"}


def test_another_that_is_writing_stops_it_before_it_begins(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(together, "finish", lambda _: 0)
    (folder / LIST).write_bytes(b"[]")
    with pytest.raises(Meanwhile) as late:
        write_together(folder, writes(folder))
    assert late.value.path == folder / LIST
    assert tree(folder) == {"a.yml": b"before", LIST: b"[]"}


def test_where_one_may_not_be_written_none_is(folder: Path) -> None:
    (folder / "c.yml").write_bytes(b"mine")
    with pytest.raises(Meanwhile):
        write_together(folder, writes(folder))
    assert tree(folder) == {"a.yml": b"before", "c.yml": b"mine"}


@pytest.mark.parametrize(
    "text",
    [
        "no list",
        "[1]",
        '[{"path": "a.yml"}]',
        '[{"path": "../out.yml", "fresh": "a.yml", "before": "", "after": "x"}]',
        '[{"path": "b.yml", "fresh": "/etc/hostname", "before": "", "after": "x"}]',
    ],
)
def test_a_stranger_s_list_is_not_followed(folder: Path, text: str) -> None:
    (folder / LIST).write_text(text, encoding="utf-8")
    with pytest.raises(NoList):
        finish(folder)
    assert tree(folder) == {"a.yml": b"before", LIST: text.encode()}
