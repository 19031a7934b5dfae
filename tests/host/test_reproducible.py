"""The same records give the same bytes: any folder, time zone, locale, hash seed and day."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("another_day.py")
PLAIN = {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "0"}


def built(folder: Path, day: str, settings: dict[str, str]) -> dict[str, bytes]:
    environment = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    subprocess.run([sys.executable, SCRIPT, folder, day], env={**environment, **settings}, check=True)
    site = folder / "site"
    return {
        path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()
    }


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    return built(tmp_path_factory.mktemp("plain") / "bench", "2026-09-02", PLAIN)


@pytest.mark.parametrize(
    ("folder", "day", "settings"),
    [
        ("another/Ordner mit Lücke", "2026-09-02", {}),
        ("bench", "2031-01-01", {}),
        ("bench", "2026-09-02", {"TZ": "Pacific/Kiritimati"}),
        ("bench", "2026-09-02", {"LC_ALL": "tr_TR.UTF-8"}),
        ("bench", "2026-09-02", {"PYTHONHASHSEED": "4242"}),
        ("x", "1999-12-31", {"TZ": "America/Adak", "LC_ALL": "tr_TR.UTF-8", "PYTHONHASHSEED": "7"}),
    ],
    ids=["folder", "day", "time zone", "locale", "hash seed", "all at once"],
)
def test_two_builds_are_the_same_bytes(
    tmp_path: Path, plain: dict[str, bytes], folder: str, day: str, settings: dict[str, str]
) -> None:
    again = built(tmp_path / folder, day, {**PLAIN, **settings})
    assert again.keys() == plain.keys()
    assert [name for name in sorted(plain) if again[name] != plain[name]] == []
    assert "r/holders-0003/index.html" in plain
