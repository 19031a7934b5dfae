"""A page that is looked at while its record is edited."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Open
from tests.host import samples
from tests.host.served import Served, wait_for

pytestmark = pytest.mark.browser


def test_a_page_loads_itself_again_after_a_save(
    open_page: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    served = Served(samples.bench(tmp_path / "bench"), monkeypatch)
    served.start()
    try:
        visit = open_page(served.url, settled=False)
        expect(visit.page.get_by_text("It says format: 1.")).to_be_visible()
        wait_for(
            lambda: any("/livereload/" in path for path in visit.paths()), turn=visit.page.wait_for_timeout
        )
        served.save("something new")
        expect(visit.page.get_by_text("It says something new.")).to_be_visible(timeout=30_000)
        assert visit.troubles == []
        assert visit.violations() == []
    finally:
        served.stop()
