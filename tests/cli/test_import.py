"""`provebook import` as a person in a shell meets it: what it prints, how it ends, what it leaves."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from tests.intake.importing.laid import CLAMPED, FILE, RUN, bench, record_of, tree

GERMAN = """\
Meßgerät;Klemmenprüfstand;;;
Datum;Uhrzeit;Temperatur °C;Umgebung °C;Spannung mV;
05.04.2026;16:05:00;18,6;18,6;41,25;
05.04.2026;16:10:00;38,0;18,7;OL;
05.04.2026;16:20:00;57,9;----;43,05;

Mittelwert;;50,1;18,7;;
"""
PREVIEW = """\
prüfung.csv
  encoding  cp1252
  cells     parted by semicolons; decimal comma
  lines     names 2, readings 3 to 5; left out behind them: 6 to 7
  time      a clock (Datum and Uhrzeit); dates as day, month, year, as the file says
  readings  3 from 2026-04-05 16:05:00; 15 min in all

  column         unit  goes into  first   last  readings
  Temperatur °C  degC  -           18.6   57.9         3
  Umgebung °C    degC  -           18.6   18.7         2
  Spannung mV    mV    -          41.25  43.05         2

Stands for no reading:
  line 4, Spannung mV: OL, over range
  line 5, Umgebung °C: ----, no reading

To be known:
  the file does not say its encoding; read as cp1252, the only one that leaves every unit known
  the readings are not evenly spaced in time; each keeps its own time
  1 reading of 'Umgebung °C' left out as a value: no reading (line 5)
  1 reading of 'Spannung mV' left out as a value: over range (line 4)

Nothing was written. To bring readings in, say into which run or sitting, and what each column is there, as
temperature@body, ambient, current or drop:
  --into RUN --map "Temperatur °C=…" --map "Umgebung °C=…" --map "Spannung mV=…"
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["import", *arguments], catch_exceptions=False)


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    made = bench(tmp_path, CLAMPED)
    (made / "log.csv").write_text(FILE, encoding="utf-8")
    monkeypatch.chdir(made)
    return made


def test_a_look_tells_what_was_understood_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "prüfung.csv").write_bytes(GERMAN.replace("\n", "\r\n").encode("cp1252"))
    before = tree(tmp_path)
    done = run("prüfung.csv")
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout == PREVIEW
    assert tree(tmp_path) == before


def test_json_stands_alone(root: Path) -> None:
    done = run("log.csv", "--json")
    assert (done.exit_code, done.stderr) == (0, "")
    told = json.loads(done.stdout)
    assert told["elapsed_s"] == [0, 600, 1800]
    assert told["columns"]["CH4 (C)"] == {
        "unit": "degC",
        "values": [20.3, None, 41.5],
        "line": 4,
        "number": 5,
    }
    (missing,) = told["not_readings"]
    assert (missing["line"], missing["column"], missing["token"]) == (6, "CH4 (C)", "OL")
    assert told["ignored_lines"] == []
    assert {each["kind"] for each in told["warnings"]} >= {"readings left out"}
    assert all(each["told"] for each in told["warnings"])
    assert (told["into"], told["written"]) == (None, [])
    assert record_of(root).read_text(encoding="utf-8") == CLAMPED


def test_into_a_run_tells_the_files_and_what_the_records_have_against_them(root: Path) -> None:
    done = run("log.csv", "--into", RUN.rpartition("/")[2])
    assert done.stdout.endswith(
        f"\nwrote reports/connectors-10a/originals/log.csv\n"
        f"wrote reports/{RUN.replace('/', '/runs/')}.yml\n"
        f"{RUN} now has 3 rows; its time counts from the file's first reading.\n"
    )
    # The clamp's column was not in the file, and the record says that it was read.
    assert done.exit_code == 1
    assert "there is no 'current' in the readings" in done.stderr
    assert done.stderr.splitlines()[-1].startswith("1 fault")
    assert (root / "reports" / "connectors-10a" / "originals" / "log.csv").read_text(encoding="utf-8") == FILE


def test_a_record_that_is_sound_then_ends_with_nought_and_what_comes_next(root: Path) -> None:
    record_of(root).write_text(CLAMPED.replace(", current: clamp-1", ""), encoding="utf-8")
    done = run("log.csv", "--into", RUN)
    assert done.exit_code == 0
    assert done.stdout.endswith("\nNext:\n  provebook build\n")
    assert "doubt: " in done.stderr


def test_a_name_in_the_file_cannot_speak_to_the_terminal(root: Path) -> None:
    (root / "log.csv").write_text(FILE.replace("CH4", "CH4\x1b[2J"), encoding="utf-8")
    done = run("log.csv")
    assert "\x1b" not in done.output


def test_json_tells_what_was_written(root: Path) -> None:
    record_of(root).write_text(CLAMPED.replace(", current: clamp-1", ""), encoding="utf-8")
    done = run("log.csv", "--into", RUN, "--json", "--unit", "CH1=degC")
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)
    assert told["into"] == RUN
    assert told["mapped"] == {"CH3 (C)": "temperature@body", "CH1 (C)": "ambient"}
    assert [name.rpartition("/")[2] for name in told["written"]] == [
        "log.csv",
        record_of(root).name,
        "logger.import.yml",
    ]


def test_an_option_that_wins_over_a_kept_hint_says_so(root: Path) -> None:
    kept = root / "reports" / "instruments" / "logger.import.yml"
    kept.write_text("delimiter: semicolon\nzone: Europe/Berlin\n", encoding="utf-8")
    done = run("log.csv", "--into", RUN, "--delimiter", ",")
    assert "Hints of logger that were kept: zone\n" in done.stdout
    assert "--delimiter , was taken, not the kept delimiter semicolon of logger\n" in done.stdout
    assert kept.read_text(encoding="utf-8") == "delimiter: semicolon\nzone: Europe/Berlin\n"


def test_what_the_file_does_not_say_is_told_with_its_line_and_the_option(root: Path) -> None:
    before = tree(root)
    (root / "log.csv").write_text(FILE.replace("2026-04-05", "04/05/2026"), encoding="utf-8")
    done = run("log.csv", "--into", RUN)
    assert done.exit_code == 1
    assert done.stdout == ""
    assert done.stderr.startswith("log.csv:5:1: ")
    assert "--date-order mdy" in done.stderr
    assert done.stderr.splitlines()[-1] == "1 fault"
    told = json.loads(run("log.csv", "--json").stdout)
    assert told["faults"][0]["line"] == 5
    assert run("log.csv", "--into", RUN, "--date-order", "mdy").stdout
    assert tree(root) != before


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("no.csv",), "File 'no.csv' does not exist"),
        (("log.csv", "--into", "nowhere"), "no run or sitting 'nowhere' in reports/"),
        (("log.csv", "--map", "CH3"), "'CH3' says nothing of a column; write it as \"CH3=temperature@body\""),
        (("log.csv", "--map", "CH3=a", "--map", "CH3=b"), "'CH3' is said twice"),
        (("log.csv", "--run-date", "8.3.2026"), "'8.3.2026' is no day; write year, month, day: 2026-03-08"),
        (("log.csv", "--run-date", "2026-02-30"), "there is no such day"),
        (("log.csv", "--interval", "30"), "'30': "),
        (("log.csv", "--interval", "0 s"), "a time above nought is needed"),
        (("log.csv", "--time-unit", "m"), "'m' is no unit of time"),
        (("log.csv", "--zone", "Mars/Base"), "'Mars/Base' is no zone that is known here"),
        (("log.csv", "--encoding", "morse"), "'morse' is no encoding that is known here"),
        (("log.csv", "--date-order", "ddmm"), "'ddmm' is not one of 'dmy', 'mdy', 'ymd'"),
        (("log.csv", "--meter", "logger-9"), "there is no instrument 'logger-9'"),
    ],
)
def test_wrong_use_ends_with_two_and_says_what_would_do(
    root: Path, arguments: tuple[str, ...], told: str
) -> None:
    before = tree(root)
    done = run(*arguments)
    assert done.exit_code == 2
    assert told in " ".join(done.stderr.split())
    assert done.stdout == ""
    assert tree(root) == before


def test_without_a_bench_nothing_can_be_brought_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "log.csv").write_text(FILE, encoding="utf-8")
    done = run("log.csv", "--into", RUN)
    assert done.exit_code == 2
    assert "no reports/bench.yml in this folder" in done.stderr


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("soon", "'soon'"),
        ("over 3 s", "one time is needed, no bound"),
        ("5", "'5'"),
        ("-5", "'5'"),
    ],
)
def test_a_start_that_is_no_time_is_told(said: str, told: str, tmp_path: Path) -> None:
    file = tmp_path / "a.csv"
    file.write_text("t (s),A (C)\n0,20.1\n60,20.2\n", encoding="utf-8")
    result = CliRunner().invoke(main, ["import", str(file), f"--starts-at={said}"])
    assert result.exit_code == 2
    assert told in result.output
