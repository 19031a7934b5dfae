"""`provebook strip`: in place, all or none, never what is published."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.photos.private import told_by
from tests.photos.pictures import PLANTED, heic_head, jpeg, png
from tests.records.laid import GOOD, REPORT


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "bench"
    shutil.copytree(GOOD, folder)
    (folder / "mkdocs.yml").write_text("site_name: bench\n", encoding="utf-8")
    monkeypatch.chdir(folder)
    return folder


def _run(*names: str) -> Result:
    return CliRunner().invoke(main, ["strip", *names])


def test_photos_are_written_anew_without_what_they_told(bench: Path) -> None:
    rig, lever = bench / "rig.jpg", bench / "lever.png"
    rig.write_bytes(jpeg(orientation=6))
    lever.write_bytes(png())
    done = _run("rig.jpg", "lever.png")
    assert (done.exit_code, done.output) == (
        0,
        "Wrote rig.jpg, the picture alone.\nWrote lever.png, the picture alone.\n",
    )
    for path in (rig, lever):
        assert not told_by(path.read_bytes()).any
        assert not [word for word in PLANTED if word.encode() in path.read_bytes()]
    assert lever.read_bytes().startswith(b"\x89PNG")


def test_one_that_cannot_be_written_leaves_all_as_they_were(bench: Path) -> None:
    (bench / "rig.jpg").write_bytes(jpeg())
    (bench / "lever.jpg").write_bytes(heic_head())
    done = _run("rig.jpg", "lever.jpg")
    assert done.exit_code == 2
    assert (
        "lever.jpg: a HEIC picture can't be written; export it as JPEG; nothing was written." in done.output
    )
    assert (bench / "rig.jpg").read_bytes() == jpeg()


def test_a_published_photo_is_left_alone(bench: Path) -> None:
    name = f"reports/{REPORT}/photos/ih30-lever.png"
    before = (bench / name).read_bytes()
    done = _run(name)
    assert done.exit_code == 2
    assert f"{name} is published, and an edition keeps it as it is" in done.output
    assert (bench / name).read_bytes() == before
