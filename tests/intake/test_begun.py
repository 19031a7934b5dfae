"""A record that was begun reads back as the very answers, whatever they hold."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from generator.intake.blank import blank_table
from generator.intake.new_bench import new_bench
from generator.intake.new_instrument import NewInstrument, new_instrument
from generator.intake.new_item import NewItem, new_item
from generator.intake.new_method import STARTERS, NewMethod, new_method, title_of
from generator.intake.new_report import NewReport, new_report
from generator.intake.taking import NotTaken, readable
from generator.records.nodes import Mapping, Node
from generator.records.quantity import parse_times
from generator.records.source import read_text

HOSTILE = (
    "no", "null", "~", "true", "1.10", "012", "5:00", "2026-03-08", "0x1F", "1e3", "- a", "? a", "a: b", "a:",
    "a #b", "#b", "'", '"', '"a" and \'b\'', "\\", "\\n", "{a: b}", "[a]", "a, b", "&a", "*a", "!a", "|", ">",
    "%a", "@a", "`a`", "---", "...", "<<", "=", "a\tb", "a\nb: c", "a\n# b", "\u2028", "\u00a0a", "\u200b",
    "\ufeff", "\u201ea\u201c", "\u201ca\u201d", "M\u00fcller", "\u65e5\u672c", "\U0001f527", "{{ 7 * 7 }}",
    "{% raw %}", "{# a #}", "x" * 5000, "\x1b[31m", "\x00", "\x85", "a\u0301",
)  # fmt: skip
"""Answers that YAML, a template, a terminal or a person could take for something else."""

texts = st.one_of(st.sampled_from(HOSTILE), st.text(min_size=1, max_size=60))


def kept(answer: str) -> str:
    """An answer as it is kept, or another where it would be asked again."""
    try:
        return readable(answer) or "-"
    except NotTaken:
        return "\ufffd"


answers = texts.map(kept)


@pytest.fixture(scope="module")
def root() -> Iterator[Path]:
    with TemporaryDirectory() as folder:
        new_bench(Path(folder), ("bench",))
        yield Path(folder)


def node_at(root: Node, *path: str | int) -> str:
    for step in path:
        if isinstance(step, int):
            assert isinstance(root, list)
            root = root[step]
        else:
            assert isinstance(root, Mapping), (step, root)
            root = root[step]
    assert isinstance(root, str)
    return str(root)


def read_back(text: str) -> Mapping:
    """The record as we read it; another reader of YAML 1.2 sees the same keys."""
    source = read_text(text, Path("record.yml"))
    assert source.faults == ()
    assert source.doubts == ()
    assert source.root is not None
    other = YAML(typ="safe", pure=True).load(text)
    assert list(other) == list(source.root)
    return source.root


def hostile_item(root: Path, said: list[str]) -> str:
    item = NewItem(
        "x", said[0], said[1], said[2], 2, "bought", said[3], "2026-01-08", "4.80 EUR", "2", *said[4:7]
    )
    return new_item(root, item).text


@settings(max_examples=150, deadline=None)
@given(said=st.lists(answers, min_size=7, max_size=7))
@example(said=list(HOSTILE[:7]))
def test_an_item_reads_back_as_the_very_answers(said: list[str], root: Path) -> None:
    record = read_back(hostile_item(root, said))
    assert [node_at(record, key) for key in ("maker", "model", "what")] == said[:3]
    for letter in "AB":
        keys = ("from", "marks", "condition", "chosen")
        assert [node_at(record, "specimens", letter, key) for key in keys] == said[3:]


@pytest.mark.parametrize("answer", [each for each in map(kept, HOSTILE) if each != "-"], ids=repr)
def test_each_hostile_answer(answer: str, root: Path) -> None:
    record = read_back(hostile_item(root, [answer] * 7))
    assert node_at(record, "maker") == node_at(record, "specimens", "B", "chosen") == answer


@settings(max_examples=60, deadline=None)
@given(said=st.lists(answers, min_size=10, max_size=10), starter=st.sampled_from(sorted(STARTERS)))
def test_a_method_reads_back_as_the_very_answers(said: list[str], starter: str, root: Path) -> None:
    asked = dict(
        zip(("conductor", "enclosure", "where", "because", "what", "question", "failure"), said, strict=False)
    )
    method = NewMethod(
        "x", starter, said[-1], current="10 A", stop_limit="90 degC", air="40 degC", better="lower",
        good="yes", **asked,
    )  # fmt: skip
    record = read_back(new_method(root, method).text)
    assert node_at(record, "title") == said[-1]
    places: dict[str, tuple[tuple[tuple[str | int, ...], str], ...]] = {
        "heating": (
            (("conditions", "conductor"), asked["conductor"]),
            (("conditions", "enclosure"), asked["enclosure"]),
            (("points", "body", "where"), asked["where"]),
            (("reference-ambient", "because"), asked["because"]),
        ),
        "pull-out": ((("conditions", "conductor"), asked["conductor"]),),
        "torque": ((("conditions", "conductor"), asked["conductor"]),),
        "drop": ((("conditions", "conductor"), asked["conductor"]),),
        "force": ((("measures", 0, "name"), f"Force: {asked['what']}"),),
        "count": ((("measures", 0, "what"), asked["what"]),),
        "endurance": (
            (("measures", 0, "cycles"), asked["what"]),
            (("measures", 0, "failure"), asked["failure"]),
        ),
        "check": ((("measures", 0, "question"), asked["question"]),),
    }
    for path, answer in places[starter]:
        assert node_at(record, *path) == answer


@settings(max_examples=60, deadline=None)
@given(said=st.lists(answers, min_size=3, max_size=3))
def test_a_meter_and_a_report_read_back_as_the_very_answers(said: list[str], root: Path) -> None:
    meter = NewInstrument(
        "x", said[0], said[1], "temperature", "-50 degC", "200 degC", "±(0.5 % + 0.5 degC)", "0.1 degC",
        "", "18 to 28 degC", "", ("CH1", "CH2"), "type K class 1", "2025-11-03", said[2],
    )  # fmt: skip
    record = read_back(new_instrument(root, meter).text)
    assert [node_at(record, "name"), node_at(record, "model")] == said[:2]
    assert node_at(record, "calibrations", 0, "by") == said[2]
    assert node_at(record, "channels", "CH2") == "p2"
    report = NewReport("x", said[0], said[1], ("a/1",), "rise", ("rise",), ("i",))
    record = read_back(new_report(root, report).text)
    assert [node_at(record, "question"), node_at(record, "initiative")] == said[:2]


@pytest.mark.parametrize("starter", sorted(STARTERS))
def test_a_title_is_made_from_the_answers_as_they_are(starter: str, root: Path) -> None:
    said = dict.fromkeys(("current", "enclosure", "what", "question", "failure"), "{{ 7 * 7 }} & <b>")
    title = title_of(root, starter, said)
    assert title
    assert "49" not in title
    assert "&amp;" not in title


def test_a_blank_table_has_its_times_and_as_many_cells_as_heads() -> None:
    table = blank_table(parse_times("0 2 10 min"), ["temperature@body degC", "current A"])
    assert table == (
        "time min | temperature@body degC | current A",
        "0        |                       |",
        "2        |                       |",
        "10       |                       |",
    )


@pytest.mark.parametrize(
    ("minutes", "schedule"),
    [
        ("60", "0 2 5 10 15 20 25 30 40 45 50 55 60"),
        ("35", "0 2 5 10 15 20 25 30 35"),
        ("30", "0 2 5 10 15 20 25 30"),
        ("90", "0 2 5 10 15 20 25 30 40 50 60 70 75 80 85 90"),
    ],
)
def test_a_schedule_is_close_where_a_part_warms_fast_and_at_its_end(minutes: str, schedule: str) -> None:
    assert NewMethod("x", "heating", "x", minutes=minutes).schedule == schedule
