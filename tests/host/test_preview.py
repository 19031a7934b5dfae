"""Serving: one build a save, none without one, and a fault brings nothing down."""

from __future__ import annotations

import socket
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.host.hearing import BuildRefused
from generator.host.preview import WAITING, Preview
from tests.host.served import DEADLINE, Served, let_the_watcher_look, wait_for


@pytest.fixture
def served(bench: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Served]:
    made = Served(bench, monkeypatch)
    yield made
    made.stop()


def test_one_build_a_save_and_none_without_one(served: Served) -> None:
    served.start()
    assert "It says format: 1." in served.front()
    let_the_watcher_look(served)
    assert served.builds == 1

    served.save("something new")
    wait_for(lambda: served.said.count("Built.") == 2)
    assert "It says something new." in served.front()
    let_the_watcher_look(served)
    assert served.builds == 2

    about = served.bench / "reports" / "pages" / "about.md"
    new = served.bench / "new"
    new.write_text("# About\n\nRewritten.\n", encoding="utf-8")
    new.replace(about)
    wait_for(lambda: served.said.count("Built.") == 3)
    let_the_watcher_look(served)
    assert served.builds == 3


def test_a_broken_record_is_told_once_and_the_pages_stay(served: Served) -> None:
    served.start()
    served.save("broken")
    wait_for(lambda: len(served.said) == 3)
    assert served.said[2] == (f"reports/bench.yml:1:1: broken\n   1 | broken\n     | ^\n1 fault\n{WAITING}")
    assert "It says format: 1." in served.front()
    served.save("mended")
    wait_for(lambda: len(served.said) == 4)
    assert "It says mended." in served.front()


def test_a_record_broken_at_the_start_is_told_and_waited_for(served: Served) -> None:
    served.record.write_text("broken", encoding="utf-8")
    served.start()
    assert served.said[0].endswith(WAITING)
    assert served.said[1].startswith("Showing the site at ")
    let_the_watcher_look(served)
    served.save("mended")
    wait_for(lambda: len(served.said) == 3)
    assert served.said[2] == "Built."
    assert "It says mended." in served.front()


def test_settings_broken_while_serving_are_told(served: Served) -> None:
    served.start()
    new = served.bench / "new"
    new.write_text("site_name: [\n", encoding="utf-8")
    new.replace(served.bench / "mkdocs.yml")
    wait_for(lambda: len(served.said) == 3)
    assert "mkdocs.yml" in served.said[2]
    assert "It says format: 1." in served.front()


def test_a_page_that_is_not_there_shows_the_sites_own_answer(served: Served) -> None:
    served.start()
    with pytest.raises(urllib.error.HTTPError) as missing:
        urllib.request.urlopen(f"{served.url}nowhere/", timeout=DEADLINE)  # noqa: S310
    with missing.value as answer:
        assert "404 - Not found" in answer.read().decode()


def test_settings_broken_at_the_start_are_told(bench: Path) -> None:
    (bench / "mkdocs.yml").write_text("docs_dir: gone\n", encoding="utf-8")
    with pytest.raises(BuildRefused, match=r"Config value .site_name.: Required"):
        Preview(bench, "127.0.0.1:0", lambda _: None)


def test_an_address_in_use_is_told(bench: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        address = f"127.0.0.1:{taken.getsockname()[1]}"
        with pytest.raises(BuildRefused, match=f"can't listen on {address}: Address already in use"):
            Preview(bench, address, lambda _: None).run()
