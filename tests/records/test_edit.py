"""Changing lines of a record: 200 records with comments, each changed, each diff told line by line."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from difflib import ndiff
from pathlib import Path

import pytest

from generator.fault import message
from generator.records.changes import Change, Drop, EditRefused, Insert, Put, meaning
from generator.records.edit import edited
from generator.records.source import read_text
from generator.records.writer import Lines

HERE = Path("/bench/run.yml")
TABLE = Lines(("time min | ambient degC", "0 | 21.4", "5 | >150.0"))


def changed(text: str, *changes: Change) -> str:
    return edited(text.encode(), HERE, changes).decode()


def test_a_table_takes_the_place_of_a_name_and_keeps_its_comment() -> None:
    text = "date: 2026-03-08 # a Sunday\nreadings: old.csv   # from the card\n\n# events below\nevents: []\n"
    assert changed(text, Put(("readings",), TABLE)) == (
        "date: 2026-03-08 # a Sunday\nreadings: |   # from the card\n  time min | ambient degC\n  0 | 21.4\n"
        "  5 | >150.0\n\n# events below\nevents: []\n"
    )


def test_a_name_takes_the_place_of_a_table_and_keeps_its_comment() -> None:
    text = "readings: |  # typed\n  time min | drop mV\n\n  0 | 3\n\n# end\nplace: here\n"
    assert changed(text, Put(("readings",), "a.csv")) == "readings: a.csv  # typed\n\n# end\nplace: here\n"


def test_a_key_is_made_behind_the_one_that_is_named() -> None:
    text = "a: 1 mm\nb:\n  - x\n  # last of b\n\n# of c\nc: 2 mm\n"
    assert changed(text, Put(("d",), "3 mm", behind=("a", "b"))) == (
        "a: 1 mm\nb:\n  - x\nd: 3 mm\n  # last of b\n\n# of c\nc: 2 mm\n"
    )


def test_an_item_goes_into_lists_of_every_form() -> None:
    event = {"at": "5 min", "what": "lid, open"}
    told = '{at: 5 min, what: "lid, open"}'
    for old, new in (
        ("e:\n  - {at: 1 min, what: a} # one\n", f"e:\n  - {{at: 1 min, what: a}} # one\n  - {told}\n"),
        ("e:\n- at: 1 min\n  what: a\n", f"e:\n- at: 1 min\n  what: a\n- {told}\n"),
        ("e: []  # none\n", f"e: [{told}]  # none\n"),
        ("e: [{at: 1 min, what: a},]\n", f"e: [{{at: 1 min, what: a}}, {told},]\n"),
        ("e:  # none yet\nf: 1 m\n", f"e:  # none yet\n  - {told}\nf: 1 m\n"),
        ("f: 1 m\n", f"f: 1 m\ne:\n  - {told}\n"),
        ("f: 1 m", f"f: 1 m\ne:\n  - {told}\n"),
        ("{f: 1 m}\n", f"{{f: 1 m, e: [{told}]}}\n"),
    ):
        assert changed(old, Insert(("e",), event)) == new


def test_an_item_goes_where_it_belongs_in_a_list() -> None:
    assert changed("e:\n  # first\n  - a\n  # second\n  - b\n", Insert(("e",), "c", 1)) == (
        "e:\n  # first\n  - a\n  - c\n  # second\n  - b\n"
    )
    assert changed("e:\n  - a\n", Insert(("e",), "c", 0)) == "e:\n  - c\n  - a\n"
    assert changed("e: [a]\n", Insert(("e",), "c", 0)) == "e: [c, a]\n"


def test_keys_below_keys_are_found_and_made() -> None:
    text = "runs:\n  okvarn-ih30:A: {method: m/1}\n  veldrun-v30:A:\n    method: m/1\n"
    event = {"at": "5 min", "what": "lid"}
    assert changed(
        text,
        Insert(("runs", "okvarn-ih30:A", "events"), event),
        Insert(("runs", "veldrun-v30:A", "events"), event),
        Put(("more", "deep"), "x"),
    ) == (
        "runs:\n  okvarn-ih30:A: {method: m/1, events: [{at: 5 min, what: lid}]}\n  veldrun-v30:A:\n"
        "    method: m/1\n    events:\n      - {at: 5 min, what: lid}\nmore: {deep: x}\n"
    )


def test_what_has_no_place_is_refused_with_the_place() -> None:
    with pytest.raises(EditRefused) as refusal:
        changed("{readings: a.csv}\n", Put(("readings",), TABLE))
    (fault,) = refusal.value.faults
    assert message(fault, HERE.parent) == (
        "run.yml:1:1: this is written so that `readings` cannot be put in by a program; write it by hand\n"
        "   1 | {readings: a.csv}\n     | ^"
    )
    for text, change in (
        ("a: [x]\n", Put(("a",), "y")),
        ("a: [x]\n", Put(("a", "b"), "y")),
        ("a: x\n", Insert(("a",), "y")),
    ):
        with pytest.raises(EditRefused):
            changed(text, change)


def test_a_record_that_is_at_fault_is_not_touched() -> None:
    for data in (b"a: 1\na: 2\n", b"\xff\xfe", b"", b"a: &x 1\n"):
        with pytest.raises(EditRefused):
            edited(data, HERE, [Put(("b",), "1 m")])


FORMS = {
    "scalar": (
        "KEY: 30 A~",
        "KEY: no~",
        "KEY: 012~",
        '"KEY": 2026-03-08~',
        'KEY:  "a \\"b\\" # c: d"~',
        "KEY: 'it''s'~",
        "KEY: a text that\n    goes on\n  and on~",
        "KEY: |~\n  time min | drop mV\n\n  0 | 1.0\n  # 5 | 2.0",
        "KEY: |-~\n    time min\n\n    0",
        "KEY: |2~\n  time min\n   0",
        "KEY: |+~\n  kept\n\n",
        '"KEY": >~\n  folded\n  text\n\n',
        "KEY:~",
        "KEY: ~null~",
    ),
    "list": (
        "KEY:~\n^  - {at: 1 min, what: a}~",
        "KEY:~\n^- at: 1 min\n^  what: 'b'~\n^- c~",
        "KEY:~\n^    - a~\n^    -  b~\n^    - |\n      block",
        "KEY: []~",
        "KEY: [a, b]~",
        "KEY: [a, [b], {c: d}, ]~",
        "KEY: [a,~\n  b]~",
    ),
    "keys": ("KEY:~\n^  inner: x~\n^  other: {a: b}~", "KEY: {a: b}~", "KEY: {}~"),
}
"""Values of every form; ~ is where a comment may stand behind, ^ where lines of comment may stand before."""


@dataclass(frozen=True)
class Made:
    """A record made by chance: its text, and the keys of each form that it holds."""

    text: str
    keys: dict[str, str]

    def of(self, form: str) -> list[str]:
        return [key for key, each in self.keys.items() if each == form]


def made(seed: int) -> Made:
    """A record with comments wherever YAML takes one."""
    chance = random.Random(seed)  # noqa: S311  # the same records each time
    numbers = iter(range(1000))

    def behind(_: re.Match[str]) -> str:
        return f"{' ' * chance.randint(1, 3)}# note {next(numbers)}" if chance.random() < 0.4 else ""

    def before(found: re.Match[str]) -> str:
        some = [f"{found[1]}# note {next(numbers)}\n" if chance.random() < 0.5 else "\n" for _ in range(2)]
        return "".join(some[: chance.choice((0, 0, 1, 2))]) + found[1]

    parts, keys = [], {}
    for number in range(chance.randint(2, 8)):
        key, form = f"key-{number}", chance.choice(tuple(FORMS))
        text = "^" + chance.choice(FORMS[form]).replace("KEY", key).replace(" ~null", " null")
        parts.append(re.sub(r"(?m)\^( *)", before, re.sub("~", behind, text)))
        keys[key] = form
    text = "\n".join(parts) + ("\n" if chance.random() < 0.9 else "")
    text = text.replace("\n", chance.choice(("\n", "\r\n")))
    return Made(("\ufeff" if chance.random() < 0.2 else "") + text, keys)


def some_change(record: Made, chance: random.Random) -> Change:
    value = chance.choice(("a.csv", TABLE, {"a": "1 mm", "b": "x, y"}, "1.10"))
    ways: list[Change] = [
        Put(("new",), value, behind=(f"key-{chance.randint(0, 9)}",)),
        Put(("new", "below", "it"), "40 min"),
        Insert(("added",), {"at": "5 min", "what": "lid open"}),
    ]
    ways += [Put((key,), value) for key in record.of("scalar")]
    ways += [Put((key, "more"), "40 min") for key in record.of("keys")]
    ways += [
        Insert((key,), {"at": "5 min", "what": "lid"}, chance.choice((0, 1, None)))
        for key in record.of("list")
        if " []" not in record.text
    ]
    return chance.choice(ways)


def comments_of(text: str) -> list[str]:
    return [part.split("\r")[0] for line in text.split("\n") for part in line.split("# note ")[1:]]


@pytest.mark.parametrize("seed", range(200))
def test_the_diff_holds_only_what_the_change_says(seed: int) -> None:
    record = made(seed)
    change = some_change(record, random.Random(seed + 1000))  # noqa: S311
    assert read_text(record.text, HERE).root is not None, record.text
    after = changed(record.text, change)
    assert after.startswith("\ufeff") == record.text.startswith("\ufeff")
    assert after.count("\r\n") in {0, after.count("\n")}, "line ends of two forms"
    assert comments_of(after) == comments_of(record.text)
    lines, others = (text.removeprefix("\ufeff").splitlines() for text in (record.text, after))
    gone = [line[2:] for line in ndiff(lines, others) if line[0] == "-"]
    root = read_text(record.text, HERE).root
    assert root is not None
    known = root.get(change.path[0])
    if known is None:
        assert not gone
    elif gone:
        # Of what was there, only the lines of the value itself: its first one and, of a block, the others.
        assert set(gone) <= set(_written(record.text, change.path[0]))
    told = read_text(after, HERE).root
    assert told is not None
    for key, node in root.items():
        if key != change.path[0]:
            assert meaning(told[key]) == meaning(node)
            assert getattr(told[key], "style", "") == getattr(node, "style", "")
    assert list(root) == [key for key in told if key in root]


def _written(text: str, key: str) -> list[str]:
    """The lines of a key and its value."""
    lines = text.removeprefix("\ufeff").splitlines()
    start = next(n for n, line in enumerate(lines) if line.startswith((f"{key}:", f'"{key}":')))
    end = next(
        (n for n, line in enumerate(lines) if n > start and line.startswith(("key-", '"key-'))), len(lines)
    )
    return lines[start:end]


def test_an_item_is_taken_out_of_a_list_with_its_lines_alone() -> None:
    text = "e:\n  # first\n  - a: 1 m\n    b: 2 m\n  # second\n  - c: 1 m # it\nf: x\n"
    assert changed(text, Drop(("e",), 0)) == "e:\n  # first\n  # second\n  - c: 1 m # it\nf: x\n"
    assert changed(text, Drop(("e",), 1)) == "e:\n  # first\n  - a: 1 m\n    b: 2 m\n  # second\nf: x\n"


@pytest.mark.parametrize("text", ["e:\n  - a\n", "e: [a]\n", "e:\n", "f: x\n"])
def test_what_cannot_be_taken_out_is_refused(text: str) -> None:
    with pytest.raises(EditRefused):
        changed(text, Drop(("e",), 0))


@pytest.mark.parametrize(
    ("at", "left"), [(0, "runs: [b, c]  # x\n"), (1, "runs: [a, c]  # x\n"), (2, "runs: [a, b]  # x\n")]
)
def test_an_item_less_in_a_list_in_brackets(at: int, left: str) -> None:
    assert edited(b"runs: [a, b, c]  # x\n", Path("x.yml"), [Drop(("runs",), at)]).decode() == left
