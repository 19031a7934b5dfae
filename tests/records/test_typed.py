"""What a person types and what YAML 1.1 would make of it: value, key and list item, in records and editors.

The traps were reported in public threads: yaml/pyyaml #272, #395 and docker/compose #103 (numbers of base
60), openENTRANCE/openentrance PR 348 and 18F/identity-idp PR 1735 (`no`, `on`), wireviz/WireViz #213 (leading
zeros), yaml/pyyaml #173 and #417 (exponents), fedora-modularity/libmodulemd #586 (trailing zeros),
yaml/pyyaml #41 and #165 (keys twice), yaml/pyyaml #235 and nodeca/js-yaml #738 (bombs), yaml/yaml-spec #45
(tags).
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
import yaml

from generator.fault import Fault
from generator.records import source
from generator.records.nodes import Mapping, Scalar, Sequence
from generator.records.schema.item import Item
from generator.records.schema.method import Method
from generator.records.source import read_text
from generator.records.syntax import DEEPEST
from tests.records.editors import as_an_editor_sees, errors
from tests.records.guard import guarded
from tests.records.laid import REPORT, RUN, changed, good, laid, whats

FILE = Path("/bench/reports/items/x.yml")

TYPED = [
    *("10:30", "12:30", "1:30:00", "1:30.5", "-1:30", "09:30", "0:30", "10:60"),
    *("no", "off", "yes", "on", "No", "OFF", "y", "n", "Y", "N"),
    *("1e3", "5.0e3", "1e+3", "5.0e+3", "1e-3", "695e0514"),
    *("010", "0510210600", "08", "012", "00"),
    *("1_000", "1_5", "0x1A", "0o17", "0b11"),
    *("1.10", "41.0", "+5", ".5", "5."),
    *(
        "2026-03-08",
        "2026-3-8",
        "2026-13-01",
        "2026-02-30",
        "08.03.2026",
        "2026-03-08T10:00",
        "2026-03-08T10:00:00+01:00",
    ),
    *("2026-03-08T10:00:00Z", "NaN", ".nan", ".inf", "=", "<0.1", "true", "false", "True"),
]
"""Each of them is the text that was typed, wherever a text may stand."""


METHOD = "title: x\nhazard: [mechanical]\nmeasures: [{id: a, kind: check, question: x}]\n"


def item(text: str) -> Item | tuple[Fault, ...]:
    root = read_text(text, FILE).root
    assert root is not None, text
    return Item.from_nodes(root, "x")


@pytest.mark.parametrize("typed", TYPED)
def test_as_a_value_it_is_the_text_that_was_typed(typed: str) -> None:
    text = f"maker: {typed}\nmodel: {typed}\nspecimens: {{A: {{got: sent, from: {typed}}}}}\n"
    found = item(text)
    assert isinstance(found, Item)
    assert (found.maker, found.model, found.specimens["A"].from_) == (typed, typed, typed)
    assert errors("items", as_an_editor_sees(text)) == []


@pytest.mark.parametrize("typed", TYPED)
def test_as_an_item_of_a_list_it_is_the_text_that_was_typed(typed: str) -> None:
    for listed in (f"[{typed}, x]", f"\n  - {typed}\n  - x"):
        text = f"{METHOD}cannot-show: {listed}\n"
        root = read_text(text, FILE).root
        assert root is not None
        found = Method.from_nodes(root, "x/1")
        assert isinstance(found, Method)
        assert found.cannot_show == (typed, "x")
        assert errors("methods", as_an_editor_sees(text)) == []


@pytest.mark.parametrize("typed", TYPED)
def test_as_a_key_it_is_the_text_that_was_typed(typed: str) -> None:
    text = f"{METHOD}conditions: {{{typed}: open}}\n"
    block = text.replace(f"{{{typed}: open}}", f"\n  {typed}: open")
    for each in (text, block):
        root = read_text(each, FILE).root
        assert root is not None
        found = Method.from_nodes(root, "x/1")
        assert isinstance(found, Method)
        assert found.conditions == {typed: "open"}
        assert errors("methods", as_an_editor_sees(each)) == []


DURATIONS: dict[str, float | str] = {
    "10:30": "can be read in two ways",
    "0:30": "can be read in two ways",
    "09:30": "can be read in two ways",
    "1:30:00": "can be read in two ways",
    "1:30.5": "a clock",
    "10:60": "a clock",
    "-1:30": "a clock",
    "5:30 min": 330.0,
    "1 h 30 min": 5400.0,
    "1:30 h": 5400.0,
    "600": "a number without a unit",
}


@pytest.mark.parametrize("typed", DURATIONS)
def test_as_a_time_it_has_one_meaning_or_is_asked_about(typed: str, tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("{at: 29 min,", f"{{at: {typed},"))
    wanted = DURATIONS[typed]
    if isinstance(wanted, float):
        assert whats(bench.faults) == []
        assert bench.runs[f"{REPORT}/okvarn-a"].events[0].at.si == wanted
        return
    (fault,) = bench.faults
    assert wanted in fault.what
    if wanted == "can be read in two ways":
        assert len(fault.accepted) == 2


NUMBERS: dict[str, float | str] = {
    "1e3 g": 1.0,
    "5.0e3 g": 5.0,
    "1e+3 g": 1.0,
    "+5 g": 0.005,
    ".5 g": 0.0005,
    "010 g": 0.010,
    "41.0 g": 0.041,
    "5. g": "digits are missing after the point",
    "1_000 g": "an underscore inside a number; write the digits alone",
    "0x1A g": "a number in another base; write it with the digits 0 to 9",
    "inf g": "no number; over range is written 'over 150 degC'",
    "NaN g": "no number; over range is written 'over 150 degC'",
    "\uff11\uff12 g": "a character that looks like another: U+FF11 (fullwidth digit one); type it again",
    "1,5 g": "a decimal comma; write 1.5 g",
    "1 000 g": "a space inside a number; write the digits alone",
    "\u201c5 g\u201d": "curly quotes are part of the value; take them out",
}


@pytest.mark.parametrize("typed", NUMBERS)
def test_as_a_quantity_each_form_is_taken_or_refused_on_purpose(typed: str) -> None:
    found = item(f"maker: x\nmodel: y\nspecimens:\n  A:\n    got: sent\n    mass: {typed}\n")
    wanted = NUMBERS[typed]
    if isinstance(wanted, str):
        assert isinstance(found, tuple)
        assert [each.what for each in found] == [wanted]
    else:
        assert isinstance(found, Item)
        mass = found.specimens["A"].mass
        assert mass is not None
        assert mass.si == pytest.approx(wanted)


DATES: dict[str, date | str] = {
    "2026-03-08": date(2026, 3, 8),
    '"2026-03-08"': date(2026, 3, 8),
    "2026-3-8": "month and day have two digits",
    "2026-13-01": "there is no day 2026-13-01",
    "2026-02-30": "there is no day 2026-02-30",
    "08.03.2026": "'08.03.2026' may be two days; write year, month and day",
    "08/03/2026": "'08/03/2026' may be two days; write year, month and day",
    "13.03.2026": "'13.03.2026' is not how a date is written here; write year, month and day",
    "2026-03-08T10:00": "a date is wanted, without the time of day",
    "2026-03-08T10:00+01:00": "a date is wanted, without the time of day",
    "2026-03-08T23:30:00Z": "a date is wanted, without the time of day",
}


@pytest.mark.parametrize("typed", DATES)
def test_as_a_date_it_is_that_day_or_is_asked_about(typed: str, tmp_path: Path) -> None:
    """A time with a zone is never moved to another day: it is refused, and the day as written is offered."""
    bench = changed(tmp_path, RUN, ("date: 2026-03-08", f"date: {typed}"))
    wanted = DATES[typed]
    if isinstance(wanted, date):
        assert bench.runs[f"{REPORT}/okvarn-a"].date == wanted
        return
    assert [each.what for each in bench.faults] == [wanted]
    assert bench.faults[0].place.line == 4
    if "T" in typed:
        assert bench.faults[0].accepted == ("2026-03-08",)
    if "may be two" in wanted:
        assert bench.faults[0].accepted == ("2026-03-08", "2026-08-03")


@pytest.mark.parametrize("typed", ["no", "off", "on", "yes", "y", "True", '"true"', "1"])
def test_only_true_and_false_are_truth_values(typed: str, tmp_path: Path) -> None:
    bench = changed(tmp_path, f"{REPORT}/links.yml", ("earns: true", f"earns: {typed}"))
    assert whats(bench.faults) == ["shops.1.earns: true or false is expected, without quotes"]


def test_an_answer_may_be_no_without_quotes(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, ("answer: could not tell", "answer: no"))
    assert bench.runs[f"{REPORT}/okvarn-a"].observations[0].answer == "no"


def test_numbers_of_parts_keep_all_their_digits_and_a_comment_that_ends_a_text_is_told(
    tmp_path: Path,
) -> None:
    name = "items/veldrun-v30.yml"
    bench = changed(
        tmp_path, name, ("mass: 21.4 g}", "marks: 0510210600}"), ("model: V30", "model: V30 #3 lid")
    )
    assert bench.items["veldrun-v30"].specimens["A"].marks == "0510210600"
    assert bench.items["veldrun-v30"].model == "V30"
    assert [each.path for each in bench.doubts] == ["model"]


def test_a_list_of_readings_with_decimal_commas_is_no_table(tmp_path: Path) -> None:
    text = good(RUN).split("readings: |")[0] + "readings: [[0, 21.4, 21.2], [5, 39,9]]\n"
    (fault,) = laid(tmp_path, {RUN: text}).faults
    assert fault.what == "a table of readings is expected here; this is a list"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("current: 1\nb: 2\ncurrent: 3\n", 3),
        ("a:\n  x: 1\n  x: 2\n", 3),
        ("a: {x: 1, x: 2}\n", 1),
        ("current: 1\nCurrent: 2\n", 2),
        ("a: {<<: {x: 1}, x: 2}\n", 1),
        ("a:\n  x: 1\n  <<: {x: 2}\n", 3),
        ("<<: {x: 1}\n<<: {x: 2}\n", 2),
    ],
)
def test_a_key_twice_and_a_merged_key_are_told_where_the_second_stands(text: str, line: int) -> None:
    made = read_text(text, FILE)
    assert made.root is None
    assert made.faults[-1].place.line == line
    assert any(word in made.faults[-1].what for word in ("twice", "write the keys out"))


@pytest.mark.parametrize(
    ("text", "doubtful"),
    [
        ("model: \u201cT30\u201d\n", True),
        ("model: \u2018T30\u2019\n", True),
        ("model: the \u201cnew\u201d T30\n", False),
        ('model: "\u201cT30\u201d"\n', False),
    ],
)
def test_curly_quotes_round_a_value_are_doubtful_and_in_prose_are_left_alone(
    text: str, doubtful: bool
) -> None:
    made = read_text(text, FILE)
    assert made.root is not None
    assert bool(made.doubts) is doubtful
    assert "\u201c" in str(made.root["model"]) or "\u2018" in str(made.root["model"])


COUNTED = (Mapping, Sequence, Scalar)


def bomb() -> str:
    levels = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    levels += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    return "\n".join(levels) + "\n"


@pytest.mark.parametrize("parser", [yaml.CSafeLoader, yaml.SafeLoader], ids=["C", "Python"])
@pytest.mark.parametrize(
    ("text", "most"),
    [
        (bomb(), 200),
        ("a: " + "[" * 10_000, 2 * DEEPEST),
        ("[" * 10_000 + "]" * 10_000, 2 * DEEPEST),
        ("a: " + "{b: " * 10_000, 2 * DEEPEST),
        ("a: !!python/object/apply:os.system [x]\n", 4),
        ("a: !!python/object:__main__.X {b: 1}\n", 4),
    ],
    ids=["aliases", "lists", "closed lists", "keys", "a call", "an object"],
)
def test_a_bomb_is_refused_after_a_few_nodes(
    parser: object, text: str, most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[object] = []
    monkeypatch.setattr(source, "_PARSER", parser)
    for kind in COUNTED:
        monkeypatch.setattr(source, kind.__name__, counting(kind, made))
    with guarded(20):
        found = read_text(text, FILE)
    assert found.root is None
    assert found.faults
    assert len(made) <= most


def counting(kind: type, made: list[object]) -> type:
    """The same kind of node, which notes that one is made."""

    new = kind.__new__

    def noted(cls: type, *rest: object, **named: object) -> object:
        made.append(cls)
        return new(cls, *rest, **named)

    return type(kind.__name__, (kind,), {"__new__": noted})


def test_a_record_with_five_faults_gives_five_messages(tmp_path: Path) -> None:
    bench = changed(
        tmp_path,
        RUN,
        ("date: 2026-03-08", "date: 2026-3-8"),
        ("strip: 10 mm", "strip: 10"),
        ("{at: 29 min,", "{at: 0:29,"),
        ("answer: could not tell", "answer: maybe"),
        ("basis: [ih30-lever.png]", "base: [ih30-lever.png], basis: [x]"),
    )
    assert [(each.place.line, each.path) for each in bench.faults] == [
        (4, "date"),
        (6, "termination.strip"),
        (18, "events.1.at"),
        (21, "observations.1.answer"),
        (23, "opinions.1.base"),
    ]


def test_five_faults_between_fields_and_files_are_told_at_once_too(tmp_path: Path) -> None:
    bench = changed(
        tmp_path,
        RUN,
        ("specimen: A", "specimen: Z"),
        ("current: clamp-2", "current: clamp-9"),
        ("enclosure:", "enclosre:"),
        ("check: opens-by-hand", "check: opens-by-foot"),
        ("| 62.6 ", "| 962.6"),
    )
    assert [each.path for each in bench.faults] == [
        "specimen",
        "instruments.current",
        "conditions.enclosre",
        "readings",
        "observations.1.check",
    ]


def test_five_faulty_files_give_all_of_theirs_and_what_refers_to_them_none(tmp_path: Path) -> None:
    faulty = {
        "instruments/clamp-2.yml": (("to: 40 A", "to: 40"), ("by: Pallsto", "buy: Pallsto")),
        "instruments/logger-1.yml": (("to: 200 degC", "to: 200 C"), ("calibrated: never", "calibrated: no")),
        "items/okvarn-ih30.yml": (("model: IH30", "model:"), ("standing: claimed", "standing: said")),
        "methods/pull-out/1.yml": (("kind: count", "kind: counts"), ("hazard: [mechanical]", "hazard: []")),
        f"{REPORT}/links.yml": (("earns: true", "earns: yes"), ("date: 2026-03-12", "date: 12.3.2026")),
    }
    bench = laid(tmp_path, {name: good(name, *changes) for name, changes in faulty.items()})
    told: dict[str, int] = {}
    for each in bench.faults:
        name = each.place.file.relative_to(bench.root / "reports").as_posix()
        told[name] = told.get(name, 0) + 1
    assert told == {name: 3 if "clamp" in name else 2 for name in faulty}, whats(bench.faults)


def test_a_mark_at_the_start_and_windows_line_ends_change_nothing(tmp_path: Path) -> None:
    text = "\ufeff" + good(RUN).replace("\n", "\r\n")
    (tmp_path / "a").mkdir()
    plain = laid(tmp_path / "a")
    bench = laid(tmp_path, {RUN: text})
    assert (bench.faults, bench.doubts) == ((), ())
    mine, theirs = (each.runs[f"{REPORT}/okvarn-a"].readings for each in (bench, plain))
    assert mine is not None
    assert theirs is not None
    assert [[cell and cell.text for cell in column.cells] for column in mine.columns] == [
        [cell and cell.text for cell in column.cells] for column in theirs.columns
    ]
