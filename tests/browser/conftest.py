"""A Chromium with a fresh profile, folders served on this machine, and visits that keep a log."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)

# Runs before any script of the page; a violation is kept even if the page moves on at once.
LISTENER = """
window.__violations = [];
document.addEventListener("securitypolicyviolation", event =>
  window.__violations.push(`${event.violatedDirective}: ${event.blockedURI} ${event.sample}`));
"""


@dataclass
class Visit:
    """An open page and what happened on it.

    Attributes:
        page: The page.
        requests: Every address asked for, in order, those of workers too.
        troubles: Errors and warnings of the console, scripts' errors, answers of 400 and above.
    """

    page: Page
    requests: list[str] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    def paths(self) -> list[str]:
        return [urlsplit(address).path for address in self.requests]

    def hosts(self) -> set[str]:
        return {urlsplit(address).netloc for address in self.requests if not address.startswith("data:")}

    def violations(self) -> list[str]:
        found: list[str] = self.page.evaluate("window.__violations")
        return found


Open = Callable[..., Visit]
Serve = Callable[..., str]


def chromium() -> str:
    """Path of a Chromium; without one the tests are skipped, on a build machine they fail."""
    named = os.environ.get("PROVEBOOK_CHROMIUM")
    places = (
        [named] if named else ["/usr/bin/chromium", shutil.which("chromium"), shutil.which("google-chrome")]
    )
    found = next((place for place in places if place and Path(place).exists()), None)
    if found:
        return found
    reason = f"no Chromium at {', '.join(place for place in places if place)}; name one by PROVEBOOK_CHROMIUM"
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium()
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, args=list(QUIET))
        yield launched
        launched.close()


class _Handler(SimpleHTTPRequestHandler):
    def __init__(self, *given: Any, mount: str, headers: dict[str, str], **more: Any) -> None:
        self.mount = mount
        self.headers_too = headers
        super().__init__(*given, **more)

    def translate_path(self, path: str) -> str:
        if not path.startswith(self.mount):
            return str(Path(self.directory) / "not-there")
        return super().translate_path(path[len(self.mount) - 1 :])

    def end_headers(self) -> None:
        for name, value in self.headers_too.items():
            self.send_header(name, value)
        super().end_headers()

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="session")
def serve_folder() -> Iterator[Serve]:
    """Serves a folder: `serve_folder(path, mount="/bench/", headers={…})` → its address with the slash."""
    with ExitStack() as stack:

        def serve(folder: Path, mount: str = "/", headers: dict[str, str] | None = None) -> str:
            handler = partial(_Handler, directory=str(folder), mount=mount, headers=headers or {})
            server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
            threading.Thread(target=server.serve_forever, daemon=True).start()
            stack.callback(server.server_close)
            stack.callback(server.shutdown)
            return f"http://127.0.0.1:{server.server_address[1]}{mount}"

        yield serve


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Open]:
    """Opens an address in a fresh profile: `open_page(url, width=360, dark=True, scripts=False)`."""
    with ExitStack() as stack:

        def open_(
            url: str,
            *,
            width: int = 360,
            height: int = 800,
            dark: bool = False,
            scripts: bool = True,
            settled: bool = True,
        ) -> Visit:
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme="dark" if dark else "light",
                java_script_enabled=scripts,
                device_scale_factor=2 if width < 600 else 1,
            )
            stack.callback(context.close)
            context.set_default_timeout(30_000)
            context.add_init_script(LISTENER)
            visit = Visit(context.new_page())
            context.on("request", lambda request: visit.requests.append(request.url))
            context.on("response", lambda answer: _note(visit, answer.status, answer.url))
            context.on("console", lambda said: _note_said(visit, said))
            visit.page.on("pageerror", lambda error: visit.troubles.append(str(error)))
            visit.page.goto(url)
            if settled:  # a page that reloads itself never is
                visit.page.wait_for_load_state("networkidle")
            return visit

        yield open_


def _note(visit: Visit, status: int, url: str) -> None:
    if status >= 400:
        visit.troubles.append(f"{status} {url}")


def _note_said(visit: Visit, said: Any) -> None:
    if said.type in {"error", "warning"}:
        visit.troubles.append(said.text)
