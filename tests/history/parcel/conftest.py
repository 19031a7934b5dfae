"""What the tests of parcels share."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from tests.history.benches import REPORT, demo, edited, example, published
from tests.history.parcel.parcels import files_of

FUSES = "fuse-holders-30a"
TERMINALS = "ring-terminals-m6"


@pytest.fixture(scope="session")
def small(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The parcel of the example's only edition."""
    folder = example(tmp_path_factory.mktemp("small") / "b")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert published(REPORT, "--date", "2026-02-01").exit_code == 0
    return files_of(folder, REPORT)


@pytest.fixture(scope="session")
def twice(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with a photo, whose file tells a place, two editions of one report and one of another."""
    folder = demo(tmp_path_factory.mktemp("twice") / "b")
    photo = folder / f"reports/{FUSES}/photos/lever.jpg"
    photo.parent.mkdir(exist_ok=True)
    Image.new("RGB", (16, 12), "grey").save(photo, comment=b"taken at 54.3233 N, 10.1228 E")
    record = folder / f"reports/{FUSES}/report.yml"
    text = record.read_text(encoding="utf-8")
    record.write_text(f"{text.rstrip()}\nphotos: {{lever.jpg: A lever}}\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert published(FUSES, "--date", "2026-11-20").exit_code == 0
        edited(record, ("because: half the price", "because: it costs half as much"))
        amend = ("--reason", "wording", "--summary", "Said in other words.", "--date", "2026-11-22")
        assert published(FUSES, *amend).exit_code == 0
        assert published(TERMINALS, "--date", "2026-11-23").exit_code == 0
    return folder
