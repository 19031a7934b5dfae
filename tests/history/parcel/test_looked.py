"""`verify FILE.zip`: what is as it was published is told so anywhere; one digit changed is named."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.analysis.heating import current_exponent
from generator.history.parcel import looked as looking
from generator.history.parcel.archive import Unsound
from generator.history.parcel.looked import looked
from generator.history.parcel.sums import SUMS
from tests.history.benches import REPORT, demo, example, published, run
from tests.history.parcel.conftest import FUSES, TERMINALS
from tests.history.parcel.parcels import changed, files_of, summed, written
from tests.records.sealed import resealed

RUN = f"reports/{REPORT}/runs/2026-01-12-halvenor-a.yml"
EDITION = f"reports/{REPORT}/editions/1.yml"
METER = "reports/instruments/clamp-1.yml"
METHOD = "reports/methods/connector-heating/1.yml"
TEN_MINUTES = (r"(?m)^  10( +\| )(\d)(\d)\.", r"  10\g<1>\g<2>9.")


@pytest.fixture
def away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that is no bench, and we stand in it."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_it_holds_where_no_bench_is(small: dict[str, bytes], away: Path) -> None:
    written(small, away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 0, done.output
    assert f"{REPORT}, edition 1 of 2026-02-01, by The name of your bench" in done.output
    assert "Figures: all 2 come out as published" in done.output
    assert "Demonstration data" in done.output
    assert "The edition's fingerprint is 1:" in done.output
    assert [each.name for each in away.iterdir()] == ["x.zip"]


@pytest.mark.parametrize(("report", "number"), [(FUSES, 1), (FUSES, 2), (TERMINALS, 1)])
def test_the_demo_holds(twice: Path, away: Path, report: str, number: int) -> None:
    written(files_of(twice, report, number), away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 0, done.output
    assert ("editions 1 to 2 follow one another" in done.output) == (number == 2)
    assert (f"Not in this parcel: reports/{FUSES}/photos/lever.jpg, a photo" in done.output) == (
        report == FUSES
    )


@pytest.mark.parametrize("redone", [False, True], ids=["sums as they were", "sums made anew"])
@pytest.mark.parametrize(
    ("name", "change", "field"),
    [
        (RUN, TEN_MINUTES, "readings"),
        (RUN, ("specimen: A", "specimen: B"), "specimen"),
        (METER, ("to: 20 A", "to: 30 A"), "ranges"),
        (METHOD, ("stop-limit: 90", "stop-limit: 95"), "stop-limit"),
        (EDITION, ('date: "2026-02-01"', 'date: "2026-02-02"'), "date"),
        (EDITION, ('value: "1', 'value: "9'), "figures"),
        (EDITION, ("because: it is", "because: it was"), "content.report.because"),
    ],
)
def test_one_digit_is_told_with_file_and_field(
    small: dict[str, bytes], away: Path, name: str, change: tuple[str, str], field: str, *, redone: bool
) -> None:
    files = changed(small, name, *change)
    written(summed(files) if redone else files, away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert (f"{name}: other bytes than SHA256SUMS says" in done.output) != redone
    (line,) = [
        each
        for each in done.output.splitlines()
        if each.endswith(f" {field}: not as it was when this edition was published")
    ]
    assert line.strip().startswith(f"{name}:")
    assert "It is not as it was published." in done.output
    assert "put it back" not in done.output


@pytest.mark.parametrize("redone", [False, True], ids=["sums as they were", "sums made anew"])
def test_one_cell_of_a_table_is_told_with_its_row_and_column(
    small: dict[str, bytes], away: Path, *, redone: bool
) -> None:
    name = "data/readings.csv"
    heads, row = (line.split(",") for line in small[name].decode().split("\r\n")[:2])
    at = heads.index("current A")
    other = ",".join([*row[:at], "99.9", *row[at + 1 :]])
    files = {**small, name: small[name].replace(",".join(row).encode(), other.encode(), 1)}
    written(summed(files) if redone else files, away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert (
        f"{name}, row 2, current A: “99.9” stands there, and its records come to “{row[at]}”" in done.output
    )
    assert "Tables: 1 cell otherwise" in done.output


def test_a_figure_that_was_printed_otherwise_and_sealed_anew(small: dict[str, bytes], away: Path) -> None:
    """Whoever seals it anew changes the fingerprint, and the digits are no longer those of the figure."""
    files = changed(small, EDITION, r'value: "(\d)', r'value: "7\g<1>')
    files[EDITION] = resealed(files[EDITION].decode()).encode()
    written(summed(files), away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert "Records: what the edition rests on is as it was published" in done.output
    assert "1 of 2 come out otherwise" in done.output
    assert "halvenor-c2 rise: published 7" in done.output


def test_a_figure_that_comes_out_otherwise(
    small: dict[str, bytes], away: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(small, away / "x.zip")
    monkeypatch.setattr(current_exponent, "__defaults__", (3.0, 0.4))
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert "Records: what the edition rests on is as it was published" in done.output
    assert "2 of 2 come out otherwise" in done.output
    assert "; moved by " in done.output
    assert "published by provebook" in done.output


@pytest.mark.parametrize("name", [RUN, METER, METHOD])
def test_a_record_that_is_missing(small: dict[str, bytes], away: Path, name: str) -> None:
    written(summed({key: each for key, each in small.items() if key != name}), away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert f"{name}: the edition rests on it, and it is not there" in done.output
    assert "Figures: not computed" in done.output


def test_a_file_more_and_a_file_less(small: dict[str, bytes], away: Path) -> None:
    written({**small, "virus.exe": b"MZ"}, away / "x.zip")
    done = run("verify", "x.zip")
    assert (done.exit_code, "virus.exe: there, and not named in SHA256SUMS" in done.output) == (1, True)
    written({key: each for key, each in small.items() if key != SUMS}, away / "x.zip")
    assert run("verify", "x.zip").exit_code == 1


def test_what_is_no_parcel(away: Path) -> None:
    assert run("verify", "x.zip").exit_code == 2
    (away / "x.zip").write_bytes(b"<html>404</html>")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert done.output == "x.zip: this is no zip file. Nothing of it was unpacked.\n"
    written({"a.txt": b""}, away / "x.zip")
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert "it holds no edition of a report" in done.output


def test_what_lies_round_about_is_not_read(small: dict[str, bytes], away: Path) -> None:
    """A template, which is a program, is never taken from a parcel or from where one stands."""
    evil = b"{{ none.nothing }}"
    (away / "site_templates/text").mkdir(parents=True)
    (away / "site_templates/text/verify_parcel.txt.jinja").write_bytes(evil)
    files = {**small, "site_templates/text/verify_parcel.txt.jinja": evil}
    written(summed(files), away / "x.zip")
    assert "Figures: all 2 come out as published" in run("verify", "x.zip").output


def test_more_than_is_read_of_a_stranger(
    small: dict[str, bytes], away: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So that no file keeps a machine busy for hours."""
    written(small, away / "x.zip")
    monkeypatch.setattr(looking, "MOST_READINGS", 20)
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert "Figures: not computed: more than 20 readings are computed at the bench alone" in done.output
    monkeypatch.setattr(looking, "MOST_RECORDS", 1000)
    done = run("verify", "x.zip")
    assert done.exit_code == 1
    assert "it is larger than any edition's download comes to" in done.output


def test_an_edition_may_name_no_file_elsewhere(small: dict[str, bytes], away: Path) -> None:
    (away / "secret.yml").write_text("x: 1\n", encoding="utf-8")
    files = changed(
        small, EDITION, "rests-on:\n", f'rests-on:\n  "../../..{away}/secret.yml": {{hash: "1:{"0" * 64}"}}\n'
    )
    files[EDITION] = resealed(files[EDITION].decode()).encode()
    found, _ = looked(summed(files))
    assert [name for name in found.alone.gone if name.endswith("secret.yml")]
    assert not found.holds


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_whatever_is_changed_it_is_told_and_nothing_breaks(
    small: dict[str, bytes], data: st.DataObject
) -> None:
    """Lines of records turned, doubled, cut, and all sealed and summed anew."""
    name = data.draw(st.sampled_from(sorted(each for each in small if each.startswith("reports/"))))
    lines = small[name].decode().splitlines(keepends=True)
    at = data.draw(st.integers(0, len(lines) - 1))
    match data.draw(st.sampled_from(["drop", "double", "cut", "digit", "swap", "bytes"])):
        case "drop":
            del lines[at]
        case "double":
            lines.insert(at, lines[at])
        case "cut":
            lines[at] = lines[at][: data.draw(st.integers(0, len(lines[at])))]
        case "digit":
            lines[at] = lines[at].replace("1", "7").replace("A", "9")
        case "swap":
            lines[at], lines[0] = lines[0], lines[at]
        case _:
            lines[at] = data.draw(st.text(max_size=30))
    files = {**small, name: "".join(lines).encode("utf-8", "surrogatepass")}
    if name == EDITION and data.draw(st.booleans()):
        try:
            files[name] = resealed(files[name].decode()).encode()
        except (AssertionError, ValueError, KeyError):
            return
    try:
        found, _ = looked(summed(files))
    except Unsound:
        return
    same = files[name] == small[name]
    assert found.holds or not same


@pytest.mark.parametrize(
    ("report", "corrected", "said"),
    [
        (REPORT, "2026-01-12-halvenor-a", "termination: {number: 1, strip: 12 mm}"),
        (FUSES, "2026-03-04/okvarn-ih30:A", "termination: {number: 1, strip: 12 mm}"),
    ],
)
def test_a_run_that_corrects_another_comes_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, report: str, corrected: str, said: str
) -> None:
    folder = (example if report == REPORT else demo)(tmp_path / "b")
    monkeypatch.chdir(folder)
    assert published(report, "--date", "2026-11-20").exit_code == 0
    text = f'corrects: "{corrected}"\nbecause: The length was written down wrong.\n{said}\n'
    (folder / f"reports/{report}/runs/put-right.yml").write_text(text, encoding="utf-8")
    amend = ("--reason", "correction", "--summary", "A length was wrong.", "--date", "2026-11-22")
    done = published(report, *amend)
    assert done.exit_code == 0, done.output
    files = files_of(folder, report, 2)
    assert f"reports/{report}/runs/put-right.yml" in files
    found, _ = looked(files)
    assert found.holds, (found.alone.faults, found.alone.gone, found.why)
    assert f"{report}/put-right" in (found.edition.runs if found.edition else ())
