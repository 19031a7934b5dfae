"""From records to site twice, in two worlds: the same bytes."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("build_as_if.py")
OPTIONAL = ("orjson", "rich", "uvloop", "numexpr", "bottleneck", "kaleido")
"""Packages that libraries use when they happen to be there. None may change a byte."""

LOUD = "def __getattr__(name):\n    raise AttributeError(f'an optional package was asked for {name}')\n"


def built(folder: Path, day: str, settings: dict[str, str]) -> dict[str, bytes]:
    environment = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    command = [sys.executable, str(SCRIPT), str(folder), day]
    subprocess.run(command, env={**environment, **settings}, check=True, capture_output=True)
    site = folder / "site"
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    settings = {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "0"}
    return built(tmp_path_factory.mktemp("first") / "bench", "2026-09-02", settings)


def differing(first: dict[str, bytes], second: dict[str, bytes]) -> list[str]:
    assert first
    assert first.keys() == second.keys()
    return [name for name in sorted(first) if first[name] != second[name]]


def test_folder_day_zone_locale_and_hash_seed_change_nothing(first: dict[str, bytes], tmp_path: Path) -> None:
    settings = {"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "PYTHONHASHSEED": "4242"}
    settings |= {"OPENBLAS_NUM_THREADS": "1"}
    assert differing(first, built(tmp_path / "Ordner mit Lücke", "2031-01-01", settings)) == []


def test_optional_packages_change_nothing(first: dict[str, bytes], tmp_path: Path) -> None:
    added = tmp_path / "added"
    added.mkdir()
    for name in OPTIONAL:
        (added / f"{name}.py").write_text(LOUD, encoding="utf-8")
    settings = {"PYTHONPATH": str(added)}
    assert differing(first, built(tmp_path / "bench", "2026-09-02", settings)) == []
