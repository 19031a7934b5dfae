"""What was typed reaches the reader with every digit: `1.10` is no 1.1, a part number keeps its noughts."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from generator.evaluation.report import evaluate
from generator.pages.downloads import readings
from generator.records.bench import load
from generator.records.changes import Put
from generator.records.edit import edited
from generator.records.store import Write, write_all
from tests.pages import shelf
from tests.pages.rendered import parsed
from tests.pages.sites import made


def test_versions_and_part_numbers_on_a_page_and_readings_in_a_file(tmp_path: Path) -> None:
    folder = shelf.write(tmp_path / "bench")
    item = folder / "reports" / "items" / "halvenor-c2.yml"
    text = (
        item.read_text(encoding="utf-8")
        .replace("model: C2", "model: 1.10")
        .replace("marks: C2", "marks: 0510210600")
    )
    item.write_text(text, encoding="utf-8")
    # A command edits the record and saves it: what it does not speak of keeps its digits.
    before = item.read_bytes()
    write_all([Write(item, edited(before, item, [Put(("what",), "1.30")]), before)])
    saved = item.read_text(encoding="utf-8")
    assert "\nmodel: 1.10\n" in saved
    assert '\nwhat: "1.30"\n' in saved
    run = next(folder.glob("reports/grey-lever/runs/*.yml"))
    typed = run.read_text(encoding="utf-8")
    head, rows = typed.split("readings: |\n")
    cell = rows.splitlines()[1].split("|")[1].strip()
    run.write_text(f"{head}readings: |\n{rows.replace(cell, f'{cell}00', 1)}", encoding="utf-8")
    bench = load(folder)
    assert bench.faults == ()
    page = parsed(next(each for each in made(bench).pages if each.uri == "i/halvenor-c2/index.md"))
    assert "1.10" in page.text
    assert "1.30" in page.text
    assert "0510210600" in page.text
    report = bench.reports["grey-lever"]
    content = readings(evaluate(bench, report), report.runs).decode("utf-8")
    own = [
        each for each in csv.DictReader(io.StringIO(content, newline="")) if each["run"].endswith(run.stem)
    ]
    assert f"{cell}00" in own[0].values()
