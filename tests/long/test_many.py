"""800 reports of three editions each: the work and the bytes of a page grow in proportion or not at all."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from generator.host import plugin
from generator.host.build import build
from tests.host import samples
from tests.host.test_plugin import with_editions
from tests.site.counted import calls_of, exponent

SIZES = (100, 200, 400, 800)


def test_eight_hundred_reports(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    work: dict[int, float] = {}
    whole: dict[int, float] = {}
    for size in SIZES:
        bench = samples.bench(tmp_path / str(size))
        made = with_editions(samples.site(size))
        monkeypatch.setattr(plugin, "generated", lambda *_, made=made, **__: made)
        work[size] = calls_of(lambda bench=bench: build(bench))
        pages = [path.stat().st_size for path in (bench / "site").rglob("r/**/index.html")]
        assert len(pages) == 4 * size
        whole[size] = sum(pages)
    sys.stdout.write(f"\ncalls as the power {exponent(work):.3f}, bytes as the power {exponent(whole):.3f}\n")
    assert exponent(work) <= 1.1
    assert exponent(whole) <= 1.1
