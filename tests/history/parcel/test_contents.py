"""What a parcel holds: what the edition rests on, nothing of a draft, no photo, the same bytes for ever."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from generator.history.parcel.archive import packed, unpacked
from generator.records.bench import load
from tests.history.benches import ROOT, edited
from tests.history.parcel.conftest import FUSES, TERMINALS
from tests.history.parcel.parcels import files_of, parcel_of

SITTING = "reports/sittings/2026-03-04.yml"
METER = "reports/instruments/logger-1.yml"


def records_of(files: dict[str, bytes]) -> set[str]:
    return {name for name in files if name.startswith("reports/")}


def test_it_holds_what_the_edition_rests_on_and_the_editions_before_it(twice: Path) -> None:
    edition = load(twice).reports[FUSES].editions[2]
    rested = {f"reports/{name}" for name in edition.rests_on if "/photos/" not in name}
    editions = {f"reports/{FUSES}/editions/{number}.yml" for number in (1, 2)}
    assert records_of(files_of(twice, FUSES, 2)) == rested | editions
    assert f"reports/{FUSES}/editions/2.yml" not in files_of(twice, FUSES, 1)


def test_records_of_one_report_alone_lie_as_at_the_bench(twice: Path) -> None:
    files = files_of(twice, TERMINALS)
    own = [name for name in files if name.startswith((f"reports/{TERMINALS}/", "reports/methods/"))]
    assert len(own) > 10
    for name in own:
        assert files[name] == (twice / name).read_bytes()


def test_no_photo_is_in_it(twice: Path) -> None:
    data = parcel_of(twice, FUSES, 2)
    assert b"54.3233" not in data
    readme = files_of(twice, FUSES, 2)["README.txt"].decode()
    at = load(twice).reports[FUSES].editions[2].rests_on[f"{FUSES}/photos/lever.jpg"].hash
    assert f"- {FUSES}/photos/lever.jpg  {at}" in readme.partition("Not in this parcel")[2]


def test_what_grows_beside_it_is_not_in_it(twice: Path) -> None:
    before = parcel_of(twice, FUSES, 1), parcel_of(twice, FUSES, 2)
    kept = {name: (twice / name).read_bytes() for name in (SITTING, METER)}
    try:
        edited(
            twice / SITTING,
            ("# One piece of each in series", "# Not to be told yet. One piece of each in series"),
            ("place: workshop", "place:   workshop"),
        )
        edited(
            twice / METER,
            ("notes: ", "serial: A-1\nnotes: New batteries. "),
            ("CH8: k8}", "CH8: k8, CH9: k9}"),
        )
        edited(twice / METER, ("  k8: type K class 1", "  k8: type K class 1\n  k9: type K class 2"))
        assert load(twice).faults == ()
        assert (parcel_of(twice, FUSES, 1), parcel_of(twice, FUSES, 2)) == before
    finally:
        for name, data in kept.items():
            (twice / name).write_bytes(data)


def test_a_draft_run_of_a_sitting_is_not_in_it(twice: Path) -> None:
    before = parcel_of(twice, FUSES, 1)
    path = twice / SITTING
    kept = path.read_bytes()
    try:
        head, _, table = kept.decode().partition("readings: |\n")
        first, *rows = table.rstrip("\n").split("\n")
        run = "  dorvekk-r6:A:\n    method: closed-box-heating/2\n    temperature@body: logger-1/CH8\n"
        more = "\n".join([f"{first} | dorvekk-r6:A@body degC", *(f"{row} | 23.4" for row in rows)])
        path.write_text(f"{head}{run}readings: |\n{more}\n", encoding="utf-8")
        told = [
            each.what for each in load(twice).faults if "published" in each.what or "rests on" in each.what
        ]
        assert told == []
        assert b"dorvekk-r6:A" in path.read_bytes()
        assert load(twice).sittings["2026-03-04"].runs.keys() >= {"dorvekk-r6:A"}
    finally:
        path.write_bytes(kept)
    assert parcel_of(twice, FUSES, 1) == before


def test_no_chance_of_the_machine_is_in_its_bytes(twice: Path, tmp_path: Path) -> None:
    made = []
    for seed in ("1", "2"):
        there = tmp_path / f"{seed}.zip"
        code = (
            "import sys; from pathlib import Path; from tests.history.parcel.parcels import parcel_of;"
            "Path(sys.argv[2]).write_bytes(parcel_of(Path(sys.argv[1]), sys.argv[3], 2))"
        )
        command = [sys.executable, "-c", code, str(twice), str(there), FUSES]
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        subprocess.run(command, check=True, env=environment, cwd=tmp_path)
        made.append(there.read_bytes())
    assert made[0] == made[1] == parcel_of(twice, FUSES, 2)
    assert packed(unpacked(there)) == made[0]
