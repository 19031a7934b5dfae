"""Where the templates are: inside an installed package, or beside the package in a clone."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parents[1]


def templates() -> Path:
    """The folder of templates, styles and scripts.

    Returns:
        `generator/site_templates` where the package was installed from a wheel, else its sibling in a clone.

    Raises:
        FileNotFoundError: Neither is there, so the installation is not whole.
    """
    for place in (PACKAGE / "site_templates", PACKAGE.parent / "site_templates"):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"no site_templates in {PACKAGE} or beside it; install provebook again")
