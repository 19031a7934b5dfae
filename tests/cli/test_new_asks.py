"""`provebook new` at a terminal: one question a fact, asked again with why not; Ctrl+C writes nothing."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.fresh import BOUGHT, GROUND, files, made, new

ITEM = "Halvenor\nC2\n\n2\nbought\nhardware shop\n2026-01-08\n\n0.55 EUR\n\n\nat random of 10\n\n"
"""The answers to what an item asks; Enter where nothing need be said, and where the id is as offered."""


@pytest.mark.usefixtures("asked")
def test_what_is_answered_is_what_the_options_would_have_said(fresh: Path) -> None:
    made(BOUGHT)
    typed = fresh / "reports/items/halvenor-c2.yml"
    by_options = typed.read_text(encoding="utf-8")
    typed.unlink()
    done = new("item", typed=ITEM)
    assert done.exit_code == 0, done.output
    assert typed.read_text(encoding="utf-8") == by_options


@pytest.mark.usefixtures("fresh", "asked")
def test_a_question_says_what_would_do() -> None:
    done = new("item", typed=ITEM)
    for told in (
        "Who made it, as printed on it?\n  as: Okvarn\n> ",
        "How did you get it?\n  one of: bought, sent, lent, from a viewer\n> ",
        "What did one piece cost?\n  as: 4.80 EUR, or: unknown\n> ",
        "How many pieces were in one pack?\n  Enter takes: 1\n> ",
        "Which codes or marks are on it?\n  as: 2611\n  Enter: none\n> ",
    ):
        assert told in done.stdout, told


@pytest.mark.usefixtures("fresh", "asked")
def test_the_id_is_shown_before_it_is_used_and_can_be_another(fresh: Path) -> None:
    done = new("item", typed=f"{ITEM[:-1]}my-lever\n")
    assert "Enter takes: halvenor-c2\n> " in done.stdout
    assert (fresh / "reports/items/my-lever.yml").is_file()
    assert not (fresh / "reports/items/halvenor-c2.yml").exists()


@pytest.mark.usefixtures("asked")
def test_an_answer_that_is_not_taken_is_asked_again_with_why(fresh: Path) -> None:
    wrong = ITEM.replace("bought", "\nfound\nbought").replace("0.55 EUR", "0,55 EUR\n0.55 EUR")
    done = new("item", typed=wrong)
    assert done.exit_code == 0, done.output
    told = done.stderr.splitlines()
    assert told == [
        "  an answer is needed here",
        "  not one of the words for this (accepted: bought, sent, lent, from a viewer)",
        "  a decimal comma; write 0.55 EUR (accepted: 4.80 EUR)",
    ]
    assert "paid: 0.55 EUR" in (fresh / "reports/items/halvenor-c2.yml").read_text(encoding="utf-8")


@pytest.mark.usefixtures("fresh", "asked")
def test_how_a_piece_was_had_has_no_default() -> None:
    done = new("item", typed="Halvenor\nC2\n\n2\n\n\n\n")
    assert done.exit_code != 0
    assert done.stderr.count("an answer is needed here") == 3
    assert list(Path("reports").glob("items/*")) == []


@pytest.mark.usefixtures("asked")
def test_with_an_option_only_what_is_needed_is_asked(fresh: Path) -> None:
    done = new(*BOUGHT[:-4], typed="unknown\nas it came\n")
    assert done.exit_code == 0, done.output
    assert done.stdout.count("\n> ") == 2
    text = (fresh / "reports/items/halvenor-c2.yml").read_text(encoding="utf-8")
    assert "chosen: as it came\n" in text
    assert "paid:" not in text


@pytest.mark.usefixtures("asked")
def test_a_method_asks_what_its_starter_cannot_know(fresh: Path) -> None:
    answers = "heating\n10 A\n\n1.5 mm2 class 5\nclosed box 1 l\n\n90 degC\n40 degC\na cupboard\n\n\n"
    done = new("method", typed=answers)
    assert done.exit_code == 0, done.output
    assert "heating   how much hotter than the air a part gets at a current\n" in done.stdout
    assert "Enter takes: Heating at 10 A, in: closed box 1 l\n" in done.stdout
    text = (fresh / "reports/methods/heating-10-a/1.yml").read_text(encoding="utf-8")
    assert 'title: "Heating at 10 A, in: closed box 1 l"\n' in text
    assert "where: side of the body over the contact\n" in text


@pytest.mark.usefixtures("asked")
def test_a_run_asks_for_each_column_and_offers_what_can_read_it(fresh: Path) -> None:
    made(*GROUND)
    answers = (
        "heating-10-a/1", "halvenor-c2", "A", "2026-01-07", "2026-01-12", "", "11 mm", "", "clamp-1",
        "thermometer-1/CH2", "thermometer-1/CH1", "clamp-1", "1.5 mm2 class 5", "", "beside the box", "",
    )  # fmt: skip
    done = new("run", typed="\n".join(answers) + "\n")
    assert done.exit_code == 0, done.output
    offered = "What reads the temperature at 'body'?\n  one of: thermometer-1/CH1, thermometer-1/CH2\n"
    assert offered in done.stdout
    assert "What reads the air?\n  one of: thermometer-1/CH1, thermometer-1/CH2, none\n" in done.stdout
    assert "piece A was had on 2026-01-08, after this day" in done.stderr
    assert "there is no meter for temperature of this name" in done.stderr
    text = (fresh / "reports/connectors/runs/2026-01-12-halvenor-c2-a.yml").read_text(encoding="utf-8")
    assert "termination:\n  number: " in text
    assert "time min | temperature@body degC | ambient degC | current A\n" in text


@pytest.mark.usefixtures("asked")
def test_a_sitting_asks_for_each_piece(fresh: Path) -> None:
    made(*GROUND)
    answers = (
        "heating-10-a/1", "2026-01-14", "workshop", "halvenor-c2:A quorsby-q2:B", "thermometer-1/CH1",
        "clamp-1", "thermometer-1/CH2", "thermometer-1/CH1", "", "", "beside the box",
    )  # fmt: skip
    done = new("sitting", typed="\n".join(answers) + "\n")
    assert done.exit_code == 0, done.output
    assert "What reads the temperature at 'body' of quorsby-q2:B?" in done.stdout
    text = (fresh / "reports/sittings/2026-01-14.yml").read_text(encoding="utf-8")
    head = "time min | ambient degC | current A | halvenor-c2:A@body degC | quorsby-q2:B@body degC\n"
    assert head in text


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize("answered", [0, 1, 5, 12])
def test_an_end_of_the_answers_writes_nothing(answered: int, fresh: Path) -> None:
    before = files(fresh)
    done = new("item", typed="".join(ITEM.splitlines(keepends=True)[:answered]))
    assert done.exit_code == 130
    assert done.stderr.endswith("Stopped; nothing was written.\n")
    assert files(fresh) == before


def _read_until(terminal: int, wanted: str) -> str:
    """What a program writes to its terminal, up to some words."""
    told = ""
    while wanted not in told:
        ready, _, _ = select.select([terminal], [], [], 60)
        assert ready, f"waited in vain for {wanted!r} after {told!r}"
        told += os.read(terminal, 4096).decode()
    return told


def _interrupt(asking: subprocess.Popen[bytes], terminal: int) -> str:
    """Press Ctrl+C, and again where it fell into the moment before the program waits for its answer.

    A second one while the first is being answered would fall into that: a busy machine gets its time.
    """
    told = ""
    for _ in range(30):
        asking.send_signal(signal.SIGINT)
        while "written." not in told and select.select([terminal], [], [], 5)[0]:
            told += os.read(terminal, 4096).decode()
        if "written." in told:
            break
    return told


@pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is asked for")
def test_ctrl_c_at_a_real_terminal_writes_nothing(fresh: Path) -> None:
    import pty

    before = files(fresh)
    ours, theirs = pty.openpty()
    # Tests that were begun in the background leave Ctrl+C ignored to their children; a terminal does not.
    heard = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    program = [sys.executable, "-c", f"{heard}; from generator.cli import main; main(['new', 'item'])"]
    asking = subprocess.Popen(program, stdin=theirs, stdout=theirs, stderr=theirs, start_new_session=True)
    try:
        _read_until(ours, "Who made it")
        os.write(ours, b"Halvenor\n")
        _read_until(ours, "Which model")
        assert "nothing was written" in _interrupt(asking, ours)
        assert asking.wait(60) == 130
    finally:
        asking.kill()
        asking.wait(60)
        os.close(ours)
        os.close(theirs)
    assert files(fresh) == before


def test_a_terminal_is_asked_and_a_pipe_is_not(fresh: Path) -> None:
    program = [sys.executable, "-c", "from generator.cli import main; main(['new', 'item'])"]
    done = subprocess.run(program, input=ITEM, capture_output=True, text=True, check=False, cwd=fresh)
    assert done.returncode == 2
    assert "there is no terminal to ask at" in done.stderr
