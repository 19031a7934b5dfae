"""What the commands print and how they end, as a person in a shell sees it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from generator.cli import main


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments), catch_exceptions=False)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    assert run("new", "bench", "b", "--example").exit_code == 0
    monkeypatch.chdir(tmp_path / "b")
    return tmp_path / "b"


COMMANDS = [
    ["check"],
    ["build"],
    ["serve"],
    ["results", "x"],
    ["explain", "x", "y"],
    ["check", "--json"],
    ["build", "--json"],
]


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_without_a_bench_each_command_says_what_would_do(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    done = run(*command)
    assert done.exit_code == 2
    assert "no reports/bench.yml in this folder" in done.stderr
    assert "provebook new bench" in done.stderr
    assert done.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_below_a_bench_the_way_to_it_is_told(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(bench / "reports")
    done = run("check")
    assert done.exit_code == 2
    assert f"The bench is at {bench}" in done.stderr


@pytest.mark.usefixtures("bench")
def test_the_example_is_sound() -> None:
    done = run("check")
    assert done.exit_code == 0, done.output
    assert "no faults" in done.stdout


def test_a_fault_is_told_with_its_place_and_ends_with_one(bench: Path) -> None:
    record = next((bench / "reports" / "items").glob("*.yml"))
    record.write_text(record.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    done = run("check")
    assert done.exit_code == 1
    assert f"reports/items/{record.name}:" in done.stderr
    assert "colour: unknown key" in done.stderr
    assert done.stderr.rstrip().splitlines()[-1].startswith("1 fault")
    told = json.loads(run("check", "--json").stdout)
    assert [each["path"] for each in told["faults"]] == ["colour"]
    assert told["faults"][0]["file"] == f"reports/items/{record.name}"
    assert run("build").exit_code == 1
    assert not (bench / "site").exists()
    assert json.loads(run("build", "--json").stdout)["faults"] == told["faults"]


def test_what_a_meter_cannot_hold_is_told_among_the_faults_of_the_records(bench: Path) -> None:
    meter = bench / "reports/instruments/thermometer-1.yml"
    text = meter.read_text(encoding="utf-8")
    noisy = text.replace("repeatability: 0.1 degC", "repeatability: 0.5 degC")
    meter.write_text(f"{noisy}colour: red\n", encoding="utf-8")
    # A meter at fault says nothing of its noise.
    assert [each["path"] for each in json.loads(run("check", "--json").stdout)["faults"]] == ["colour"]
    meter.write_text(noisy, encoding="utf-8")
    item = bench / "reports/items/quorsby-q2.yml"
    item.write_text(item.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    done = run("check")
    assert done.exit_code == 1
    lines = [line for line in done.stderr.splitlines() if line.startswith("reports/")]
    assert lines[0].startswith("reports/items/quorsby-q2.yml:")
    assert lines[1].startswith("reports/methods/connector-heating/1.yml:19:")
    assert "measures.1.settled.change: too small to be told from noise" in lines[1]
    assert done.stderr.splitlines()[-1].startswith("2 faults")
    for command in (["build"], ["results", "connectors-10a"]):
        assert run(*command).exit_code == 1
    assert [each["path"] for each in json.loads(run("build", "--json").stdout)["faults"]] == [
        "colour",
        "measures.1.settled.change",
    ]


def test_results_are_told_in_words_and_as_data(bench: Path) -> None:
    report = next(path.parent.name for path in (bench / "reports").glob("*/report.yml"))
    words = run("results", report)
    assert words.exit_code == 0
    assert "±" in words.stdout
    told = json.loads(run("results", report, "--json").stdout)
    assert told["format"] == 1
    figure = told["measures"][0]["figures"][0]
    assert figure["interval"][0] < figure["value"] < figure["interval"][1]
    assert figure["unit"] == "K"
    assert len(figure["specimens"]) == figure["n"]


def test_results_tell_every_measure_in_its_own_unit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(Path(__file__).parents[2])
    words = run("results", "fuse-holders-30a").stdout
    rise, pull = words.split("pull, N (95 %), higher is better\n")
    assert rise.startswith("rise at 60 min, K (95 %), lower is better\n")
    assert re.search(r"  tessvik-t30  392 ± 22  n = 5 \(5 runs\)\n", pull)
    assert "  tessvik-t30 less veldrun-v30: 102 ± 43  n = 5 and 5  difference shown\n" in pull
    measures = json.loads(run("results", "fuse-holders-30a", "--json").stdout)["measures"]
    told = next(each for each in measures if each["measure"] == "pull")
    assert (told["measure"], told["kind"], told["unit"], told["better"]) == ("pull", "scalar", "N", "higher")
    assert [each["place"] for each in told["figures"]] == [[1, 1], [2, 2], [3, 3], None, [4, 4]]
    assert {each["unit"] for each in told["pairs"]} == {"N"}


def test_an_unknown_report_is_answered_with_the_known_ones(bench: Path) -> None:
    known = next(path.parent.name for path in (bench / "reports").glob("*/report.yml"))
    done = run("results", "no-such")
    assert done.exit_code == 2
    assert known in done.stderr


def test_a_figure_is_explained_down_to_its_rounding(bench: Path) -> None:
    names = sorted(each.stem for each in (bench / "reports").glob("*/runs/*.yml"))
    told = [run("explain", name, "rise") for name in names]
    assert all(each.exit_code == 0 for each in told)
    assert sum("Rounded to two digits of the ±" in each.stdout for each in told) >= 2


def test_what_cannot_be_explained_is_answered_with_what_can(bench: Path) -> None:
    name = min(each.stem for each in (bench / "reports").glob("*/runs/*.yml"))
    done = run("explain", name, "rice")
    assert done.exit_code == 2
    assert "has no measure 'rice'; it has: rise" in done.stderr
    done = run("explain", f"{name}x", "rise")
    assert done.exit_code == 2
    assert f"no run '{name}x' here; near it: " in done.stderr
    assert name in done.stderr
    assert done.stdout == ""


def test_build_says_which_page_to_open(bench: Path) -> None:
    done = run("build")
    assert done.exit_code == 0, done.output
    page = done.stdout.rstrip().splitlines()[-1].removeprefix("Open ").split(" in a browser")[0]
    assert (bench / page).is_file()
    assert "draft" in done.stdout


@pytest.mark.usefixtures("bench")
def test_build_as_json_prints_json_alone() -> None:
    done = run("build", "--json", "--drafts")
    told = json.loads(done.stdout)
    assert (Path(told["site"]) / told["reports"][0]["page"]).is_file()
    assert told["faults"] == []


def test_a_program_reads_json_alone_whatever_the_records_hold(bench: Path) -> None:
    run_file = next((bench / "reports").glob("*/runs/*-a.yml"))
    text = run_file.read_text(encoding="utf-8")
    run_file.write_text(text.replace(", air-measured: beside the box", ""), encoding="utf-8")
    doubted = run("check", "--json")
    assert (doubted.exit_code, doubted.stderr) == (0, "")
    assert len(json.loads(doubted.stdout)["doubts"]) == 1
    for words in ("check --json --strict", "build --json --strict"):
        done = run(*words.split())
        assert (done.exit_code, done.stderr) == (1, "")
        assert json.loads(done.stdout) == json.loads(doubted.stdout)
    assert json.loads(run("build", "--json").stdout)["doubts"] == json.loads(doubted.stdout)["doubts"]
    run_file.write_text(text.replace("specimen: A", "specimen: Z"), encoding="utf-8")
    for words in ("check --json", "build --json", "results connectors-10a --json"):
        done = run(*words.split())
        assert (done.exit_code, done.stderr) == (1, "")
        assert json.loads(done.stdout)["left_out"] == 1


def test_a_bench_without_a_report_is_sound_and_told_what_comes_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run("new", "bench", str(tmp_path / "b")).exit_code == 0
    monkeypatch.chdir(tmp_path / "b")
    checked = run("check")
    assert checked.exit_code == 0
    assert checked.stdout.splitlines()[0] == "no faults"
    assert "No report yet." in checked.stdout
    built = run("build")
    assert built.exit_code == 0, built.output
    assert "0 reports" not in built.stdout
    assert "No report yet." in built.stdout
    assert built.stdout.splitlines()[-1] == "Open site/index.html in a browser, or run: provebook serve"
    assert (tmp_path / "b" / "site" / "index.html").is_file()
    assert json.loads(run("check", "--json").stdout)["faults"] == []
    assert json.loads(run("build", "--json").stdout)["reports"] == []
    none = run("results")
    assert (none.exit_code, none.stdout) == (2, "")
    assert "reports of this bench: none yet" in none.stderr


def test_results_of_no_report_name_those_that_there_are(bench: Path) -> None:
    assert (bench / "reports").is_dir()
    done = run("results")
    assert done.exit_code == 2
    assert done.stderr == (
        "provebook: which report? write its id behind `results`; reports of this bench: connectors-10a\n"
    )


@pytest.mark.parametrize("name", ["bench.yaml", "Bench.yml", "bench.yml.txt"])
def test_settings_with_a_wrong_name_are_told_with_the_right_one(bench: Path, name: str) -> None:
    (bench / "reports" / "bench.yml").rename(bench / "reports" / name)
    done = run("check")
    assert done.exit_code == 2
    assert f"There is reports/{name}: rename it to bench.yml." in done.stderr


def test_settings_that_are_no_file(bench: Path) -> None:
    (bench / "reports" / "bench.yml").unlink()
    (bench / "reports" / "bench.yml").mkdir()
    done = run("check")
    assert done.exit_code == 2
    assert "put a text file in its place" in done.stderr


def test_a_folder_that_is_gone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(Path, "cwd", lambda: (_ for _ in ()).throw(FileNotFoundError(2, "No such file")))
    done = run("check")
    assert (done.exit_code, done.stderr) == (
        2,
        "provebook: this folder is not there any more; go to another one.\n",
    )


def test_a_file_in_place_of_the_sites_folder_is_told_and_stays(bench: Path) -> None:
    (bench / "site").write_text("mine\n", encoding="utf-8")
    done = run("build")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.splitlines()[0] == (
        "provebook: the site could not be written: a file is in the way: site"
    )
    assert (bench / "site").read_text(encoding="utf-8") == "mine\n"


def refusing(*_: object, **__: object) -> None:
    raise PermissionError(13, "Permission denied", str(Path.cwd() / "site" / "assets"))


@pytest.mark.usefixtures("bench")
def test_a_folder_that_may_not_be_written_is_told_with_2(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("generator.host.build.build", refusing)
    for command in (("build",), ("build", "--json")):
        done = run(*command)
        assert (done.exit_code, done.stdout) == (2, "")
        assert "the site could not be written: permission denied: site/assets" in done.stderr


@pytest.mark.usefixtures("bench")
def test_what_the_machine_refuses_anywhere_is_a_message_and_no_traceback(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("generator.records.bench.load", refusing)
    done = run("check")
    assert (done.exit_code, done.stderr) == (2, "provebook: permission denied: site/assets\n")


@pytest.mark.usefixtures("bench")
def test_a_fault_of_the_program_keeps_its_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: Path) -> None:
        raise FileNotFoundError("no site_templates")

    monkeypatch.setattr("generator.records.bench.load", failing)
    with pytest.raises(FileNotFoundError, match="no site_templates"):
        run("check")


def test_a_site_built_without_our_plugin_is_not_called_built(bench: Path) -> None:
    settings = (bench / "mkdocs.yml").read_text(encoding="utf-8")
    (bench / "mkdocs.yml").write_text(settings.replace("- provebook", "- search"), encoding="utf-8")
    done = run("build")
    assert (done.exit_code, done.stdout) == (2, "")
    assert "write `- provebook` under plugins in mkdocs.yml" in done.stderr


@pytest.mark.parametrize(
    ("folder", "typed"),
    [
        ("b", "b"),
        ("my bench", '"my bench"'),
        ("-x", "./-x"),
        ("Pr\u00fcfstand", "Pr\u00fcfstand"),
        ("a&b", '"a&b"'),
    ],
)
def test_the_next_steps_can_be_typed_as_they_stand(
    folder: str, typed: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    done = run("new", "bench", "--", folder)
    assert done.stdout.splitlines()[-4:] == [
        "Next:",
        f"  cd {typed}",
        "  say who you are in reports/bench.yml and mkdocs.yml",
        "  provebook new method",
    ]
    monkeypatch.chdir(tmp_path / folder)
    again = run("new", "bench")
    assert (again.exit_code, again.stdout) == (2, "")
    told, advice = again.stderr.splitlines()
    assert told.endswith(".gitignore and 14 more exist already, so nothing was written.")
    assert advice == "Name another folder, or a new one."


def test_a_new_bench_where_a_file_is_in_the_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "f").touch()
    for folder in ("f", "f/below"):
        done = run("new", "bench", folder)
        assert (done.exit_code, done.stdout) == (2, "")
        assert done.stderr.startswith("provebook: nothing was written: a file is in the way: f\n")
    assert [path.name for path in tmp_path.iterdir()] == ["f"]


def test_serve_of_a_bench_without_a_report_says_what_comes_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("new", "bench", str(tmp_path / "b"))
    monkeypatch.chdir(tmp_path / "b")
    served: list[tuple[Path, str]] = []
    monkeypatch.setattr("generator.host.build.serve", lambda *given: served.append(given))
    done = run("serve", "--address", "127.0.0.1:0008765")
    assert (done.exit_code, done.stdout) == (0, "")
    assert done.stderr.startswith("No report yet.")
    assert served == [(tmp_path / "b", "127.0.0.1:8765")]


def test_a_report_that_waits_for_its_readings_is_told_so_and_not_built(bench: Path) -> None:
    for each in (bench / "reports").glob("*/runs/*.yml"):
        each.write_text(each.read_text(encoding="utf-8").split("readings:")[0], encoding="utf-8")
    checked = run("check")
    assert checked.exit_code == 0
    assert (
        checked.stdout.count("the readings are missing") + checked.stderr.count("readings are missing") == 4
    )
    assert checked.stdout.endswith("No report has readings yet.\n")
    built = run("build")
    assert built.exit_code == 0
    assert "Built the site into site/. No report has readings yet." in built.stdout
    assert not (bench / "site" / "r").exists()


def _every(command: click.Command, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    yield path
    for name, each in getattr(command, "commands", {}).items():
        yield from _every(each, (*path, name))


@pytest.mark.parametrize("path", list(_every(main)), ids=" ".join)
def test_the_help_of_each_command_is_told_without_its_marks(path: tuple[str, ...]) -> None:
    told = run(*path, "--help").output
    assert told.startswith("Usage:")
    assert not re.search(r"\\b|\x08|``|\(\)", told)
