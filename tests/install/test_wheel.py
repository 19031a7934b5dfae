"""The wheel alone, in an empty environment, with no clone in reach, does the whole job."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.install


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="module")
def programs(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of an environment that holds the wheel and what it asks for, nothing else."""
    folder = tmp_path_factory.mktemp("empty")
    venv.create(folder, with_pip=True)
    found = folder / ("Scripts" if os.name == "nt" else "bin")
    command = [
        str(found / "python"),
        "-m",
        "pip",
        "install",
        "-q",
        "-c",
        str(ROOT / "constraints.txt"),
        str(wheel),
    ]
    subprocess.run(command, check=True, cwd=folder)
    return found


def run(programs: Path, *command: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    environment = {"PATH": os.environ["PATH"], "HOME": str(cwd), "LANG": "C.UTF-8"}
    program = programs / command[0]
    return subprocess.run(
        [program, *command[1:]], cwd=cwd, env=environment, capture_output=True, text=True, check=True
    )


def test_it_holds_the_templates_and_the_constraints(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert "generator/constraints.txt" in names
    for folder in ("theme", "pages", "charts", "bench", "example"):
        assert any(name.startswith(f"generator/site_templates/{folder}/") for name in names)
    assert not [name for name in names if name.startswith(("tests/", "reports/"))]


def test_a_bench_from_the_wheel_alone(programs: Path, tmp_path: Path) -> None:
    run(programs, "provebook", "new", "bench", "b", "--example", cwd=tmp_path)
    bench = tmp_path / "b"
    assert "no faults" in run(programs, "provebook", "check", cwd=bench).stdout
    run(programs, "provebook", "publish", "connectors-10a", "--date", "2026-02-01", cwd=bench)
    built = json.loads(run(programs, "provebook", "build", "--json", cwd=bench).stdout)
    page = Path(built["site"]) / built["reports"][0]["page"]
    assert "±" in page.read_text(encoding="utf-8")
    run(programs, "mkdocs", "build", "--strict", "--site-dir", "plain", cwd=bench)
    plain = bench / "plain" / built["reports"][0]["page"]
    assert plain.read_bytes() == page.read_bytes()
