from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.tree import KEPT, RecordFile, Tree, survey


def tree(folder: Path, *names: str) -> Path:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("x: y\n", encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("name", "kind", "called", "report"),
    [
        ("bench.yml", "settings", "bench", ""),
        ("instruments/logger-1.yml", "instruments", "logger-1", ""),
        ("instruments/logger-1.import.yml", "hints", "logger-1", ""),
        ("methods/closed-box-heating/12.yml", "methods", "closed-box-heating/12", ""),
        ("items/okvarn-ih30.yml", "items", "okvarn-ih30", ""),
        ("sittings/2026-03-09.yml", "sittings", "2026-03-09", ""),
        ("sittings/2026-03-09-b.yml", "sittings", "2026-03-09-b", ""),
        ("older/before-2024.yml", "older", "before-2024", ""),
        ("2026-x/report.yml", "reports", "2026-x", "2026-x"),
        ("2026-x/links.yml", "links", "2026-x", "2026-x"),
        ("2026-x/runs/a-1.yml", "runs", "a-1", "2026-x"),
        ("2026-x/editions/1.yml", "editions", "1", "2026-x"),
    ],
)
def test_each_record_by_its_place(tmp_path: Path, name: str, kind: str, called: str, report: str) -> None:
    files = {"2026-x/report.yml", name} if report else {name}
    found = survey(tree(tmp_path, *files))
    assert found.faults == ()
    assert RecordFile(tmp_path / name, kind, called, report) in found.records  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("items/okvarn_ih30.yml", "the file's name is the record's id"),
        ("items/" + "a" * 41 + ".yml", "the file's name is the record's id"),
        ("items/okvarn.yaml", "records end in .yml; rename it to okvarn.yml"),
        ("items/control.yml", "'control' stands for runs without an item"),
        ("items/more/okvarn.yml", "no record has its place here"),
        ("sittings/march.yml", "a sitting's file is named by its date"),
        ("sittings/2026-03-09-a.yml", "a sitting's file is named by its date"),
        ("methods/heating/01.yml", "a method's file is named by its version"),
        ("methods/heating.yml", "a method is a folder with a file for each version; move it to methods/hea"),
        ("2026-x/runs/A.yml", "the file's name is the record's id"),
        ("2026-x/run.yml", "no record has its place here; a report has report.yml"),
        ("2026-x/editions/first.yml", "an edition's file is named by its number"),
        ("stray.yml", "no record has its place here"),
    ],
)
def test_a_name_or_place_that_no_record_has(tmp_path: Path, name: str, told: str) -> None:
    (fault,) = survey(tree(tmp_path, "2026-x/report.yml", name)).faults
    assert fault.what.startswith(told)
    assert fault.place.file == tmp_path / name
    assert fault.place.line == 0


def test_a_report_cannot_have_the_name_of_a_folder_for_other_records(tmp_path: Path) -> None:
    for name in sorted(set(KEPT) - {"pages", "site_templates"}):
        (fault,) = survey(tree(tmp_path / name, f"{name}/report.yml")).faults
        assert fault.what == f"'{name}' is kept for other records; a report needs another name"


def test_the_folder_of_a_report_is_its_id(tmp_path: Path) -> None:
    (fault,) = survey(tree(tmp_path, "Fuse holders/report.yml")).faults
    assert fault.what.startswith("the folder's name is the report's id")


def test_runs_without_a_report(tmp_path: Path) -> None:
    (fault,) = survey(tree(tmp_path, "2026-x/runs/a.yml")).faults
    assert (fault.place.file, fault.what) == (
        tmp_path / "2026-x",
        "this folder holds records of a report and no report.yml, which asks its question",
    )


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("2026-x/photos/Lever.jpg", "2026-x/photos/lever.jpg"),
        ("2026-x/photos/ma\u00df.jpg", "2026-x/photos/MASS.jpg"),
        ("2026-x/photos/e\u0301.jpg", "2026-x/photos/\u00e9.jpg"),
    ],
)
def test_names_that_are_one_to_many_machines(tmp_path: Path, first: str, second: str) -> None:
    (fault,) = survey(tree(tmp_path, "2026-x/report.yml", first, second)).faults
    told = f"{fault.place.file.name} {fault.what}"
    assert Path(first).name in told
    assert Path(second).name in told


def test_what_is_no_record_is_left_alone(tmp_path: Path) -> None:
    names = (
        "pages/notes.yml",
        "site_templates/a.yml",
        ".cache/a.yml",
        "2026-x/originals/meter.csv",
        "readme.md",
    )
    assert survey(tree(tmp_path, *names)) == Tree((), (), ())


def test_readings_beside_runs_and_sittings(tmp_path: Path) -> None:
    tree(tmp_path, "2026-x/report.yml", "2026-x/runs/b.csv", "2026-x/runs/a.csv", "sittings/zero.csv")
    assert [each.relative_to(tmp_path).as_posix() for each in survey(tmp_path).csv] == [
        "2026-x/runs/a.csv",
        "2026-x/runs/b.csv",
        "sittings/zero.csv",
    ]
