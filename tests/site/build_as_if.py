"""Builds a copy of the demo bench as if on another day; run by test_same_bytes.py.

Usage: build_as_if.py FOLDER YYYY-MM-DD
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from generator.host.build import build  # noqa: E402
from tests.host.another_day import shift  # noqa: E402


def main(folder: Path, day: str) -> None:
    files = sorted((ROOT / "reports").rglob("*"), reverse=day > "2030")
    for path in files:
        if path.is_file():
            copy = folder / path.relative_to(ROOT)
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, copy)
    shutil.copyfile(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    shift(day)
    build(folder)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
