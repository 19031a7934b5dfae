"""A meter's file into a run or a sitting: what is written, what is refused and left as it was."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.fault import Fault
from generator.intake.importing.plan import plan
from generator.intake.importing.refusals import AtFault, Refused
from generator.intake.meter.series import Unreadable
from generator.records.bench import load
from generator.records.store import Meanwhile, write_all
from tests.intake.importing.laid import (
    CLAMPED,
    FILE,
    RECORD,
    RUN,
    SITTING,
    SITTING_RECORD,
    bench,
    brought,
    record_of,
    request,
    tree,
)

DIGEST = sha256(FILE.encode()).hexdigest()
TABLE = """\
readings: |
  time min | temperature@body degC | ambient degC
  0        | 20.2                  | 20.1
  10       | 35.0                  | 20.1
  30       | 40.0                  | 20.2
"""


def entry(columns: str, name: str = "LOG-1.csv") -> str:
    # A hash that begins with a digit is a number to some readers of YAML, so it stands in quotes.
    digest = f'"{DIGEST}"' if DIGEST[0].isdigit() else DIGEST
    return (
        f"originals:\n  - file: {name}\n    sha256: {digest}\n    lines: 5 to 7\n"
        f'    columns: {columns}\n    began: "2026-04-05 10:00:00"\n'
        "    metadata: {Logger: T8, Firmware: v1.10}\n"
    )


def test_channels_bind_by_their_names_and_every_digit_comes_in(tmp_path: Path) -> None:
    root = bench(tmp_path)
    before = tree(root)
    brought(root)
    after = tree(root)
    record = f"reports/{RUN.replace('/', '/runs/')}.yml"
    assert after[record].decode() == RECORD + TABLE + entry("{CH3 (C): temperature@body, CH1 (C): ambient}")
    assert after["reports/connectors-10a/originals/LOG-1.csv"] == FILE.encode()
    assert {name for name in after if after[name] != before.get(name)} == {
        record,
        "reports/connectors-10a/originals/LOG-1.csv",
    }
    loaded = load(root)
    assert loaded.faults == ()
    readings = loaded.runs[RUN].readings
    assert readings is not None
    hot = readings.column("temperature", "body")
    assert hot is not None
    assert [cell.text for cell in hot.cells if cell] == ["20.2", "35.0", "40.0"]


def test_a_look_writes_nothing_and_needs_no_bench(tmp_path: Path) -> None:
    made = plan(request(tmp_path, into="", root=None))
    assert made.writes == ()
    assert [each.name for each in made.understood.file.columns] == ["CH1 (C)", "CH3 (C)", "CH4 (C)"]


def test_over_range_is_written_with_the_end_of_the_meters_range(tmp_path: Path) -> None:
    root = bench(tmp_path, sitting=SITTING_RECORD)
    brought(root, into=SITTING)
    text = (root / "reports" / "sittings" / f"{SITTING}.yml").read_text(encoding="utf-8")
    assert text == SITTING_RECORD + (
        "readings: |\n"
        "  time min | ambient degC | quorsby-q2:B@body degC | halvenor-c2:B@body degC\n"
        "  0        | 20.1         | 20.2                   | 20.3\n"
        "  10       | 20.1         | 35.0                   | >200\n"
        "  30       | 20.2         | 40.0                   | 41.50\n"
    ) + entry("{CH1 (C): ambient, CH3 (C): quorsby-q2:B@body, CH4 (C): halvenor-c2:B@body}")
    assert (root / "reports" / "sittings" / "originals" / "LOG-1.csv").read_bytes() == FILE.encode()
    assert load(root).faults == ()


def test_a_bound_of_the_file_goes_before_that_of_the_record(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root, FILE.replace("40.0", ">150.0"))
    assert "  30       | >150.0                | 20.2\n" in record_of(root).read_text(encoding="utf-8")


def test_what_is_over_range_without_any_range_is_refused(tmp_path: Path) -> None:
    root = bench(tmp_path)
    file = FILE.replace("40.0", "210.5").replace("35.0", "OL")
    with pytest.raises(Refused) as refusal:
        plan(request(root, file))
    assert refusal.value.what == (
        "line 6: 'CH3 (C)' was over its range (OL), and neither the file nor logger.yml says where that ends"
    )


def test_what_was_typed_by_hand_stays_and_rows_of_one_time_become_one(tmp_path: Path) -> None:
    typed = (
        "readings: |  # by hand\n  time min | current A | temperature@body degC\n"
        "  0 | 10.01 |\n  5 | 10.02 | ! the clamp was open\n  10 | 10.00 |\n# end\n"
    )
    root = bench(tmp_path, CLAMPED + typed)
    made = brought(root)
    assert made.joined == ("current",)
    assert (
        record_of(root)
        .read_text(encoding="utf-8")
        .startswith(
            CLAMPED + "readings: |  # by hand\n"
            "  time min | current A | temperature@body degC | ambient degC\n"
            "  0        | 10.01     | 20.2                  | 20.1\n"
            "  5        | 10.02     |                       | ! the clamp was open\n"
            "  10       | 10.00     | 35.0                  | 20.1\n"
            "  30       |           | 40.0                  | 20.2\n"
        )
    )
    assert load(root).faults == ()


def test_rows_that_wait_give_way_and_their_columns_stay(tmp_path: Path) -> None:
    waiting = (
        "readings: |\n  time min | temperature@body degC | ambient degC | current A\n"
        "  0 | | |\n  2 | | |\n  5 | | |\n"
    )
    root = bench(tmp_path, CLAMPED + waiting)
    made = brought(root)
    assert (made.rows, made.empty) == (3, ("current",))
    assert "  0        | 20.2                  | 20.1         |\n" in record_of(root).read_text(
        encoding="utf-8"
    )


def test_readings_that_stand_are_put_aside_only_when_said(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root)
    other = FILE.replace("35.0", "36.0")
    before = tree(root)
    with pytest.raises(Refused) as refusal:
        plan(request(root, other))
    assert refusal.value.what == (
        f"{RUN} has readings of temperature@body, ambient already, and they stay as they are"
    )
    assert refusal.value.instead[0].startswith("--replace ")
    assert tree(root) == before
    brought(root, other, standing="replace")
    record = record_of(root).read_text(encoding="utf-8")
    assert "| 36.0  " in record
    assert "35.0" not in record
    # The entry of what went is gone with it; another file of that name lies under another.
    assert record.count("- file: ") == 1
    assert "- file: LOG-1-2.csv" in record
    assert load(root).faults == ()


def test_a_file_that_is_in_already_is_told(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root)
    with pytest.raises(Refused) as refusal:
        plan(request(root))
    assert refusal.value.what == f"the readings of this file are in {RUN} already, from originals/LOG-1.csv"
    again = brought(root, standing="replace")
    assert [each.path.name for each in again.writes] == [record_of(root).name]
    assert record_of(root).read_text(encoding="utf-8").count("- file: ") == 1


def test_a_part_of_an_original_is_not_replaced(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root)
    other = "Time (s),CH1 (C)\n0,20.0\n60,20.1\n"
    with pytest.raises(Refused, match=r"LOG-1.csv gave ambient and temperature@body; bring all of them"):
        plan(request(root, other, standing="replace"))


def test_many_rows_lie_in_a_file_of_their_own(tmp_path: Path) -> None:
    root = bench(tmp_path)
    rows = "".join(f"{number},{20 + number / 10:.1f}\n" for number in range(200))
    made = brought(root, f"t (s),CH3 (C)\n{rows}")
    path = record_of(root).with_suffix(".csv")
    assert made.beside == path
    assert path.read_text(encoding="utf-8").startswith(
        "time s,temperature@body degC\n0,20.0\n1,20.1\n2,20.2\n"
    )
    assert f'readings: "{path.name}"\n' in record_of(root).read_text(encoding="utf-8")
    # What comes in later goes into the same file.
    brought(root, "t (s),CH1 (C)\n0,20.0\n199,20.4\n", starts_at=Decimal(0))
    assert path.read_text(encoding="utf-8").startswith(
        "time s,temperature@body degC,ambient degC\n0,20.0,20.0\n1,20.1,\n"
    )


def test_events_come_in_at_their_times(tmp_path: Path) -> None:
    file = (
        "Time (s),CH3 (C),CH1 (C),Event\n0,20.2,20.1,Started\n300,,,Button down\n600,35.0,20.1,\n"
        "1800,40.0,20.2,End of file\n"
    )
    root = bench(tmp_path, RECORD + "events:\n  # seen\n  - {at: 7 min, what: lid opened}\n")
    made = brought(root, file)
    assert made.events == 3
    assert (
        "events:\n  # seen\n  - {at: 0 min, what: Started}\n  - {at: 5 min, what: Button down}\n"
        "  - {at: 7 min, what: lid opened}\n  - {at: 30 min, what: End of file}\n"
    ) in record_of(root).read_text(encoding="utf-8")
    assert not [each for each in load(root).faults if each.path.startswith("events")]


def test_events_of_a_sitting_are_of_the_runs_whose_columns_come_in(tmp_path: Path) -> None:
    root = bench(tmp_path, sitting=SITTING_RECORD)
    brought(root, "Time (s),CH3 (C),Event\n0,20.2,\n600,35.0,Button down\n", into=SITTING)
    text = (root / "reports" / "sittings" / f"{SITTING}.yml").read_text(encoding="utf-8")
    assert "temperature@body: logger/CH3, events: [{at: 10 min, what: Button down}]}" in text
    assert text.count("Button down") == 1


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ({"into": "quorsby"}, "no run or sitting 'quorsby' in reports/"),
        ({"columns": {"CH3": "drop"}}, '--map "CH3 (C)=drop": no instrument is named for \'drop\' in '),
        ({"columns": {"CH3": "current"}}, '--map "CH3 (C)=current": current: \'degC\' is no unit for this'),
        ({"columns": {"CH3": "ambient", "CH1": "ambient"}}, "'CH1 (C)' and 'CH3 (C)' cannot both be "),
        ({"meter": "thermometer-1"}, f"'thermometer-1' reads no column of {RUN}"),
        ({"into": SITTING, "columns": {"CH3": "temperature@body"}}, "no instrument is named for "),
    ],
)  # fmt: skip
def test_what_fits_nothing_is_refused_and_what_would_do_is_told(
    tmp_path: Path, said: dict[str, Any], what: str
) -> None:
    root = bench(tmp_path, CLAMPED, SITTING_RECORD)
    before = tree(root)
    with pytest.raises(Refused) as refusal:
        plan(request(root, **said))
    assert what in refusal.value.what
    assert refusal.value.instead
    assert tree(root) == before


def test_a_file_without_a_known_column_tells_what_each_could_be(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    with pytest.raises(Refused) as refusal:
        plan(request(root, "Time (s),T (C),I (A),U (V)\n0,20.0,10.0,0.1\n60,21.0,10.0,0.1\n"))
    assert refusal.value.what == "no column of the file goes anywhere yet"
    assert refusal.value.instead == (
        '--map "T (C)=temperature@body" (or ambient)',
        '--map "I (A)=current"',
        f"nothing for 'U (V)': no meter of {RUN} reads anything in V",
    )


def test_a_file_that_does_not_say_enough_is_refused_as_it_is(tmp_path: Path) -> None:
    root = bench(tmp_path)
    before = tree(root)
    with pytest.raises(Unreadable):
        plan(request(root, FILE.replace("2026-04-05", "04/05/2026")))
    assert tree(root) == before


def test_a_record_at_fault_is_told_and_not_touched(tmp_path: Path) -> None:
    root = bench(tmp_path, RECORD + "colour: red\n")
    with pytest.raises(AtFault) as refusal:
        plan(request(root))
    assert [each.path for each in refusal.value.faults] == ["colour"]
    assert all(isinstance(each, Fault) for each in refusal.value.faults)


def test_a_record_that_changed_meanwhile_leaves_the_tree_as_it_was(tmp_path: Path) -> None:
    root = bench(tmp_path)
    made = plan(request(root))
    record_of(root).write_text(RECORD + "place: kitchen\n", encoding="utf-8")
    before = tree(root)
    with pytest.raises(Meanwhile):
        write_all(made.writes)
    assert tree(root) == before
    assert not (root / "reports" / "connectors-10a" / "originals").exists()


def test_the_day_of_the_run_dates_a_file_of_times_alone(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root, "Time,CH3 (C)\n23:50:00,20.0\n00:00:00,30.0\n00:20:00,40.0\n")
    record = record_of(root).read_text(encoding="utf-8")
    assert 'began: "2026-04-05 23:50:00"' in record
    assert "  30       | 40.0\n" in record


FILES = Path(__file__).parents[1] / "meter" / "files"


@pytest.mark.parametrize("expect", sorted(FILES.glob("*.expect.yml")), ids=lambda path: path.name[:2])
def test_every_shape_comes_in_with_every_reading_and_can_be_followed_back(
    tmp_path: Path, expect: Path
) -> None:
    told = yaml.safe_load(expect.read_text(encoding="utf-8"))
    hints = told["hints"]
    file = FILES / told["file"]
    said = hints.get("columns", {"Temperatur °C": "", "Umgebung °C": ""})
    ours = dict(zip(said, ("first", "second", "third")[: len(said)], strict=True))
    meters = ", ".join(f"{label}: logger/CH{number}" for number, label in enumerate(ours.values()))
    record = RECORD.replace("temperature@body: logger/CH3, ambient: logger/CH1", meters)
    root = bench(tmp_path, record)
    options = {key: hints[key] for key in ("date_order", "sheet") if key in hints}
    if "run_date" in hints:
        options["run_date"] = date.fromisoformat(str(hints["run_date"]))
    (root / "reports" / "instruments" / "logger.yml").write_text(EVERYTHING, encoding="utf-8")
    made = plan(request(root, file.read_bytes(), name=file.name, columns=ours, **options))
    write_all(made.writes)
    run = yaml.safe_load(record_of(root).read_text(encoding="utf-8"))
    (original,) = run["originals"]
    lines = [line.split("|") for line in run["readings"].splitlines()]
    assert [len(line) for line in lines] == [len(ours) + 1] * (len(told["elapsed_s"]) + 1)
    unit = 60 if lines[0][0].strip() == "time min" else 1
    assert [float(line[0]) * unit for line in lines[1:]] == told["elapsed_s"]
    for name, label in original["columns"].items():
        start = next(key for key in told["columns"] if name.startswith(key))
        place = next(number for number, head in enumerate(lines[0]) if head.split()[0] == label)
        cells = [line[place].strip() for line in lines[1:]]
        values = [None if not cell or cell[0] in "<>" else float(cell) for cell in cells]
        assert values == told["columns"][start]["values"]
    kept = root / "reports" / "connectors-10a" / "originals" / original["file"]
    assert kept.read_bytes() == file.read_bytes()
    assert sum(_count(span) for span in original["lines"].split(", ")) == len(told["elapsed_s"])


def _count(span: str) -> int:
    first, _, last = span.partition(" to ")
    return int(last or first) - int(first) + 1


EVERYTHING = """\
name: logger
ranges:
  - {quantity: temperature, from: -50 degC, to: 500 degC, accuracy: "±1 degC"}
  - {quantity: voltage, from: 0 V, to: 100 mV, accuracy: "±1 %"}
  - {quantity: current, from: 0 A, to: 60 A, accuracy: "±1 %"}
probes: {k0: type K class 1, k1: type K class 1, k2: type K class 1}
channels: {CH0: k0, CH1: k1, CH2: k2}
calibrated: never
"""
