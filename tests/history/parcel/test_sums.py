"""`SHA256SUMS` is what `sha256sum -c` takes, and tells each file that is otherwise."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from generator.history.parcel.sums import SUMS, otherwise, sums

FILES = {"a/b.yml": b"x: 1\n", "c.csv": b"1,2\r\n"}
WHOLE = {**FILES, SUMS: sums(FILES)}


def test_nothing_is_otherwise() -> None:
    assert list(otherwise(WHOLE)) == []
    stars = {**WHOLE, SUMS: WHOLE[SUMS].replace(b"  ", b" *").replace(b"\n", b"\r\n")}
    assert list(otherwise(stars)) == []


def test_each_file_that_is_otherwise() -> None:
    assert list(otherwise({**WHOLE, "c.csv": b"1,3\r\n"})) == [("other-bytes", "c.csv")]
    assert list(otherwise({**WHOLE, "d.yml": b""})) == [("not-listed", "d.yml")]
    assert list(otherwise({"c.csv": FILES["c.csv"], SUMS: WHOLE[SUMS]})) == [("gone", "a/b.yml")]
    assert list(otherwise(FILES)) == [("no-sums", SUMS)]
    assert list(otherwise({**WHOLE, SUMS: WHOLE[SUMS] + b"what is this\n"})) == [("odd-line", "what is this")]


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="no sha256sum on this machine")
def test_coreutils_reads_it(tmp_path: Path) -> None:
    for name, content in WHOLE.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(content)
    command = ["sha256sum", "--strict", "-c", SUMS]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert done.stdout.splitlines() == ["a/b.yml: OK", "c.csv: OK"]
    (tmp_path / "c.csv").write_bytes(b"1,3\r\n")
    assert subprocess.run(command, cwd=tmp_path, capture_output=True, check=False).returncode == 1
