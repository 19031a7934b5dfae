"""From records to site twice, in two worlds: the same bytes."""

from __future__ import annotations

import os
import platform
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).with_name("build_as_if.py")
OPTIONAL = ("orjson", "rich", "uvloop", "numexpr", "bottleneck", "kaleido")
"""Packages that libraries use when they happen to be there. None may change a byte."""

LOUD = """\
__version__ = "999.0"


def __getattr__(name):
    raise AttributeError(f"an optional package was asked for {name}")
"""
"""There and new enough, as pandas asks when it is loaded; used for nothing."""


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


OTHER_PROCESSORS = {
    # numpy and scipy have a code of their own for each processor and pick it when they are loaded; these take
    # away what a processor of the last ten years has beyond the oldest that they run on.
    "plain vectors": {"NPY_DISABLE_CPU_FEATURES": "X86_V3 X86_V4 AVX2 FMA3 AVX512F AVX512_SKX ASIMDHP SVE"},
    # The matrix library's code for a processor of 2008.
    "an old matrix library": {"OPENBLAS_CORETYPE": "Nehalem"},
    # The C library's exp, log and erfc differ in their last bit with and without fused multiply and add.
    "no fused multiply": {"GLIBC_TUNABLES": "glibc.cpu.hwcaps=-AVX2_Usable,-FMA_Usable,-AVX2,-FMA,-FMA4"},
    "one thread": {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"},
}


def test_the_processor_and_its_threads_change_nothing(first: dict[str, bytes], tmp_path: Path) -> None:
    # Each alone is one more build; together they take every other path there is at once.
    settings = {key: value for each in OTHER_PROCESSORS.values() for key, value in each.items()}
    settings |= {"PYTHONWARNINGS": "ignore"}  # numpy warns of features that this processor does not have
    assert differing(first, built(tmp_path / "bench", "2026-09-02", settings)) == []


def test_the_settings_that_stand_for_another_processor_take_effect() -> None:
    script = (
        "import math, random, numpy as np\n"
        "drawn = random.Random(1)\n"
        "values = [drawn.uniform(-20, 5) for _ in range(100_000)]\n"
        "print([math.exp(x).hex() for x in values], np.exp(np.array(values)).tobytes().hex())\n"
    )

    def told(settings: dict[str, str]) -> str:
        command = [sys.executable, "-W", "ignore", "-c", script]
        environment = {**os.environ, **settings}
        return subprocess.run(command, env=environment, check=True, capture_output=True, text=True).stdout

    if platform.libc_ver()[0] != "glibc" or "fma" not in _processor():
        pytest.skip("no fused multiply and add here that could be taken away")
    assert told({}) != told(OTHER_PROCESSORS["no fused multiply"])


def _processor() -> str:
    described = Path("/proc/cpuinfo")
    return described.read_text(encoding="utf-8") if described.is_file() else ""
