"""The site while records are edited: served, watched, built again, and never brought down by a fault."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from mkdocs.commands.build import build as run_build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer

from generator.host.hearing import BuildRefused, own_theme, refusals

SETTINGS = "mkdocs.yml"
WAITING = "Waiting for you to mend it and save; until then the pages stay as they were."


def settings_of(folder: Path, **given: Any) -> MkDocsConfig:
    """A bench's MkDocs settings, with some given from outside."""
    return load_config(config_file=str(folder.absolute() / SETTINGS), **given)


class _Server(LiveReloadServer):  # type: ignore[misc]  # MkDocs is not followed by the type checker
    """MkDocs' server, which says where it listens once it does."""

    tell: Callable[[str], None]

    def server_activate(self) -> None:
        super().server_activate()
        self.tell(f"Showing the site at {self.url} (stop with Ctrl+C)")


class Preview:
    """One run of the preview server.

    MkDocs' own `serve` ends when the first build fails, so the server is started here whatever the first
    build says.
    """

    def __init__(self, folder: Path, address: str, tell: Callable[[str], None]) -> None:
        self._folder = folder
        self._tell = tell
        self._site = tempfile.TemporaryDirectory(prefix="provebook_", ignore_cleanup_errors=True)
        self._given = {"site_dir": self._site.name, "dev_addr": address}
        try:
            with refusals():
                self._config = settings_of(folder, **self._given)
        except BuildRefused:
            self._site.cleanup()
            raise
        host, port = self._config.dev_addr
        mount = urlsplit(self._config.site_url or "/").path
        self._server = _Server(
            builder=self._build_again, host=host, port=port, root=self._site.name, mount_path=mount
        )
        self._server.error_handler = self._error_page
        self._server.tell = tell

    def run(self, *, open_browser: bool = False) -> None:
        """Build, listen and build again, until interrupted or stopped.

        Raises:
            BuildRefused: The address cannot be listened on.
        """
        config = self._config
        config.plugins.on_startup(command="serve", dirty=False)
        try:
            self._build(config)
            for path in (config.docs_dir, config.config_file_path):
                self._server.watch(path)
            config.plugins.on_serve(self._server, config=config, builder=self._build_again)
            for path in config.watch:
                self._server.watch(path)
            self._listen(open_browser=open_browser)
        except KeyboardInterrupt:
            self._tell("Stopped.")
        finally:
            self.stop()
            config.plugins.on_shutdown()
            self._site.cleanup()

    def stop(self) -> None:
        """End `run`, from another thread too."""
        self._server.shutdown()

    def _listen(self, *, open_browser: bool) -> None:
        try:
            self._server.serve(open_in_browser=open_browser)
        except OSError as refused:  # builds are caught inside, so this is the address
            raise BuildRefused(f"can't listen on {self._given['dev_addr']}: {refused.strerror}") from refused

    def _build_again(self) -> None:
        try:
            with refusals():
                config = settings_of(self._folder, **self._given)
        except BuildRefused as refused:
            self._tell(f"{refused}\n{WAITING}")
        else:
            self._build(config)

    def _build(self, config: MkDocsConfig) -> None:
        config.site_url = self._server.url
        try:
            with refusals(), own_theme(config):
                run_build(config, serve_url=self._server.url)
        except BuildRefused as refused:
            self._tell(f"{refused}\n{WAITING}")
        else:
            self._tell("Built.")

    def _error_page(self, code: int) -> bytes | None:
        page = Path(self._site.name) / f"{code}.html"
        return page.read_bytes() if page.is_file() else None
