"""Hints that are kept beside a meter: by channel, taken the next time, set aside by an option."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.intake.importing.plan import plan
from generator.intake.importing.refusals import AtFault, Refused
from generator.records.bench import load
from tests.intake.importing.laid import (
    CLAMPED,
    RUN,
    SITTING,
    SITTING_RECORD,
    bench,
    brought,
    record_of,
    request,
)

FILE = "Zeit;Fühler 1;Fühler 3\n03/04/26 10:00;20,1;20,2\n03/04/26 10:30;20,2;40,0\n"
SAID: dict[str, object] = {
    "columns": {"Fühler 1": "ambient", "3": "temperature@body"},
    "units": {"Fühler 1": "degC", "Fühler 3": "degC"},
    "date_order": "dmy",
    "delimiter": ";",
}
KEPT = (
    'delimiter: ";"\ndate-order: dmy\ncolumns: {Fühler 1: CH1, Fühler 3: CH3}\n'
    "units: {Fühler 1: degC, Fühler 3: degC}\n"
)


NOTE = (
    "# What the files of this meter do not say themselves: taken by `provebook import`, which adds to it; "
    "change it as you like.\n"
)


def kept(root: Path, meter: str = "logger") -> Path:
    return root / "reports" / "instruments" / f"{meter}.import.yml"


def test_they_are_kept_by_channel_after_the_first_success(tmp_path: Path) -> None:
    root = bench(tmp_path, sitting=SITTING_RECORD)
    made = brought(root, FILE, **SAID)
    assert sorted(kept(root).read_text(encoding="utf-8").splitlines()) == sorted((NOTE + KEPT).splitlines())
    assert set(made.kept) == {"delimiter", "date-order", "columns", "units"}
    assert load(root).faults == ()
    # The same channels are other columns elsewhere.
    again = brought(root, FILE.replace("40,0", "41,0"), into=SITTING)
    assert {pair.column.name: pair.slot.label for pair in again.pairs} == {
        "Fühler 1": "ambient",
        "Fühler 3": "quorsby-q2:B@body",
    }
    assert set(again.understood.taken.used) == {"delimiter", "date-order", "columns", "units"}
    assert again.kept == ()


def test_an_option_goes_before_what_was_kept_which_stays(tmp_path: Path) -> None:
    root = bench(tmp_path)
    kept(root).write_text("# mine\n" + KEPT, encoding="utf-8")
    made = brought(root, FILE, date_order="mdy", zone="Europe/Berlin", meter="logger")
    (over,) = made.understood.taken.over
    assert (over.key, over.kept, over.option) == ("date-order", "dmy", "mdy")
    assert 'began: "2026-03-04 10:00:00+01:00"' in record_of(root).read_text(encoding="utf-8")
    assert kept(root).read_text(encoding="utf-8") == "# mine\n" + KEPT + "zone: Europe/Berlin\n"


def test_a_meter_without_channels_keeps_what_it_reads(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    brought(root, "Time (s),average (A)\n0,10.0\n1800,10.1\n", columns={"average": "current"})
    assert kept(root, "clamp-1").read_text(encoding="utf-8") == NOTE + "columns: {average: current}\n"
    record_of(root).write_text(CLAMPED, encoding="utf-8")
    again = brought(root, "Time (s),average (A)\n0,10.3\n1800,10.4\n")
    assert again.understood.meter == "clamp-1"
    assert [pair.slot.label for pair in again.pairs] == ["current"]


def test_what_several_meters_read_is_kept_for_none_unless_said(tmp_path: Path) -> None:
    file = "Time (s);T (C);I (A)\n0;20.0;10.0\n1800;40.0;10.1\n"
    said = {"columns": {"T": "temperature@body", "I": "current"}, "delimiter": ";"}
    root = bench(tmp_path, CLAMPED)
    made = plan(request(root, file, **said))
    assert (made.kept, made.unkept, made.readers) == ((), True, ("logger", "clamp-1"))
    made = brought(root, file, meter="logger", **said)
    assert kept(root).read_text(encoding="utf-8") == NOTE + 'delimiter: ";"\ncolumns: {T: CH3}\n'
    assert not kept(root, "clamp-1").exists()


def test_whose_file_it_is_is_asked_where_two_meters_have_hints(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    kept(root).write_text("decimal: point\n", encoding="utf-8")
    kept(root, "clamp-1").write_text("decimal: point\n", encoding="utf-8")
    with pytest.raises(Refused) as refusal:
        plan(request(root))
    assert refusal.value.what == "hints are kept for logger and clamp-1; whose file is it?"
    assert refusal.value.instead == ("--meter logger", "--meter clamp-1")


def test_hints_at_fault_are_told(tmp_path: Path) -> None:
    root = bench(tmp_path)
    kept(root).write_text("decimal: dot\n", encoding="utf-8")
    with pytest.raises(AtFault) as refusal:
        plan(request(root))
    assert [each.path for each in refusal.value.faults] == ["decimal"]


def test_columns_that_this_file_has_not_are_left_aside(tmp_path: Path) -> None:
    root = bench(tmp_path)
    kept(root).write_text("columns: {Fühler 1: CH1}\n", encoding="utf-8")
    made = brought(root)
    assert {pair.slot.label for pair in made.pairs} == {"ambient", "temperature@body"}
    assert RUN in load(root).runs
