"""Where `provebook serve` may listen."""

from __future__ import annotations

import socket
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.cli.address import checked
from generator.intake.new_bench import new_bench

_NO = (click.Context(main), click.Option(["--address"]))


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("127.0.0.1:8000", "127.0.0.1:8000"),
        (" 0.0.0.0:80 ", "0.0.0.0:80"),
        ("localhost:65535", "localhost:65535"),
        ("[::1]:8000", "::1:8000"),
    ],
)
def test_an_address(written: str, read: str) -> None:
    assert checked(*_NO, written) == read


@pytest.mark.parametrize(
    "written",
    [
        "",
        "foo",
        "8000",
        ":8000",
        "127.0.0.1",
        "127.0.0.1:",
        "127.0.0.1:0",
        "127.0.0.1:99999",
        "127.0.0.1:80x",
    ],
)
def test_what_is_no_address_is_told_with_one_that_is(written: str) -> None:
    with pytest.raises(click.BadParameter, match=r"write it as 127\.0\.0\.1:8000"):
        checked(*_NO, written)


def test_a_name_in_place_of_numbers_is_told_with_the_numbers_of_this_machine() -> None:
    with pytest.raises(click.BadParameter, match=r"127\.0\.0\.1 is this machine"):
        checked(*_NO, "bench.example:8000")


def test_an_address_that_is_taken_is_told_before_anything_is_built(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    new_bench(tmp_path, ("bench",))
    monkeypatch.chdir(tmp_path)
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        done = CliRunner().invoke(main, ["serve", "--address", f"127.0.0.1:{port}"])
    assert done.exit_code == 2
    assert done.stdout == ""
    assert done.stderr.startswith(f"provebook: can't listen on 127.0.0.1:{port}: address already in use.\n")
    assert "provebook serve --address 127.0.0.1:" in done.stderr
    assert "Built" not in done.stderr


def test_a_port_that_is_none_ends_with_two(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    new_bench(tmp_path, ("bench",))
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["serve", "--address", "127.0.0.1:99999"])
    assert (done.exit_code, done.stdout) == (2, "")
