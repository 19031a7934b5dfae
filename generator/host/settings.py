"""What the pages rely on in MkDocs' settings, and what would break their promises.

The promises: nothing is asked of a third party, no script stands in a page, addresses stay for ever.
"""

from __future__ import annotations

import re
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from mkdocs.config.defaults import MkDocsConfig

from generator.fault import Fault, Place

RECORDS = "reports"
TEMPLATES = "site_templates"
THEME = "material"
SEARCH = f"{THEME}/search"
FAVICON = "assets/favicon.svg"

EXTENSIONS: dict[str, dict[str, Any]] = {
    "admonition": {},
    "attr_list": {},
    "md_in_html": {},
    "def_list": {},
    "footnotes": {},
    "tables": {},
    "toc": {"permalink": "#", "permalink_title": "Link to this part"},
}
"""Markdown extensions that the generated pages use, with our settings where a bench has none of its own."""

PALETTE = [
    {"media": "(prefers-color-scheme)", "scheme": "device"},
    {"media": "(prefers-color-scheme: light)", "scheme": "default"},
    {"media": "(prefers-color-scheme: dark)", "scheme": "slate"},
]
"""The theme's own names for light and dark; `device` leaves the choice to the media query in report.css."""

UNUSED = re.compile(r"assets/(stylesheets/.*|images/favicon\.png|javascripts/.*\.map)")
"""Files of the theme that no page of ours asks for: they are left out of the site."""

_SCRIPT_IN_PAGE = "writes a script into each page, which the pages' security policy forbids"
_REFUSED_FEATURES = {
    "navigation.instant": "swaps pages without loading them, so that charts are drawn twice or not at all",
    "announce.dismiss": _SCRIPT_IN_PAGE,
    "search.share": "links to a script, which the pages' security policy forbids",
}
_REFUSED_EXTRAS = {
    "analytics": "sends readers' visits to a third party",
    "consent": _SCRIPT_IN_PAGE,
    "version": _SCRIPT_IN_PAGE,
}


def refused(config: MkDocsConfig) -> list[Fault]:
    """The settings that the pages cannot live with.

    Args:
        config: MkDocs' settings, as read and checked by MkDocs.

    Returns:
        One fault a setting, with the key and what would do.
    """
    found: list[tuple[str, str]] = []
    if config.theme.name != THEME:
        found.append(("theme.name", f"the pages are laid out over {THEME!r}; write: name: {THEME}"))
    if config.repo_url:
        found.append(
            ("repo_url", "asks a code host from each reader's browser; link to it from a page instead")
        )
    if not config.use_directory_urls:
        found.append(("use_directory_urls", "addresses end in a slash for ever; leave the key out"))
    found += [
        (f"theme.features.{feature}", f"{why}; leave it out")
        for feature, why in _REFUSED_FEATURES.items()
        if any(each.startswith(feature) for each in config.theme.get("features") or ())
    ]
    found += [
        (f"extra.{key}", f"{why}; leave it out")
        for key, why in _REFUSED_EXTRAS.items()
        if config.extra.get(key)
    ]
    found += _from_elsewhere(config)
    found += _nested(config)
    place = Place(Path(config.config_file_path))
    return [Fault(place, key, what) for key, what in found]


def apply(config: MkDocsConfig, theme: Path) -> None:
    """Set what the pages rely on.

    Args:
        config: MkDocs' settings; changed in place.
        theme: Our folder over the theme's; a bench's `custom_dir` stays before it.
    """
    at = 1 if config.theme.custom_dir else 0
    config.theme.dirs.insert(at, str(theme))
    config.theme["font"] = False
    config.theme["palette"] = PALETTE
    if config.theme["favicon"] == "assets/images/favicon.png":
        config.theme["favicon"] = FAVICON
    for name, settings in EXTENSIONS.items():
        if name not in config.markdown_extensions:
            config.markdown_extensions.append(name)
        if settings:
            config.mdx_configs.setdefault(name, settings)
    if SEARCH not in config.plugins:
        plugin = entry_points(group="mkdocs.plugins")[SEARCH].load()()
        plugin.load_config({}, config_file_path=config.config_file_path)
        config.plugins[SEARCH] = plugin


def watch(config: MkDocsConfig) -> None:
    """Name what `serve` looks at: the records with the hand-written pages among them, and own templates."""
    bench = folder(config)
    own = [bench / RECORDS, bench / TEMPLATES, *map(Path, filter(None, [config.theme.custom_dir]))]
    config.watch.extend(str(each) for each in own if each.is_dir() and str(each) not in config.watch)


def folder(config: MkDocsConfig) -> Path:
    """The bench's folder: the one that holds mkdocs.yml."""
    return Path(config.config_file_path).absolute().parent


def _from_elsewhere(config: MkDocsConfig) -> list[tuple[str, str]]:
    named = [("extra_css", str(each)) for each in config.extra_css]
    named += [("extra_javascript", str(each)) for each in config.extra_javascript]
    return [
        (key, f"{address!r} is fetched from elsewhere by each reader; put the file beside your pages")
        for key, address in named
        if urlsplit(address).netloc
    ]


def _nested(config: MkDocsConfig) -> list[tuple[str, str]]:
    site = Path(config.site_dir).resolve()
    bench = folder(config).resolve()
    if (bench / RECORDS).resolve().is_relative_to(Path(config.docs_dir).resolve()):
        return [("docs_dir", f"would publish the records as files; write: docs_dir: {RECORDS}/pages")]
    if bench.is_relative_to(site):
        return [
            (
                "site_dir",
                f"{site} holds your records, and building empties it; name a folder for the site alone",
            )
        ]
    for name in (RECORDS, TEMPLATES):
        source = (bench / name).resolve()
        if site.is_relative_to(source) or source.is_relative_to(site):
            return [
                (
                    "site_dir",
                    f"the site would stand inside {name}, its own source; name a folder outside of it",
                )
            ]
    return []
