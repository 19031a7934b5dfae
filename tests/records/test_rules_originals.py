"""Originals of meters' files and hints of their imports, beyond bad/."""

from __future__ import annotations

from pathlib import Path

from generator.records.bench import load
from tests.records.laid import GOOD, REPORT, SITTING, good, laid, whats

KEPT = "instruments/logger-1.import.yml"


def test_an_original_of_a_sitting_lies_beside_the_sittings(tmp_path: Path) -> None:
    digest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # Of no bytes: FIPS 180-4.
    text = good(SITTING) + (
        f"originals:\n  - {{file: a.csv, sha256: {digest}, lines: 2 to 4, columns: {{CH1: ambient}}}}\n"
    )
    bench = laid(tmp_path, {SITTING: text, "sittings/originals/a.csv": ""})
    assert bench.faults == ()
    (tmp_path / "bench" / "reports" / "sittings" / "originals" / "a.csv").write_bytes(b"\n")
    (fault,) = load(tmp_path / "bench").faults
    assert fault.path == "originals.1.sha256"
    assert "a.csv is no longer as the meter wrote it" in fault.what


def test_line_ends_that_were_changed_are_seen(tmp_path: Path) -> None:
    name = f"{REPORT}/originals/RUN-7.txt"
    bytes_ = (GOOD / "reports" / name).read_bytes()
    laid(tmp_path)
    (tmp_path / "bench" / "reports" / name).write_bytes(bytes_.replace(b"\n", b"\r\n"))
    (fault,) = load(tmp_path / "bench").faults
    assert fault.path == "originals.1.sha256"
    assert "of RUN-7.txt only the line ends are other ones than the meter wrote" in fault.what
    assert "`reports/**/originals/** -text` in .gitattributes" in fault.what
    (tmp_path / "bench" / "reports" / name).write_bytes(bytes_.replace(b"\n", b"\r\n").replace(b"0", b"1", 1))
    (fault,) = load(tmp_path / "bench").faults
    assert "no longer as the meter wrote it" in fault.what


def test_hints_of_a_meter_without_channels_name_what_it_reads(tmp_path: Path) -> None:
    name = "instruments/clamp-2.import.yml"
    assert (
        laid(
            tmp_path / "a", {name: 'columns: {average: current, start: time}\nunits: {average: "0.1 A"}\n'}
        ).faults
        == ()
    )
    (fault,) = laid(tmp_path / "b", {name: "columns: {average: CH1}\n"}).faults
    assert fault.accepted == ("current",)


def test_an_interval_of_nought_is_none(tmp_path: Path) -> None:
    bench = laid(tmp_path, {KEPT: good(KEPT, ("interval: 30 s", "interval: 0 s"))})
    assert whats(bench.faults) == ["interval: a time above nought is needed"]
