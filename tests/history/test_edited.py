"""A published record that is edited is told by `check`, `build` and `verify`; how it is written is free.

The demo has runs, a sitting, tables beside records, several versions of a method and every kind of meter.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from generator.records.bench import load
from generator.records.fingerprint import Canonical, canonical
from generator.records.source import read
from tests.history.benches import demo, edited, published, run, tree
from tests.history.otherwise import turned
from tests.records.sealed import resealed

FUSES = "fuse-holders-30a"
RUN = f"reports/{FUSES}/runs/2026-02-24-tessvik-b.yml"
SITTING = "reports/sittings/2026-03-04.yml"
EDITION = f"reports/{FUSES}/editions/1.yml"
PHOTO = f"reports/{FUSES}/photos/lever.jpg"


@pytest.fixture(scope="module")
def twice(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with a photo and two editions of its first report."""
    folder = demo(tmp_path_factory.mktemp("twice") / "b")
    (folder / PHOTO).parent.mkdir(exist_ok=True)
    Image.new("RGB", (16, 12), "grey").save(folder / PHOTO, comment=b"drawn by nobody")
    record = folder / f"reports/{FUSES}/report.yml"
    text = record.read_text(encoding="utf-8")
    record.write_text(f"{text.rstrip()}\nphotos: {{lever.jpg: A lever}}\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert published(FUSES, "--date", "2026-10-20").exit_code == 0
        edited(record, ("because: half the price", "because: it costs half as much"))
        amend = ("--reason", "wording", "--summary", "Said in other words.", "--date", "2026-11-02")
        assert published(FUSES, *amend).exit_code == 0
    return folder


@pytest.fixture
def bench(twice: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The same, put back after each test."""
    before = tree(twice)
    monkeypatch.chdir(twice)
    yield twice
    for name in set(tree(twice)) - set(before):
        (twice / name).unlink()
    for name, data in before.items():
        (twice / name).write_bytes(data)


def test_it_is_sound_before(bench: Path) -> None:
    assert load(bench).faults == ()


@pytest.mark.parametrize(
    ("name", "change", "path"),
    [
        (RUN, (r"(?m)^  10( +\| )(\d)(\d)\.", r"  10\g<1>\g<2>9."), "readings"),
        (RUN, ("specimen: B", "specimen: C"), "specimen"),
        (SITTING, (r"(?m)^  10( +\| )(\d)(\d)\.", r"  10\g<1>\g<2>9."), "readings"),
        ("reports/sittings/zero-2026-03-04.csv", (r"(?m)^(\d.*)\.(\d)$", r"\1.9"), ""),
        ("reports/methods/closed-box-heating/2.yml", ("105|110", "111"), "stop-limit"),
        ("reports/instruments/logger-1.yml", (r"0\.5 degC", "0.4 degC"), "ranges"),
        ("reports/instruments/clamp-2.yml", ("2025-11-03", "2025-11-04"), "calibrations"),
        (PHOTO, ("nobody", "no-one"), ""),
        (EDITION, ('value: "28', 'value: "27'), "figures"),
        (EDITION, ("because: half the price", "because: double the price"), "content.report.because"),
        (EDITION, ('date: "2026-10-20"', 'date: "2026-10-21"'), "date"),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_one_digit_is_told_with_its_place(bench: Path, name: str, change: tuple[str, str], path: str) -> None:
    file = bench / name
    data = file.read_bytes().decode("latin-1")
    other = re.sub(change[0], change[1], data, count=1)
    assert other != data, f"{name} has no {change[0]}"
    file.write_bytes(other.encode("latin-1"))
    told = [each for each in load(bench).faults if each.place.file == file.absolute() and each.path == path]
    assert len(told) == 1
    assert "put it back" in told[0].what
    if path == "readings":
        assert told[0].place.text.split("|")[0].strip() == "10"
    for command in ("check", "verify"):
        done = run(command)
        assert done.exit_code == 1
        assert f"{name}:" in done.output


def test_build_refuses_it_too(bench: Path) -> None:
    edited(bench / RUN, ("specimen: B", "specimen: C"))
    done = run("build")
    assert done.exit_code == 1
    assert f"{RUN}:" in done.output
    assert not (bench / "site").exists()


def said(file: Path) -> Canonical:
    root = read(file).root
    assert root is not None
    return canonical(root)


def test_how_everything_is_written_is_free(bench: Path) -> None:
    rests_on = load(bench).reports[FUSES].editions[2].rests_on
    for name in (*rests_on, f"{FUSES}/editions/1.yml", f"{FUSES}/editions/2.yml"):
        file = bench / "reports" / name
        if name.endswith(".yml"):
            before = said(file)
            file.write_bytes(turned(file.read_bytes()))
            assert said(file) == before, name
        elif name.endswith(".csv"):
            file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes().replace(b",", b";").replace(b"\n", b"\r\n"))
    done = run("check")
    assert done.exit_code == 0, done.output
    assert run("verify").exit_code == 0


def test_an_edition_that_is_edited_and_sealed_anew_is_told_by_the_next(bench: Path) -> None:
    file = bench / EDITION
    file.write_text(resealed(file.read_text(encoding="utf-8"), summary="As it always was."), encoding="utf-8")
    (fault,) = load(bench).faults
    assert fault.path == "follows"
    assert "this is not the fingerprint of edition 1" in fault.what


def test_what_is_outside_every_edition_may_grow(bench: Path) -> None:
    folder = bench / f"reports/{FUSES}"
    (folder / "links.yml").write_text(
        "videos:\n  - {address: https://video.example/1, date: 2026-03-21, edition: 1}\n", encoding="utf-8"
    )
    meter = bench / "reports/instruments/clamp-2.yml"
    edited(meter, ("calibrations:\n", "notes: Repaired in May.\ncalibrations:\n"))
    assert load(bench).faults == ()
