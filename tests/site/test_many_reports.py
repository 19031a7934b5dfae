"""A bench of many reports with editions: its work and its bytes grow as their number, not as its square."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.host.build import build
from tests.history.benches import REPORT, edited, example, published
from tests.site.counted import calls_of, exponent

SIZES = (1, 2, 4)
MOST = 1.1
"""The power that a fit over the sizes may have: 1 is in proportion."""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """As many reports as the largest size, three editions each."""
    folder = example(tmp_path_factory.mktemp("many") / "b")
    first = folder / f"reports/{REPORT}"
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        for number in range(1, SIZES[-1] + 1):
            name = f"connectors-{number}"
            record = shutil.copytree(first, folder / f"reports/{name}") / "report.yml"
            for day in ("2026-02-01", "2026-03-01", "2026-04-01"):
                why = () if day == "2026-02-01" else ("--reason", "wording", "--summary", "In other words.")
                done = published(name, "--date", day, *why)
                assert done.exit_code == 0, done.output
                edited(record, ("because: ", "because: said anew, "))
    shutil.rmtree(first)
    return folder


def test_it_grows_in_proportion(bench: Path, tmp_path: Path) -> None:
    work: dict[int, float] = {}
    pages: dict[int, list[int]] = {}
    build(bench)  # What is read once in a program is read here.
    for size in SIZES:
        less = shutil.copytree(bench, tmp_path / str(size), ignore=shutil.ignore_patterns("site"))
        for number in range(size + 1, SIZES[-1] + 1):
            shutil.rmtree(less / f"reports/connectors-{number}")
        work[size] = calls_of(lambda bench=less: build(bench))  # type: ignore[misc]
        own = less.glob("site/r/connectors-*/[123]/index.html")
        pages[size] = sorted(path.stat().st_size for path in own)
        assert len(pages[size]) == 3 * size
    # What does not grow at all is no part of the growth.
    fixed = 2 * work[SIZES[0]] - work[SIZES[1]]
    assert exponent({size: found - fixed for size, found in work.items()}) <= MOST
    assert exponent(work) <= MOST
    assert {size: found[-1] for size, found in pages.items()} == dict.fromkeys(SIZES, pages[SIZES[0]][-1])
