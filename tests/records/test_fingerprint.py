"""Fingerprints: how a record is written changes nothing, one digit does, and the algorithm never moves."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.fingerprint import Canonical, canonical, csv_rows, fingerprint, marks
from generator.records.quantity import parse_quantity
from generator.records.source import read_text
from generator.records.writer import document, in_braces, scalar
from tests.records.laid import GOOD, REPORT

RUN = """method: closed-box-heating/2
item: okvarn-ih30
conditions: {conductor: 4 mm2 class 5, enclosure: closed box 2 l}
events:
  - {at: 35 min, what: lid open}
readings: |
  time min | ambient degC | current A
  0        | 21.4         | 30.1
  2        |              | >30.1     ! probe off
"""


def of(text: str) -> Canonical:
    root = read_text(text, Path("x.yml")).root
    assert root is not None
    return canonical(root)


def hash_of(text: str) -> str:
    return fingerprint(of(text))


# Written down when algorithm 1 was; each may never be another.
GOLDEN = [
    ("a: 1\n", "1:9afeb0f2b203f254312ec8ded441d0318b7c34c57f8695ede42d2215a30c0960"),
    ("a: [x, y]\nb: {c: 41.0}\n", "1:046b8efbc217990129019e8e47ca897c07a585c9073d7e1e16db9c4b4f5cac91"),
    ("name: Müller ±5 µm\n", "1:6a21d75331a306bff194bdcc749c80de78c41b9d423c3941c47ef7c336d30399"),
    (RUN, "1:d5ebb8246b79cf05f0a8e7aae533bb3ce31be331883349f574a1848c9b1943a1"),
]


@pytest.mark.parametrize(("text", "expected"), GOLDEN)
def test_algorithm_1_never_moves(text: str, expected: str) -> None:
    assert hash_of(text) == expected


def test_algorithm_1_of_files_never_moves() -> None:
    csv = b"time min,force N\r\n0,388\r\n1,391.0 ! slipped\r\n"
    assert (
        fingerprint([row for _, row in csv_rows(csv)])
        == "1:ee4ad3ced589a0a090add1ce6920fbfc422c66e15264062a53c72e1258098dc1"
    )
    assert fingerprint(b"\x89PNG") == "1:0f4636c78f65d3639ece5a064b5ae753e3408614a14fb18ab4d7540d2c248543"


def test_the_json_below_it_can_be_made_by_anyone() -> None:
    # The SHA-256 of `{"a":"1","b":["x",{"c":"30 A"}]}`, as `printf … | sha256sum` prints it.
    assert (
        hash_of('b: [x, {c: "30 A"}]\na: 1\n')
        == "1:2396cdd067de18e9003f48e6fea2b1fd652ad55b005ec1b9a2c6f22d4b573026"
    )


@pytest.mark.parametrize(
    "text",
    [
        RUN.replace("\n", "\r\n"),
        "\ufeff" + RUN,
        RUN.rstrip("\n"),
        "# a comment\n" + RUN.replace("item: okvarn-ih30", "item: okvarn-ih30   # the new one"),
        RUN.replace("item: okvarn-ih30", 'item: "okvarn-ih30"'),
        RUN.replace("item: okvarn-ih30", "item: >-\n  okvarn-ih30"),
        RUN.replace("conditions: {", "conditions: {  "),
        RUN.replace(
            "conditions: {conductor: 4 mm2 class 5, enclosure: closed box 2 l}",
            "conditions:\n  enclosure: closed box 2 l\n  conductor: '4 mm2 class 5'",
        ),
        "item: okvarn-ih30\n" + RUN.replace("item: okvarn-ih30\n", ""),
        RUN.replace(" | ", "   |"),
        RUN.replace("  0        | 21.4         | 30.1\n", "  0        | 21.4         | 30.1\n\n"),
        RUN.replace("time min | ambient degC | current A", "time min\tambient degC\tcurrent A")
        .replace("0        | 21.4         | 30.1", "0\t21.4\t30.1")
        .replace("2        |              | >30.1     ! probe off", "2\t\t>30.1\t! probe off")
        .replace(">30.1\t!", ">30.1!"),
    ],
)
def test_how_it_is_written_changes_nothing(text: str) -> None:
    assert hash_of(text) == hash_of(RUN)


def test_41_and_41_0_are_one_value_and_two_fingerprints() -> None:
    # A digit tells what the meter resolves, so it is data: the README says so.
    plain, longer = (RUN.replace("21.4", number) for number in ("41  ", "41.0"))
    values = [parse_quantity(f"{text} degC") for text in ("41", "41.0")]
    assert values[0].si == values[1].si
    assert [each.decimals for each in values] == [0, 1]
    assert hash_of(plain) != hash_of(longer)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("21.4", "21.5"),
        ("30.1\n", "30.10\n"),
        ("class 5", "class 6"),
        ("probe off", "probe loose"),
        ("     ! probe off", ""),
        ("  0        | 21.4         | 30.1\n", ""),
        ("item: ", "items: "),
        ("| current A", "| current mA"),
        (">30.1", "30.1"),
    ],
)
def test_what_it_says_changes_it(old: str, new: str) -> None:
    assert old in RUN
    assert hash_of(RUN.replace(old, new, 1)) != hash_of(RUN)


texts = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Zl", "Zp"]), min_size=1)
keys = st.from_regex(r"[a-z]{1,8}", fullmatch=True)
contents = st.recursive(
    texts,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
    max_leaves=12,
)
records = st.dictionaries(keys, contents, min_size=1, max_size=5)


@given(records)
def test_order_and_style_change_nothing(record: dict[str, Any]) -> None:
    turned = dict(sorted(record.items(), reverse=True))
    braces = "".join(f"{scalar(key)}: {in_braces(each)}\n" for key, each in turned.items())
    assert hash_of(document(record)) == hash_of(braces)


@given(records, st.data())
def test_another_text_is_another_fingerprint(record: dict[str, Any], data: st.DataObject) -> None:
    key = data.draw(st.sampled_from(sorted(record)))
    other = {**record, key: data.draw(contents)}
    same = of(document(other)) == of(document(record))
    assert (hash_of(document(other)) == hash_of(document(record))) is same


numbers = st.from_regex(r"-?[0-9]{1,3}(\.[0-9]{1,2})?", fullmatch=True)


@given(
    st.lists(st.lists(numbers, min_size=3, max_size=3), min_size=1),
    st.sampled_from([",", ";", "\t", "|"]),
    st.sampled_from(["\n", "\r\n"]),
    st.booleans(),
)
def test_a_csv_file_is_its_cells(rows: list[list[str]], sign: str, end: str, quoted: bool) -> None:
    head = ["time min", "ambient degC", "current A"]
    plain = "\n".join(",".join(row) for row in [head, *rows])
    cells = [[f'"{cell}"' if quoted else f" {cell} " for cell in row] for row in [head, *rows]]
    saved = end.join(sign.join(row) for row in cells) + end + end
    assert [row for _, row in csv_rows(b"\xef\xbb\xbf" + saved.encode())] == [
        row for _, row in csv_rows(plain.encode())
    ]


def test_signs_that_unicode_holds_for_one_are_one() -> None:
    assert hash_of("a: caf\u00e9\n") == hash_of("a: cafe\u0301\n")


def test_marks_tell_which_part_and_which_row_is_another() -> None:
    was, now = marks(of(RUN)), marks(of(RUN.replace("21.4", "21.5")))
    assert [key for key in was if was[key] != now[key]] == ["readings"]
    unlike = [a != b for a, b in zip(was["readings"].split(), now["readings"].split(), strict=True)]
    assert unlike == [False, True, False]
    assert "conditions.conductor" in marks(of(RUN), 2)


def test_every_record_of_the_good_bench_has_one() -> None:
    found = set()
    for path in sorted((GOOD / "reports" / REPORT).rglob("*.yml")):
        found.add(hash_of(path.read_text(encoding="utf-8")))
    assert len(found) == len(list((GOOD / "reports" / REPORT).rglob("*.yml")))
