"""A new bench: all its files or none, and nothing that exists is changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.intake.new_bench import Occupied, new_bench


def test_it_holds_what_a_bench_begins_with(tmp_path: Path) -> None:
    written = {path.relative_to(tmp_path).as_posix() for path in new_bench(tmp_path, ("bench",))}
    assert {
        "mkdocs.yml",
        "reports/bench.yml",
        "reports/pages/about.md",
        ".gitignore",
        ".gitattributes",
    } <= written
    assert len((tmp_path / "mkdocs.yml").read_text(encoding="utf-8").splitlines()) <= 8


def test_the_example_adds_one_of_each(tmp_path: Path) -> None:
    new_bench(tmp_path, ("bench", "example"))
    reports = tmp_path / "reports"
    assert len(list(reports.glob("methods/*/*.yml"))) == 1
    assert len(list(reports.glob("instruments/*.yml"))) == 2
    assert len(list(reports.glob("items/*.yml"))) == 2
    assert len(list(reports.glob("*/runs/*.yml"))) == 4


def test_a_file_in_the_way_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    (tmp_path / "reports").mkdir()
    (tmp_path / "reports" / "bench.yml").write_text("mine\n", encoding="utf-8")
    with pytest.raises(Occupied, match=r"reports/bench\.yml"):
        new_bench(tmp_path, ("bench", "example"))
    assert (tmp_path / "reports" / "bench.yml").read_text(encoding="utf-8") == "mine\n"
    assert [path.name for path in tmp_path.iterdir()] == ["reports"]


def test_a_second_bench_in_one_folder_is_refused(tmp_path: Path) -> None:
    new_bench(tmp_path, ("bench",))
    with pytest.raises(Occupied):
        new_bench(tmp_path, ("bench",))


def test_only_the_first_files_in_the_way_are_named(tmp_path: Path) -> None:
    new_bench(tmp_path, ("bench", "example"))
    with pytest.raises(Occupied) as taken:
        new_bench(tmp_path, ("bench", "example"))
    assert str(taken.value).endswith(".gitignore and 24 more exist already, so nothing was written.")


@pytest.mark.parametrize("part", ["reports", "reports/pages/about.md", "reports/bench.yml"])
def test_where_the_machine_refuses_one_file_nothing_is_left_of_the_others(
    part: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, opened = Path.mkdir, Path.open

    def mkdir(path: Path) -> None:
        refuse(path)
        made(path)

    def open_(path: Path, mode: str = "r") -> object:
        refuse(path)
        return opened(path, mode)

    def refuse(path: Path) -> None:
        if path.as_posix().endswith(f"bench/{part}"):
            raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "mkdir", mkdir)
    monkeypatch.setattr(Path, "open", open_)
    with pytest.raises(PermissionError):
        new_bench(tmp_path / "above" / "bench", ("bench",))
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_was_there_before_stays(tmp_path: Path) -> None:
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "reports").write_text("a file\n", encoding="utf-8")
    with pytest.raises(OSError, match="exists"):
        new_bench(tmp_path / "b", ("bench",))
    assert [path.name for path in (tmp_path / "b").iterdir()] == ["reports"]
