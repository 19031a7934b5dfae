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


@pytest.mark.parametrize(
    ("name", "at", "told", "meant"),
    [
        (
            "items/Halvenor_C2.yml",
            "",
            "hyphens, 40 at most; rename it to halvenor-c2.yml",
            ("items", "halvenor-c2"),
        ),
        ("items/M\u00fcller.yml", "", "hyphens, 40 at most; rename it to muller.yml", ("items", "muller")),
        ("items/\u65e5.yml", "", "hyphens, 40 at most", ("items", "")),
        ("items/a.YML", "", "records end in .yml; rename it to a.yml", ("items", "a")),
        ("items/a.yml.txt", "", "records end in .yml; rename it to a.yml", ("items", "a")),
        ("items/a.yaml", "", "records end in .yml; rename it to a.yml", ("items", "a")),
        ("methods/m/v2.yml", "", "named by its version; rename it to 2.yml", ("methods", "m/2")),
        ("methods/m.yml", "", "move it to methods/m/1.yml", ("methods", "m/1")),
        ("methods/My M/1.yml", "methods/My M", "40 at most; rename it to my-m", ("methods", "my-m/1")),
        ("Items/a.yml", "Items", "no folder of records is called so; rename it to items", ("items", "a")),
        ("instrument/a.yml", "instrument", "is called so; rename it to instruments", ("instruments", "a")),
        ("r/Report.yml", "", "it is called report.yml, in small letters; rename it", ("reports", "r")),
        ("r/report.yaml", "", "records end in .yml; rename it to report.yml", ("reports", "r")),
        ("My R/report.yml", "My R", "40 at most; rename it to my-r", ("reports", "my-r")),
        ("sittings/today.yml", "", "the second of a day 2026-03-09-b.yml", ("sittings", "today")),
    ],
)
def test_a_wrong_name_is_told_once_with_the_right_one_and_what_it_was_to_be(
    tmp_path: Path, name: str, at: str, told: str, meant: tuple[str, str]
) -> None:
    found = survey(tree(tmp_path, name))
    (fault,) = found.faults
    assert fault.what.endswith(told)
    assert fault.place.file == tmp_path / (at or name)
    assert [(each.kind, each.name) for each in found.meant if isinstance(each, RecordFile)] == [meant]


def test_a_folder_with_a_wrong_name_is_told_once_whatever_is_in_it(tmp_path: Path) -> None:
    found = survey(tree(tmp_path, "My_R/report.yml", "My_R/runs/a.yml", "My_R/runs/b.yml"))
    assert [each.place.file.name for each in found.faults] == ["My_R"]
    assert [(each.kind, each.name, each.report) for each in found.meant if isinstance(each, RecordFile)] == [
        ("reports", "my-r", "my-r"),
        ("runs", "a", "my-r"),
        ("runs", "b", "my-r"),
    ]


@pytest.mark.parametrize("name", ["runs/x/a.yml", "a.yml"])
def test_a_run_in_a_wrong_place_of_its_report(tmp_path: Path, name: str) -> None:
    found = survey(tree(tmp_path, "r/report.yml", f"r/{name}"))
    assert [(each.kind, each.name) for each in found.meant if isinstance(each, RecordFile)] == [("runs", "a")]
    assert len(found.faults) == 1


def test_a_report_may_be_called_nearly_like_a_folder_of_records(tmp_path: Path) -> None:
    found = survey(tree(tmp_path, "holder/report.yml", "holder/runs/a.yml"))
    assert (found.faults, len(found.records)) == ((), 2)


def test_readings_with_another_ending(tmp_path: Path) -> None:
    found = survey(tree(tmp_path, "r/report.yml", "r/runs/LOG1.CSV", "r/originals/LOG2.CSV"))
    assert [each.what for each in found.faults] == ["readings end in .csv; rename it to LOG1.csv"]
    assert found.meant == (tmp_path / "r" / "runs" / "LOG1.csv",)


def test_what_stands_under_a_name_that_cannot_be_read_was_meant_all_the_same(tmp_path: Path) -> None:
    tree(tmp_path, "r/report.yml")
    (tmp_path / "items").mkdir()
    (tmp_path / "items" / "a.yml").symlink_to("gone")
    (tmp_path / "r" / "runs").mkdir()
    (tmp_path / "r" / "runs" / "a.csv").symlink_to("gone")
    found = survey(tmp_path)
    assert len(found.faults) == 2
    assert found.meant == (
        RecordFile(tmp_path / "items" / "a.yml", "items", "a"),
        tmp_path / "r" / "runs" / "a.csv",
    )


def test_readings_beside_runs_and_sittings(tmp_path: Path) -> None:
    tree(tmp_path, "2026-x/report.yml", "2026-x/runs/b.csv", "2026-x/runs/a.csv", "sittings/zero.csv")
    assert [each.relative_to(tmp_path).as_posix() for each in survey(tmp_path).csv] == [
        "2026-x/runs/a.csv",
        "2026-x/runs/b.csv",
        "sittings/zero.csv",
    ]
