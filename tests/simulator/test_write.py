"""The committed readings are the simulator's, to the byte."""

from pathlib import Path

import pytest
import yaml

from tests.simulator import crimped, lines, sockets, terminals, write
from tests.simulator.bench import CORRECTED, HEATINGS, REPORT, SITTING, standing

BESIDE = ("older", "sittings")
"""What stands beside the reports and is written too."""

CORRECTIONS = {write.name(REPORT, standing(run)) for run in CORRECTED}


@pytest.fixture(scope="module")
def files() -> dict[str, str]:
    return write.files()


def test_committed_files_are_what_the_simulator_writes(files: dict[str, str]) -> None:
    kept = {
        path.relative_to(write.REPORTS).as_posix(): path.read_bytes().decode("utf-8")
        for folder in (
            *sorted(write.REPORTS.glob("*/runs")),
            write.REPORTS / "older",
            write.REPORTS / "sittings",
        )
        for path in sorted(folder.iterdir())
    }
    assert sorted(kept) == sorted(files)
    for name, text in files.items():
        assert kept[name] == text, f"{name} differs; python -m tests.simulator.write writes it anew"


def test_writing_mends_an_edited_file_and_takes_away_a_stray_run(
    tmp_path: Path, files: dict[str, str]
) -> None:
    runs = tmp_path / REPORT / "runs"
    runs.mkdir(parents=True)
    (runs / "2026-01-01-stray.yml").write_text("method: other/1\n")
    (runs / f"{HEATINGS[0].name}.yml").write_text("edited\n")
    write.main(tmp_path)
    found = {
        path.relative_to(tmp_path).as_posix(): path.read_bytes().decode("utf-8")
        for path in tmp_path.rglob("*")
        if path.is_file()
    }
    assert found == files


def test_readings_stand_in_columns_one_under_another(files: dict[str, str]) -> None:
    for name, text in files.items():
        if "time min" not in text:
            continue
        rows = [line for line in text.partition("readings: |\n")[2].splitlines() if line.startswith("  ")]
        table = [row for row in rows if "|" in row]
        assert len(table) == (11 if "stopped:" in text else 14), name
        bars = {tuple(at for at, sign in enumerate(row) if sign == "|") for row in table}
        assert len(bars) == 1, name


def test_each_way_of_writing_is_there(files: dict[str, str]) -> None:
    texts = {
        name: yaml.safe_load(text)
        for name, text in files.items()
        if name.startswith(f"{REPORT}/runs/") and "-pull-" not in name and name not in CORRECTIONS
    }
    assert sum(" ! " in each["readings"] for each in texts.values()) == 1
    assert sum("deviations" in each for each in texts.values()) == 2
    assert sum("control" in each for each in texts.values()) == 3
    assert any("|              |" in each["readings"] for each in texts.values())
    assert [each["stopped"] for each in texts.values() if "stopped" in each] == [
        {"at": "42 min", "because": "stop limit"}
    ]
    assert all("drop" in each["instruments"] and "drop mV" in each["readings"] for each in texts.values())
    assert any("lid open" in event["what"] for each in texts.values() for event in each.get("events", ()))
    trims = [
        event for each in texts.values() for event in each.get("events", ()) if "set back" in event["what"]
    ]
    assert trims
    sitting = yaml.safe_load(files[f"sittings/{SITTING.date}.yml"])
    assert len(sitting["runs"]) == 5
    assert all(each["drop"] == "bench-meter-1" for each in sitting["runs"].values())
    assert sitting["readings"].partition("\n")[0].count("drop mV") == 5
    assert (
        files[f"sittings/{sitting['zero-check']['table']}"].count("\n") == 1 + sitting["zero-check"]["pairs"]
    )


def test_one_run_was_read_by_the_infra_red_head_and_its_correction_says_how_that_was_set(
    files: dict[str, str],
) -> None:
    names = [name for name, text in files.items() if "temperature@body: wall-head-1" in text]
    (run,) = CORRECTED
    assert names == [write.name(REPORT, run)]
    wrong = yaml.safe_load(files[names[0]])
    assert wrong["infrared"]["emissivity-set"] == wrong["infrared"]["emissivity"] == 0.95
    (correction,) = CORRECTIONS
    right = yaml.safe_load(files[correction])
    assert (right.pop("corrects"), right.pop("infrared")) == (run, {"emissivity-set": "0.85"})
    assert list(right) == ["because"]


def test_a_pull_is_one_value_of_one_piece(files: dict[str, str]) -> None:
    pulls = [yaml.safe_load(text) for name, text in files.items() if "-pull-" in name]
    assert len(pulls) == 21
    for each in pulls:
        force, unit = each["values"]["pull"].split()
        assert unit == "N"
        # As the scale is divided.
        assert int(force) % 2 == 0
        assert "readings" not in each


def test_a_push_is_ten_readings_without_a_time(files: dict[str, str]) -> None:
    pushes = [yaml.safe_load(text) for name, text in files.items() if "-push-" in name]
    assert len(pushes) == len(sockets.PUSHED) + len(sockets.PUSHED_WORN)
    for each in pushes:
        head, *rows = each["readings"].splitlines()
        assert head == "force N"
        assert len(rows) == sockets.PUSHES
        assert "values" not in each


def test_the_crimps_of_the_makes_were_pulled_in_turn(files: dict[str, str]) -> None:
    sitting = yaml.safe_load(files[f"sittings/{terminals.DATE}.yml"])
    items = [key.partition(":")[0] for key in sitting["runs"]]
    assert items == [*terminals.GRIPS] * len(terminals.LETTERS)
    answers = [each["observations"][0]["answer"] for each in sitting["runs"].values()]
    # A plain reader of YAML 1.1 takes the word for a truth value.
    assert answers.count(False) == 1


def test_a_crimp_has_three_pairs_and_the_cable_alone_comes_first_and_last(files: dict[str, str]) -> None:
    passed = [files[f"{terminals.REPORT}/runs/{each.name}.yml"] for each in crimped.PASSED]
    runs = [yaml.safe_load(text) for text in passed]
    assert [at for at, each in enumerate(runs) if "control" in each] == [0, 31]
    assert [each["item"] for each in runs[1:-1]] == [*terminals.GRIPS] * len(terminals.LETTERS)
    for each in runs:
        rows = [row.split("|") for row in each["readings"].splitlines()[1:]]
        assert [float(drop) > 0 for drop, _, _ in rows] == [True, False] * crimped.TURNS
        # The clamp does not tell which way the current goes.
        assert all(float(current) > 0 for _, current, _ in rows)


def test_the_run_by_the_earlier_version_says_so(files: dict[str, str]) -> None:
    run = yaml.safe_load(files[f"{sockets.REPORT}/runs/{sockets.EARLIER.name}.yml"])
    assert run["method"] == "socket-heating-15a/1"
    sat = [yaml.safe_load(files[f"sittings/{each.date}.yml"]) for each in sockets.SITTINGS]
    methods = [{run["method"] for run in sitting["runs"].values()} for sitting in sat]
    assert methods == [{"socket-heating-15a/1"}, {"socket-heating-10a/1"}, {"socket-heating-15a/2"}]


def test_an_excluded_reading_keeps_its_figures_and_gives_its_reason() -> None:
    columns = {"time min": ["0", "25"], "current A": ["30.0", "28.0"]}
    assert lines.aligned(columns, ["", "jaw not shut"]) == [
        "time min | current A",
        "0        | 30.0",
        "25       | 28.0 ! jaw not shut",
    ]


def test_a_tool_with_a_comma_is_quoted_and_another_is_not() -> None:
    assert (
        yaml.safe_load(lines.termination("tessvik-t30"))["termination"]["tool"] == "screwdriver, hand-tight"
    )
    assert '"' not in lines.termination("okvarn-ih30")
