"""Terminals and pipes that cannot show every sign, that close early, or that are full."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from generator.cli.streams import print_data, take_every_sign
from generator.intake.new_bench import new_bench

PROGRAM = [sys.executable, "-c", "from generator.cli import main; main(prog_name='provebook')"]


def run(folder: Path, *arguments: str, **settings: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*PROGRAM, *arguments],
        cwd=folder,
        env={**os.environ, **settings},
        capture_output=True,
        check=False,
        timeout=300,
    )


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    folder = tmp_path / "Prüf Stand \U0001f50c"
    new_bench(folder, ("bench", "example"))
    return folder


@pytest.mark.parametrize(
    ("encoding", "shown"),
    [
        ("ascii", b"+/- deg ohm 9.1 ... \\u0142"),
        ("cp1252", b"\xb1 \xb0 ohm 9.1 \x85 \\u0142"),
        ("utf-8", "± ° Ω 9.1 … ł".encode()),
    ],
)
def test_what_a_stream_cannot_show_is_written_as_it_is_typed(
    encoding: str, shown: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding)
    monkeypatch.setattr(sys, "stdout", stream)
    take_every_sign()
    sys.stdout.write("± ° Ω 9.1 … ł")
    sys.stdout.flush()
    assert stream.buffer.getvalue() == shown


def test_data_are_ascii_and_come_back_as_they_were(capsys: pytest.CaptureFixture[str]) -> None:
    data = {"found": "±1 °C \U0001f50c", "file": "k\udcfcche.yml", "value": None}
    print_data(data)
    printed = capsys.readouterr().out
    assert printed.isascii()
    assert json.loads(printed) == data


def test_a_number_that_is_none_is_never_printed_as_data() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        print_data({"value": float("nan")})


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "latin-1"])
def test_no_terminal_stops_a_check_with_faults(bench: Path, encoding: str) -> None:
    record = bench / "reports" / "items" / "halvenor-c2.yml"
    record.write_text("maker: Hałvenor → ± ° Ω \U0001f50c\nmodle: x\n", encoding="utf-8")
    done = run(bench, "check", PYTHONIOENCODING=encoding)
    assert done.returncode == 1
    assert b"modle: unknown key" in done.stderr
    assert b"Traceback" not in done.stderr
    told = run(bench, "check", "--json", PYTHONIOENCODING=encoding)
    assert told.returncode == 1
    assert json.loads(told.stdout)["faults"]
    assert told.stderr == b""


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437"])
def test_no_terminal_stops_the_figures(bench: Path, encoding: str) -> None:
    done = run(bench, "results", "connectors-10a", PYTHONIOENCODING=encoding)
    assert done.returncode == 0, done.stderr
    assert b"halvenor-c2" in done.stdout


def test_a_name_of_odd_bytes_is_told_and_counted(bench: Path) -> None:
    odd = os.fsencode(bench / "reports" / "items") + b"/k\xfcche\n.yml"
    Path(os.fsdecode(odd)).write_text("maker: x\n", encoding="utf-8")
    told = json.loads(run(bench, "check", "--json").stdout)
    assert len(told["faults"]) == 1
    done = run(bench, "check")
    assert b"k\\udcfcche\\n.yml: the file's name is the record's id" in done.stderr


@pytest.mark.parametrize("arguments", [["results", "connectors-10a"], ["check", "--json"]], ids=" ".join)
def test_a_reader_that_stops_early_gets_no_traceback(bench: Path, arguments: list[str]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "wb") as closed:
        done = subprocess.run(
            [*PROGRAM, *arguments], cwd=bench, stdout=closed, stderr=subprocess.PIPE, check=False, timeout=300
        )
    assert done.stderr == b""
