"""`publish`: what it writes, what it tells before, and why it refuses."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest

from generator.cli.publish import REASONS
from generator.history.frozen import as_published
from generator.records.bench import load
from generator.records.money import parse_money
from generator.records.schema.edition import Reason
from tests.history.benches import EDITIONS, REPORT, RUN, edited, published, run, tree

AMEND = ("--summary", "The second piece of each.", "--date", "2026-03-01")
ITEM = "reports/items/halvenor-c2.yml"
RECORD = f"reports/{REPORT}/report.yml"


def test_the_first_edition_is_one_file_more_and_nothing_else(bench: Path) -> None:
    before = tree(bench)
    done = published(REPORT, "--date", "2026-02-01")
    assert done.exit_code == 0
    after = tree(bench)
    assert set(after) - set(before) == {f"{EDITIONS}/1.yml"}
    assert {name: after[name] for name in before} == before
    assert f"https://your-bench.example/r/{REPORT}/1/" in done.output
    assert "halvenor-c2 rise: " in done.output
    assert run("check", "--strict").exit_code == 0


def test_the_same_records_and_day_make_the_same_bytes(once: Path) -> None:
    first = (once / EDITIONS / "1.yml").read_bytes()
    (once / EDITIONS / "1.yml").unlink()
    assert published(REPORT, "--date", "2026-02-01").exit_code == 0
    assert (once / EDITIONS / "1.yml").read_bytes() == first


def test_a_dry_run_tells_and_writes_nothing(bench: Path) -> None:
    before = tree(bench)
    done = published(REPORT, "--date", "2026-02-01", "--dry-run")
    assert done.exit_code == 0
    assert "Nothing was written" in done.output
    assert tree(bench) == before


def test_an_amendment_tells_figures_old_and_new(once: Path) -> None:
    edited(
        once / RECORD,
        ("runs: all", "runs: [2026-01-12-halvenor-a, 2026-01-13-halvenor-b, 2026-01-12-quorsby-a]"),
        ("choice: halvenor-c2", "choice: quorsby-q2"),
    )
    done = published(REPORT, "--reason", "correction", *AMEND, "--dry-run")
    assert done.exit_code == 0, done.output
    (line,) = [each for each in done.output.splitlines() if each.startswith("  quorsby-q2 rise: ")]
    was, _, now = line.removeprefix("  quorsby-q2 rise: ").partition(" → ")
    assert was.endswith(" K")
    assert " K; " in now
    assert "pieces 2 → 1" in line
    assert "choice: halvenor-c2 → quorsby-q2" in done.output
    assert f"runs left out: {REPORT}/2026-01-13-quorsby-b" in done.output


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--reason", "wording", *AMEND), "nothing changed since edition 1"),
        (AMEND, "say why there is a new edition"),
        (("--reason", "wording", "--date", "2026-03-01"), "say in a sentence what changed"),
        (
            ("--reason", "wording", "--summary", "x", "--date", "2026-01-31"),
            "its date is before that of edition 1",
        ),
        (("--reason", "wording", "--summary", "x", "--date", "2026-01-01"), "that of its newest run"),
    ],
)
def test_refusals_say_why(once: Path, arguments: tuple[str, ...], told: str) -> None:
    before = tree(once)
    done = published(REPORT, *arguments)
    assert done.exit_code == 2
    assert told in done.output
    assert "nothing was written" in done.output
    assert tree(once) == before


def test_a_retest_rests_on_new_runs(once: Path) -> None:
    edited(once / RECORD, ("cold hands", "wet hands"))
    done = published(REPORT, "--reason", "retest", *AMEND)
    assert done.exit_code == 2
    assert "a retest rests on new runs" in done.output


def test_the_first_edition_amends_none(bench: Path) -> None:
    done = published(REPORT, "--reason", "addition", *AMEND)
    assert done.exit_code == 2
    assert "the first edition amends none" in done.output
    assert not (bench / EDITIONS).exists()


def test_without_an_address_nothing_is_published(bench: Path) -> None:
    edited(bench / "reports/bench.yml", ("site-address: https://your-bench.example/ ", "# "))
    done = published(REPORT, "--date", "2026-02-01")
    assert done.exit_code == 2
    assert "has no site-address" in done.output
    assert not (bench / EDITIONS).exists()


def test_a_report_with_faults_is_not_published(bench: Path) -> None:
    edited(bench / RUN, ("specimen: A", "specimen: Z"))
    done = published(REPORT, "--date", "2026-02-01")
    assert done.exit_code == 1
    assert "specimen" in done.output
    assert not (bench / EDITIONS).exists()


@pytest.mark.parametrize(
    ("name", "change", "what"),
    [
        (RECORD, ("choice: halvenor-c2", "choice: quorsby-q2"), "the choice"),
        (RECORD, ("initiative: own", "initiative: a reader"), "the disclosure"),
        ("reports/bench.yml", ("whether any link earns you money", "that none does"), "the disclosure"),
        (ITEM, ("0.55 EUR", "0.65 EUR"), "pieces and how they were had"),
        ("reports/bench.yml", ("value: 40 degC", "value: 50 degC"), "limits"),
    ],
)
def test_a_change_of_wording_changes_words_alone(
    once: Path, name: str, change: tuple[str, str], what: str
) -> None:
    edited(once / name, change)
    done = published(REPORT, "--reason", "wording", *AMEND)
    assert done.exit_code == 2
    assert "a change of wording changes words alone" in done.output
    assert what in done.output.rpartition("(")[2]
    assert published(REPORT, "--reason", "correction", *AMEND).exit_code == 0


def test_words_may_change_as_wording(once: Path) -> None:
    edited(once / RECORD, ("cold hands", "wet hands"))
    done = published(REPORT, "--reason", "wording", *AMEND)
    assert done.exit_code == 0, done.output
    assert "text and facts: report.because" in done.output
    assert run("check", "--strict").exit_code == 0


def test_a_withdrawal_needs_no_other_change_and_is_one_once(once: Path) -> None:
    done = published(REPORT, "--reason", "withdrawal", *AMEND)
    assert done.exit_code == 0, done.output
    assert "its figures leave the comparison table" in done.output
    again = published(REPORT, "--reason", "withdrawal", *AMEND)
    assert again.exit_code == 2
    assert "edition 2 has withdrawn it already" in again.output
    assert "as edition 2 has them" in run("history", REPORT).output
    assert (once / EDITIONS / "2.yml").exists()


def test_a_report_is_had_back_as_it_was_published(once: Path) -> None:
    edited(once / ITEM, ("0.55 EUR", "0.65 EUR"))
    edited(once / RECORD, ("cold hands", "wet hands"))
    edited(once / "reports/instruments/clamp-1.yml", ("clamp meter", "old clamp meter"))
    edited(once / "reports/bench.yml", ("demonstration: true", "demonstration: false"))
    bench = load(once)
    assert bench.faults == ()
    report = bench.reports[REPORT]
    was, then = as_published(bench, report, report.editions[1])
    assert then.record.because == "it is easier to open with cold hands"
    assert was.items["halvenor-c2"].specimens["A"].paid == parse_money("0.55 EUR")
    assert was.instruments["clamp-1"].name == "clamp meter"
    assert was.instruments["clamp-1"].ranges == bench.instruments["clamp-1"].ranges
    assert was.settings.demonstration
    assert was.settings.site_address is None
    assert list(then.runs) == list(report.runs)


def test_what_comes_later_is_no_part_of_an_older_edition(once: Path) -> None:
    # A third piece of an item, run after the first edition.
    item = once / ITEM
    text = item.read_text(encoding="utf-8")
    line = next(each for each in text.splitlines() if each.strip().startswith("B: {"))
    item.write_text(text.replace(line, f"{line}\n{line.replace('B: {', 'C: {')}"), encoding="utf-8")
    run_c = (once / RUN).read_text(encoding="utf-8").replace("specimen: A", "specimen: C")
    (once / f"reports/{REPORT}/runs/2026-02-12-halvenor-c.yml").write_text(
        run_c.replace("2026-01-12", "2026-02-12"), encoding="utf-8"
    )
    bench = load(once)
    assert bench.faults == ()
    report = bench.reports[REPORT]
    assert len(report.runs) == 5
    assert len(as_published(bench, report, report.editions[1])[1].runs) == 4
    done = published(REPORT, "--reason", "retest", *AMEND)
    assert done.exit_code == 0, done.output
    assert f"new runs: {REPORT}/2026-02-12-halvenor-c" in done.output
    assert "pieces 2 → 3" in done.output
    told = run("history", REPORT).output
    assert re.search(r"halvenor-c2 rise: .* K → .* K, a difference of −?\d\S* ± \d\S* K", told)
    assert "  1  2026-02-01  first published" in told
    assert "  2  2026-03-01  retest: it changed. The second piece of each." in told
    assert "pieces 2 → 3" in told
    assert run("verify").exit_code == 0


@pytest.mark.usefixtures("bench")
def test_which_report() -> None:
    for command in ("publish", "history", "verify"):
        done = run(command, "nothing")
        assert done.exit_code == 2
        assert f"no report 'nothing' here; reports of this bench: {REPORT}" in done.output
    assert "write its id behind `publish`" in run("publish").output
    assert "No edition has been published: it is a draft" in run("history", REPORT).output
    assert "No edition has been published." in run("verify").output


def test_the_reasons_offered_are_those_that_a_record_takes() -> None:
    assert get_args(Reason) == REASONS


@pytest.mark.usefixtures("bench")
def test_a_date_that_is_none() -> None:
    done = published(REPORT, "--date", "1.2.2026")
    assert done.exit_code == 2
    assert "1.2.2026" in done.output
