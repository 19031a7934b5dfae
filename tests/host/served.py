"""A preview in a thread, and how to wait for it.

Builds are counted; the deadlines only keep a hanging server from hanging the tests.
"""

from __future__ import annotations

import socket
import threading
import time
import urllib.request
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from watchdog.utils.dirsnapshot import EmptyDirectorySnapshot

from generator.fault import Fault, Place, RecordsRefused
from generator.host import plugin
from generator.host.preview import Preview
from generator.pages.site import Site
from tests.host import samples

DEADLINE = 60.0
ROUNDS = 4
"""How often the watcher looks before the tests believe that it saw nothing."""


class Served:
    """A preview in a thread, with what it said and how often it built."""

    def __init__(self, bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.bench = bench
        self.record = bench / "reports" / "bench.yml"
        self.said: list[str] = []
        self.builds = 0
        monkeypatch.setattr(plugin, "generated", self.read)
        self.preview = Preview(bench, f"127.0.0.1:{free_port()}", self.said.append)
        self.thread = threading.Thread(target=self.preview.run, daemon=True)

    def read(self, bench: Path, **_: object) -> Site:
        """Stands for the records: the one record's text is on the front page, `broken` is a fault."""
        self.builds += 1
        text = (bench / "reports" / "bench.yml").read_text(encoding="utf-8").strip()
        if text == "broken":
            raise RecordsRefused(
                [Fault(Place(bench / "reports" / "bench.yml", 1, 1, text), "", "broken")], bench
            )
        front = samples.page("index.md", "Reports", f"# Reports\n\nIt says {text}.\n", template="front.html")
        made = samples.site()
        return replace(made, pages=(front, *(each for each in made.pages if each.uri != "index.md")))

    def save(self, text: str) -> None:
        """As an editor does: a new file takes the old one's place at once."""
        new = self.bench / "new"
        new.write_text(text, encoding="utf-8")
        new.replace(self.record)

    def start(self) -> None:
        """Start, and wait until the page can be asked for and every folder is watched."""
        self.thread.start()
        server = self.preview._server
        wait_for(server.serve_thread.is_alive)
        wait_for(
            lambda: (
                not any(
                    isinstance(each._snapshot, EmptyDirectorySnapshot) for each in server.observer.emitters
                )
            )
        )

    def stop(self) -> None:
        if self.thread.ident:
            self.preview.stop()
            self.thread.join(DEADLINE)
            assert not self.thread.is_alive()

    @property
    def url(self) -> str:
        return str(self.preview._server.url)

    def front(self) -> str:
        with urllib.request.urlopen(self.url, timeout=DEADLINE) as answer:  # noqa: S310
            return str(answer.read().decode())


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


def wait_for(
    happened: Callable[[], bool], turn: Callable[[float], None] = lambda _: time.sleep(0.02)
) -> None:
    """Wait until something happened; `turn` lets others work meanwhile, for so many milliseconds."""
    until = time.monotonic() + DEADLINE
    while not happened():
        assert time.monotonic() < until, "nothing happened"
        turn(20)


def let_the_watcher_look(served: Served) -> None:
    time.sleep(ROUNDS * served.preview._server.observer.timeout)
