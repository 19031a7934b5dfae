"""What can be set under `plugins: provebook:` in mkdocs.yml; what a bench decides is in its records."""

from __future__ import annotations

from mkdocs.config import config_options as option
from mkdocs.config.base import Config


class Options(Config):  # type: ignore[misc]  # MkDocs is not followed by the type checker
    """The plugin's settings.

    Attributes:
        drafts: Whether drafts are shown, too; `provebook serve` and `build --drafts` show them always.
        plotly_script: Path, from mkdocs.yml, of a smaller plotly.js than that of the Python package.
    """

    drafts = option.Type(bool, default=False)
    plotly_script = option.Optional(option.Type(str))
