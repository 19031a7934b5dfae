from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from generator.fault import Doubt
from generator.records.bench import Bench, NoBench, load
from generator.records.run import Run, Use
from generator.records.schema.references import CountOf
from tests.records.laid import GOOD, REPORT, RUN, SITTING, changed, good, laid, whats

BENCH = load(GOOD)


def test_a_folder_without_a_bench(tmp_path: Path) -> None:
    with pytest.raises(NoBench) as missing:
        load(tmp_path)
    assert missing.value.folder == tmp_path


def test_everything_is_on_its_shelf() -> None:
    assert sorted(BENCH.instruments) == ["clamp-2", "logger-1", "meter-1", "spring-scale-1"]
    assert {name: sorted(versions) for name, versions in BENCH.methods.items()} == {
        "closed-box-heating": [1, 2],
        "joint-resistance": [1],
        "pull-out": [1],
        "socket-impedance": [1],
    }
    assert sorted(BENCH.items) == ["okvarn-ih30", "veldrun-v30"]
    assert sorted(BENCH.sittings) == ["2026-03-09"]
    assert sorted(BENCH.older) == ["before-2024", "sheet-2022"]
    assert sorted(BENCH.hints) == ["logger-1"]
    report = BENCH.reports[REPORT]
    assert report.links is not None
    assert sorted(report.editions) == [1]
    assert sorted(report.own) == [
        "cable-1",
        "okvarn-a",
        "okvarn-a-pull",
        "pulled-e",
        "pulled-e-2",
        "veldrun-b",
    ]


def test_ids_and_versions_come_from_the_names_of_files() -> None:
    method = BENCH.methods["closed-box-heating"][2]
    assert (method.id, method.version) == ("closed-box-heating", 2)
    assert BENCH.items["okvarn-ih30"].id == "okvarn-ih30"
    assert BENCH.reports[REPORT].record.id == REPORT
    assert BENCH.reports[REPORT].editions[1].number == 1


def test_a_report_rests_on_its_controls_its_runs_and_those_of_sittings() -> None:
    assert sorted(BENCH.reports[REPORT].runs) == [
        "2026-03-09/okvarn-ih30:E",
        "2026-03-09/veldrun-v30:A",
        f"{REPORT}/cable-1",
        f"{REPORT}/okvarn-a",
        f"{REPORT}/okvarn-a-pull",
        f"{REPORT}/pulled-e-2",
        f"{REPORT}/veldrun-b",
    ]
    assert sorted(BENCH.runs) == sorted([*BENCH.reports[REPORT].runs, f"{REPORT}/pulled-e"])


def test_a_run_of_a_file() -> None:
    run = BENCH.runs[f"{REPORT}/okvarn-a"]
    assert (run.method_name, run.item, run.specimen, run.control) == (
        "closed-box-heating/2",
        "okvarn-ih30",
        "A",
        "",
    )
    assert (str(run.date), run.place, run.sitting) == ("2026-03-08", "workshop", "")
    assert run.uses["temperature@body"] == Use("logger-1", "CH3", "k3")
    assert run.uses["drop"] == Use("meter-1")
    assert run.conditions["conductor"] == "4 mm2 class 5"
    assert run.conditions["air-measured"] == "beside the box"
    assert (run.ambient_mode, run.ambient) == ("channel", None)
    assert run.excluded == {3: "lid open"}
    assert run.termination is not None
    assert run.termination.strip is not None
    assert run.termination.strip.si == pytest.approx(0.010)
    assert [each.at.si for each in run.events] == [29 * 60.0]
    assert run.source.file == GOOD / "reports" / RUN


def test_a_run_of_a_sitting_has_its_own_columns_and_the_shared_ones() -> None:
    run = BENCH.runs["2026-03-09/veldrun-v30:A"]
    assert run.readings is not None
    assert [(column.name, column.point, column.owner) for column in run.readings.columns] == [
        ("time", "", ""),
        ("ambient", "", ""),
        ("current", "", ""),
        ("temperature", "body", ""),
    ]
    hot = run.readings.column("temperature", "body")
    assert hot is not None
    assert [None if cell is None else cell.value for cell in hot.cells] == [
        21.3,
        70.2,
        108.4,
        None,
        None,
        None,
    ]
    assert run.uses["temperature@body"] == Use("logger-1", "CH4", "k7")
    assert run.uses["current"] == Use("clamp-2")
    assert (run.sitting, run.place, str(run.date)) == ("2026-03-09", "workshop", "2026-03-09")
    assert run.stopped is not None
    assert (run.stopped.because, run.stopped.cause) == ("smoke", "item")


def test_a_zero_check_of_a_sitting_comes_to_each_run_with_its_own_column() -> None:
    zero = BENCH.runs["2026-03-09/okvarn-ih30:E"].zero_check
    assert zero is not None
    assert (zero.pairs, zero.columns) == (5, ("ambient", "temperature@body"))
    hot = zero.table.column("temperature", "body")
    assert hot is not None
    assert [cell.value for cell in hot.cells if cell] == [21.2, 21.2, 21.2, 21.3, 21.3]
    assert BENCH.runs[f"{REPORT}/okvarn-a"].zero_check is None


def test_a_run_out_of_a_sitting_is_the_same_as_one_typed_as_a_file(tmp_path: Path) -> None:
    typed = """method: closed-box-heating/2
item: okvarn-ih30
specimen: E
date: 2026-03-09
place: workshop
instruments: {current: clamp-2, ambient: logger-1/CH1, temperature@body: logger-1/CH3}
conditions: {conductor: 4 mm2 class 5, enclosure: closed box 2 l, air-measured: beside the box}
readings: |
  time min | ambient degC | current A | temperature@body degC
  0        | 21.2         | 30.1      | 21.4
  10       | 21.2         | 30.1      | 49.9
  20       | 21.4         | 30.0      | 58.8
  30       | 21.5         | 30.0      | 61.2
  45       | 21.7         | 30.0      | 62.9
  60       | 21.9         | 29.9      | 63.4
"""
    runs = laid(tmp_path, {f"{REPORT}/runs/typed.yml": typed}).runs

    def without_places(run: Run) -> tuple[object, ...]:
        assert run.readings is not None
        columns = [
            (
                column.head,
                [cell and (cell.value, cell.text, cell.bound, cell.decimals) for cell in column.cells],
            )
            for column in run.readings.columns
        ]
        kept = replace(run, id="", source=BENCH.runs[f"{REPORT}/okvarn-a"].source, readings=None)
        return replace(kept, sitting="", zero_check=None), columns

    assert without_places(runs[f"{REPORT}/typed"]) == without_places(runs["2026-03-09/okvarn-ih30:E"])


def test_values_and_counts_are_typed_by_the_method() -> None:
    run = BENCH.runs[f"{REPORT}/okvarn-a-pull"]
    assert run.values["pull"].si == 388.0
    assert run.counts["opened"] == CountOf(0, 50)
    assert (run.readings, run.ambient_mode) == (None, "none")


def test_a_control_has_a_name_and_no_item() -> None:
    run = BENCH.runs[f"{REPORT}/cable-1"]
    assert (run.control, run.item, run.specimen) == ("unbroken-cable", "", "")


def test_readings_in_a_file_beside_the_run() -> None:
    run = BENCH.runs[f"{REPORT}/veldrun-b"]
    assert run.readings is not None
    hot = run.readings.column("temperature", "body")
    assert hot is not None
    last = hot.cells[-1]
    assert last is not None
    assert (last.value, last.bound) == (150.0, ">")
    assert (last.place.file.name, last.place.line) == ("veldrun-b.csv", 4)


@pytest.mark.parametrize(
    ("cells", "mode", "air"),
    [
        (("21.2", "21.3", "21.5", "21.8"), "channel", None),
        (("21.2", "", "", "21.8"), "start-end", None),
        (("21.2", "", "", ""), "single value", 21.2),
        (("21.2", "21.3", "", ""), "channel", None),
    ],
)
def test_how_a_column_says_the_air(
    tmp_path: Path, cells: tuple[str, ...], mode: str, air: float | None
) -> None:
    rows = "".join(
        f"  {time} | 40 | {cell} | 30\n" for time, cell in zip((0, 30, 45, 60), cells, strict=True)
    )
    text = good(RUN).split("readings:")[0].replace(", drop: meter-1", "")
    text += f"readings: |\n  time min | temperature@body degC | ambient degC | current A\n{rows}"
    run = laid(tmp_path, {RUN: text}).runs[f"{REPORT}/okvarn-a"]
    assert run.ambient_mode == mode
    assert (run.ambient.si if run.ambient else None) == air


@pytest.mark.parametrize(
    ("said", "mode", "air"),
    [
        ("first reading", "first reading", None),
        ("21.5 degC", "single value", 21.5),
        ("70.7 degF", "single value", 21.5),
        ("{start: 21 degC, end: 22 degC}", "start-end", None),
    ],
)
def test_how_conditions_say_the_air(tmp_path: Path, said: str, mode: str, air: float | None) -> None:
    name = f"{REPORT}/runs/veldrun-b.yml"
    bench = changed(
        tmp_path, name, ("ambient: first reading", f"ambient: {said}, air-measured: beside the box")
    )
    run = bench.runs[f"{REPORT}/veldrun-b"]
    assert bench.faults == ()
    assert run.ambient_mode == mode
    assert (run.ambient.si if run.ambient else None) == (None if air is None else pytest.approx(air))


def test_air_said_at_start_and_end_stands_in_a_column() -> None:
    run = BENCH.runs[f"{REPORT}/cable-1"]
    assert run.readings is not None
    air = run.readings.column("ambient")
    assert air is not None
    assert [None if cell is None else cell.value for cell in air.cells] == [21.0, None, None, 21.6]


def test_no_word_of_the_air_is_a_doubt_and_no_fault(tmp_path: Path) -> None:
    bench = changed(tmp_path, f"{REPORT}/runs/veldrun-b.yml", ("conditions: {ambient: first reading}\n", ""))
    assert bench.faults == ()
    assert bench.runs[f"{REPORT}/veldrun-b"].ambient_mode == "none"
    assert any("the air is not said" in each for each in whats(bench.doubts))


def test_a_reference_to_a_faulty_record_is_no_second_fault(tmp_path: Path) -> None:
    files = {
        "items/okvarn-ih30.yml": good("items/okvarn-ih30.yml", ("got: bought", "got: buyed")),
        "instruments/clamp-2.yml": good("instruments/clamp-2.yml", ("to: 40 A", "to: 40")),
        "methods/pull-out/1.yml": good("methods/pull-out/1.yml", ("kind: scalar", "kind: scalr")),
    }
    bench = laid(tmp_path, dict(files))
    assert {each.place.file.relative_to(bench.root / "reports").as_posix() for each in bench.faults} == set(
        files
    )
    assert len(bench.faults) == 4  # the item has two pieces that were "buyed"
    assert bench.runs == {}
    # Three faulty records, and the seven that hold runs which name them, or correct such a run.
    assert bench.left_out == 3 + 7


def test_a_fault_in_a_run_leaves_the_others(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("specimen: A", "specimen: Z"))
    assert [each.place.file.name for each in bench.faults] == ["okvarn-a.yml"]
    assert f"{REPORT}/okvarn-a" not in bench.runs
    assert f"{REPORT}/veldrun-b" in bench.reports[REPORT].runs
    assert bench.left_out == 1


def test_a_newer_format_is_the_only_fault(tmp_path: Path) -> None:
    files: dict[str, str | None] = {
        "bench.yml": good("bench.yml", ("format: 1", "format: 3")),
        "items/okvarn-ih30.yml": "nonsense: true\n",
    }
    bench = laid(tmp_path, files)
    (fault,) = bench.faults
    assert fault.path == "format"
    assert "format 3" in fault.what


def test_faulty_settings_leave_the_other_faults_to_be_told(tmp_path: Path) -> None:
    files: dict[str, str | None] = {
        "bench.yml": good("bench.yml", ("units: metric", "units: imperial")),
        "items/okvarn-ih30.yml": good("items/okvarn-ih30.yml", ("model: IH30\n", "")),
    }
    bench = laid(tmp_path, files)
    assert [each.path for each in bench.faults] == ["units", "model"]


def test_faults_are_told_in_the_order_of_files_and_lines_and_once(tmp_path: Path) -> None:
    bench = changed(tmp_path, SITTING, ("logger-1/CH1", "logger-9/CH1"), ("clamp-2", "clamp-9"))
    assert [(each.path, each.found) for each in bench.faults] == [
        ("instruments.current", "clamp-9"),
        ("instruments.ambient", "logger-9"),
    ]


def test_two_loads_are_the_same() -> None:
    again = load(GOOD)
    assert list(again.runs) == list(BENCH.runs)
    assert again.files == BENCH.files == tuple(sorted(BENCH.files))
    assert again.runs == BENCH.runs


def test_a_relative_folder_gives_whole_paths(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(GOOD.parent)
    assert load(Path("good")).root == GOOD


def test_an_empty_bench_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "reports").mkdir()
    shutil.copyfile(GOOD / "reports" / "bench.yml", tmp_path / "reports" / "bench.yml")
    text = (tmp_path / "reports" / "bench.yml").read_text(encoding="utf-8")
    (tmp_path / "reports" / "bench.yml").write_text(text.split("comparison:")[0], encoding="utf-8")
    bench = load(tmp_path)
    assert (bench.faults, bench.doubts, bench.runs, bench.reports) == ((), (), {}, {})
    assert [each.name for each in bench.files] == ["bench.yml"]


def test_doubts_are_doubts() -> None:
    assert all(isinstance(each, Doubt) for each in BENCH.doubts)


EVERY_FILE = sorted(
    path.relative_to(GOOD / "reports").as_posix()
    for path in (GOOD / "reports").rglob("*")
    if path.suffix in {".yml", ".csv"}
)


def broken(folder: Path, name: str, way: str) -> Bench:
    """The good bench with one file spoilt in its form, or misnamed."""
    bench = folder / "bench"
    shutil.copytree(GOOD, bench)
    path = bench / "reports" / name
    if way == "misnamed":
        path.rename(path.with_name(f"{path.name}.txt"))
    else:
        spoilt = {
            "unknown key": path.read_bytes() + b"\nzzz: 1\n",
            "no text": bytes(range(8)) * 9,
            "empty": b"",
        }
        path.write_bytes(spoilt[way])
    return load(bench)


@pytest.mark.parametrize("way", ["unknown key", "no text", "empty", "misnamed"])
@pytest.mark.parametrize("name", EVERY_FILE)
def test_a_file_at_fault_is_told_alone_whatever_refers_to_it(tmp_path: Path, name: str, way: str) -> None:
    if (name, way) == ("bench.yml", "misnamed"):
        with pytest.raises(NoBench):
            broken(tmp_path, name, way)
        return
    bench = broken(tmp_path, name, way)
    if (name, way) == (f"{REPORT}/links.yml", "empty"):
        assert [each.what for each in bench.faults] == ["the file is empty; a record has keys and values"]
    told = {each.place.file.relative_to(bench.root / "reports").as_posix() for each in bench.faults}
    assert told == {f"{name}.txt" if way == "misnamed" else name}
    assert bench.doubts == ()
    kept_out = {run.source.file for key, run in BENCH.runs.items() if key not in bench.runs}
    assert bench.left_out == len(
        {path.relative_to(GOOD).as_posix() for path in kept_out} | {f"reports/{name}"}
    )


def test_every_file_at_fault_is_told_beside_every_other(tmp_path: Path) -> None:
    bench = tmp_path / "bench"
    shutil.copytree(GOOD, bench)
    spoilt = [name for name in EVERY_FILE if name != "bench.yml"]
    for name in spoilt:
        with (bench / "reports" / name).open("a", encoding="utf-8") as file:
            file.write("\nzzz: 1\n")
    told = [each.place.file.relative_to(bench / "reports").as_posix() for each in load(bench).faults]
    assert told == sorted(told)
    assert sorted(set(told)) == spoilt
    assert load(bench).left_out == len(spoilt)


def test_the_order_in_which_a_disk_lists_its_files_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench = changed(tmp_path, SITTING, ("logger-1/CH1", "logger-9/CH1"), ("clamp-2", "clamp-9"))
    listed = Path.iterdir
    monkeypatch.setattr(Path, "iterdir", lambda folder: sorted(listed(folder), reverse=True))
    again = load(bench.root)
    assert (again.faults, again.doubts, again.files) == (bench.faults, bench.doubts, bench.files)


def test_a_fault_of_the_report_itself_is_told_beside_those_of_its_runs(tmp_path: Path) -> None:
    files: dict[str, str | None] = {
        RUN: good(RUN, ("specimen: A", "piece: A")),
        f"{REPORT}/report.yml": good(f"{REPORT}/report.yml", ("main: rise", "main: warmth")),
    }
    assert [each.path for each in laid(tmp_path, files).faults] == ["main", "piece"]
