"""What can be set under `plugins: provebook:` in mkdocs.yml."""

from __future__ import annotations

from mkdocs.config.base import Config


class Options(Config):  # type: ignore[misc]  # MkDocs is not followed by the type checker
    """The plugin takes no settings: what a bench decides stands in its records."""
