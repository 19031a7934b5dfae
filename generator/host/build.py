"""Builds and shows a bench's site through MkDocs' Python interface."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from mkdocs.commands.build import build as run_build

from generator.host.hearing import BuildRefused, own_theme, refusals, say
from generator.host.preview import Preview, settings_of

__all__ = ["BuildRefused", "build", "serve"]


def build(folder: Path, *, strict: bool = False, site_dir: Path | None = None, drafts: bool = False) -> Path:
    """Build the site of a bench.

    MkDocs' warnings go to standard error; nothing goes to standard output.

    Args:
        folder: The bench's folder, which holds mkdocs.yml.
        strict: Take MkDocs' warnings for faults, as `mkdocs build --strict` does.
        site_dir: Where to; mkdocs.yml's own `site_dir` where none is given.
        drafts: Show drafts, too, whatever mkdocs.yml says.

    Returns:
        The folder of the built site.

    Raises:
        BuildRefused: The settings or records hold faults, or two sources have one address.
    """
    with refusals():
        config = settings_of(folder, strict=strict or None, site_dir=site_dir and str(site_dir.absolute()))
        ours = config.plugins.get("provebook")
        if drafts and ours is not None:
            ours.config["drafts"] = True
        config.plugins.on_startup(command="build", dirty=False)
        try:
            with own_theme(config):
                run_build(config)
        finally:
            config.plugins.on_shutdown()
    return Path(config.site_dir)


def serve(
    folder: Path, address: str, *, open_browser: bool = False, tell: Callable[[str], None] = say
) -> None:
    """Show the site and build it again after each save, until interrupted.

    A broken record, at start too, is told once; the pages from before stay until it is mended.

    Args:
        folder: The bench's folder, which holds mkdocs.yml.
        address: Where to listen, `host:port`.
        open_browser: Open the front page in a browser.
        tell: Takes each message for a person.

    Raises:
        BuildRefused: mkdocs.yml cannot be read, or the address cannot be listened on.
    """
    Preview(folder, address, tell).run(open_browser=open_browser)
