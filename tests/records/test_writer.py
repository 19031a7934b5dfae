"""Values as YAML: read back as written, by our reader and by readers that guess types."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from generator.records.changes import meaning
from generator.records.source import read_text
from generator.records.writer import Lines, Value, document, in_braces, scalar

HERE = Path("/bench/a.yml")
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
WORDS = st.sampled_from(
    [
        "no",
        "On",
        "1.10",
        "012",
        "5:30",
        "1e3",
        "~",
        "null",
        "a: b",
        "a #b",
        "- a",
        "{a}",
        " a",
        "a:",
        "=",
        "<<",
    ]
)
VALUES: st.SearchStrategy[Value] = st.recursive(
    TEXTS | WORDS,
    lambda below: (
        st.lists(below, max_size=4) | st.dictionaries(st.text("abc", min_size=1), below, max_size=4)
    ),
    max_leaves=12,
)


@settings(max_examples=60)
@given(st.dictionaries(st.text("ab: #-", min_size=1, max_size=4), VALUES, min_size=1, max_size=4))
def test_a_document_is_read_back_as_it_was_meant(record: dict[str, Value]) -> None:
    text = document(record)
    root = read_text(text, HERE).root
    assert root is not None, text
    assert meaning(root) == record
    # A reader of YAML 1.1 and one of 1.2 take no text for a number, a date, a truth value or nothing.
    assert yaml.safe_load(text) == record
    assert YAML(typ="safe", pure=True).load(text) == record


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("lid open", "lid open"),
        ("40 min", "40 min"),
        ("1 h 30 min", "1 h 30 min"),
        ("okvarn-ih30:A@body", "okvarn-ih30:A@body"),
        ("temperature@body degC", "temperature@body degC"),
        ("Sp1 [°C]", '"Sp1 [°C]"'),
        ("no", '"no"'),
        ("1.10", '"1.10"'),
        ("0510210600", '"0510210600"'),
        ("2026-03-08", '"2026-03-08"'),
        ("screwdriver, hand-tight", '"screwdriver, hand-tight"'),
        ('2.5" lead', '"2.5\\" lead"'),
        ("a\u00a0b", '"a\\xA0b"'),
        ("", '""'),
    ],
)
def test_texts_are_bare_where_no_reader_takes_them_for_more(text: str, written: str) -> None:
    assert scalar(text) == written


def test_a_record_is_written_as_a_person_types_it() -> None:
    record: dict[str, Value] = {
        "readings": Lines(("time min | drop mV", "0 | 1.0")),
        "events": [{"at": "40 min", "what": "lid open"}, {"at": "50 min", "what": "lid, shut"}],
        "originals": [{"file": "run-3.csv", "columns": {"CH1": "ambient", "CH3": "temperature@body"}}],
        "steps": ["a", "b"],
        "long": {f"key-{number}": "a value of some length" for number in range(4)},
    }
    assert document(record) == (
        "readings: |\n  time min | drop mV\n  0 | 1.0\n"
        'events:\n  - {at: 40 min, what: lid open}\n  - {at: 50 min, what: "lid, shut"}\n'
        "originals:\n  - file: run-3.csv\n    columns: {CH1: ambient, CH3: temperature@body}\n"
        "steps: [a, b]\n"
        "long:\n  key-0: a value of some length\n  key-1: a value of some length\n"
        "  key-2: a value of some length\n  key-3: a value of some length\n"
    )


def test_a_block_has_no_place_in_braces() -> None:
    with pytest.raises(ValueError, match="inside braces"):
        in_braces({"a": Lines(("b",))})
