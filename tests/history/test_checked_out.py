"""A bench that git has handled: its line ends, by whatever setting, make no published record look edited."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from hashlib import sha256
from pathlib import Path

import pytest

from generator.records.bench import load
from tests.history.benches import REPORT, RUN, edited, example, published, run

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="this machine has no git")

LOG = {"lf.csv": b"time,CH1\n0,20.0\n", "crlf.csv": b"time,CH1\r\n0,20.0\r\n"}
"""Files as two meters wrote them; git would like to change one of them each way."""


def git(folder: Path, *arguments: str) -> None:
    nobody = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
    author = ("-c", "user.name=A bench", "-c", "user.email=a@bench.example", "-c", "core.safecrlf=false")
    command = ["git", *author, *arguments]
    subprocess.run(command, cwd=folder, env={**os.environ, **nobody}, check=True, capture_output=True)


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A bench with an edition and two meters' files, in git as `new bench` sets it up."""
    folder = example(tmp_path_factory.mktemp("kept") / "b")
    originals = folder / f"reports/{REPORT}/originals"
    originals.mkdir()
    named = []
    for name, data in LOG.items():
        (originals / name).write_bytes(data)
        named.append(
            f"  - {{file: {name}, sha256: {sha256(data).hexdigest()}, lines: 2, columns: {{CH1: ambient}}}}\n"
        )
    with (folder / RUN).open("a", encoding="utf-8") as record:
        record.write(f"originals:\n{''.join(named)}")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        done = published(REPORT, "--date", "2026-02-01")
        assert done.exit_code == 0, done.output
    git(folder, "init", "-q")
    git(folder, "add", "-A")
    git(folder, "commit", "-qm", "All of it")
    return folder


def checked_out(kept: Path, folder: Path, setting: str) -> Path:
    git(
        kept.parent, "-c", f"core.autocrlf={setting}", "clone", "-q", "--no-hardlinks", str(kept), str(folder)
    )
    return folder


@pytest.mark.parametrize("setting", ["true", "input", "false"])
@pytest.mark.parametrize("attributes", [True, False], ids=["as begun", "without .gitattributes"])
def test_published_records_are_as_they_were(
    kept: Path, tmp_path: Path, setting: str, attributes: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = kept
    if not attributes:
        source = shutil.copytree(kept, tmp_path / "bare")
        (source / ".gitattributes").unlink()
        git(source, "commit", "-qam", "Without")
    there = checked_out(source, tmp_path / "there", setting)
    record = (there / RUN).read_bytes()
    assert (b"\r\n" in record) == (setting == "true" and not attributes)
    faults = load(there).faults
    if attributes:
        monkeypatch.chdir(there)
        assert faults == ()
        assert run("verify").exit_code == 0
    else:
        # Nothing tells git to leave a meter's file alone: that is told as what it is, and nothing else is.
        assert all(re.match(r"of \w+\.csv only the line ends are other ones", each.what) for each in faults)
        assert bool(faults) == (setting == "true")


def test_one_digit_after_it_is_told_all_the_same(kept: Path, tmp_path: Path) -> None:
    there = checked_out(kept, tmp_path / "there", "true")
    digits = (there / RUN).read_bytes()
    (there / RUN).write_bytes(
        b"\xef\xbb\xbf# looked at\r\n" + digits.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
    )
    assert load(there).faults == ()
    edited(there / RUN, ("specimen: A", "specimen: B"))
    told = [each for each in load(there).faults if each.place.file == (there / RUN).absolute()]
    assert [each.path for each in told if "put it back" in each.what] == ["specimen"]
