"""The MkDocs plugin: wires a bench's site into MkDocs' build."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urljoin

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from generator.fault import Doubt, Fault, Place, RecordsRefused, count_line, message
from generator.host import addresses, chrome, paper, search, settings, slots
from generator.host.lean import join_sheets, make_lean
from generator.host.library import Library, LibraryRefused, library
from generator.host.options import Options
from generator.pages.addresses import FEED
from generator.pages.locate import templates
from generator.pages.site import Page as Made
from generator.pages.site import Site

if TYPE_CHECKING:
    from generator.pages.feed import Feed

log = get_plugin_logger("provebook")


def generated(bench: Path, *, drafts: bool) -> Site:
    """Everything made from the records of a bench.

    Args:
        bench: The folder of mkdocs.yml.
        drafts: Whether drafts are shown, too.

    Raises:
        RecordsRefused: The records hold faults.
    """
    from generator.history.shelf import drafts_too, published  # noqa: PLC0415  # heavy: numbers and templates
    from generator.pages.make import site_of  # noqa: PLC0415

    return site_of(bench, drafts_too if drafts else published)


def feed_at(feed: Feed, base: str, bench: Path) -> str:
    """The feed of changes as it stands at an address."""
    from generator.pages.feed import written  # noqa: PLC0415  # heavy, too
    from generator.pages.render import Renderer  # noqa: PLC0415

    return written(feed, base, Renderer(bench))


class ProvebookPlugin(BasePlugin[Options]):  # type: ignore[misc]  # MkDocs is not followed by the type checker
    """Makes a bench's pages while MkDocs builds."""

    _site: Site
    _pages: Mapping[str, Made]
    _library: Library
    _policy = chrome.POLICY
    _serving = False
    _own_menu = True

    def on_startup(self, *, command: str, dirty: bool) -> None:  # noqa: ARG002  # MkDocs passes both by name
        """Learn whether pages are only looked at: with drafts, and MkDocs' script that reloads them."""
        self._serving = command == "serve"
        self._policy = chrome.PREVIEW_POLICY if command == "serve" else chrome.POLICY

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Check and complete the settings, then make the site.

        A fault stops the build here, before MkDocs empties the folder of the site from before.
        """
        settings.watch(config)
        faults = settings.refused(config)
        if faults:
            raise PluginError(_told(faults, Path.cwd()))
        settings.apply(config, templates() / "theme")
        bench = settings.folder(config)
        self._library = self._chosen_library(config)
        try:
            self._site = generated(bench, drafts=self.config.drafts or self._serving)
        except RecordsRefused as refused:
            raise PluginError(_told(refused.faults, refused.root, refused.left_out)) from refused
        for doubt in self._site.doubts:
            log.info(message(doubt, bench))
        for drift in self._site.drifts:
            log.warning(message(drift, bench))
        if self._site.drafts:
            log.info(f"drafts left out: {', '.join(self._site.drafts)} (`drafts: true` shows them)")
        self._pages = {page.uri: page for page in self._site.pages}
        config.site_name = self._site.title
        self._own_menu = config.nav is None
        if self._own_menu:
            docs = Path(config.docs_dir)
            config.nav = [uri for uri in chrome.MENU if uri in self._pages or (docs / uri).is_file()]
        if not config.site_url:
            what = "missing, so canonical addresses, the site map and the feed are left out"
            log.info(message(Doubt(Place(Path(config.config_file_path)), "site_url", what), Path.cwd()))
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the generated pages and downloads, in memory; stop where two sources have one address."""
        made = [
            File.generated(config, page.uri, content=page.markdown, inclusion=InclusionLevel.NOT_IN_NAV)
            for page in self._site.pages
        ]
        made += [
            File.generated(config, download.uri, content=download.content, inclusion=InclusionLevel.INCLUDED)
            for download in self._site.downloads
        ]
        made += [
            File.generated(config, uri, abs_src_path=str(path), inclusion=InclusionLevel.INCLUDED)
            for uri, path in self._library.files
        ]
        if self._site.feed and config.site_url:
            written = feed_at(self._site.feed, config.site_url, settings.folder(config))
            made.append(File.generated(config, FEED, content=written, inclusion=InclusionLevel.INCLUDED))
        for file in [each for each in files if settings.UNUSED.match(each.src_uri)]:
            files.remove(file)
        kept = [file for file in files if not file.inclusion.is_excluded()]
        faults = addresses.reserved((file.dest_uri, self._source(file)) for file in kept)
        faults += addresses.clashes((file.dest_uri, self._source(file)) for file in (*kept, *made))
        if faults:
            raise PluginError("\n".join(faults))
        for file in made:
            files.append(file)
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:  # noqa: ARG002
        """Date every page from the records, never from the clock."""
        for file in files.documentation_pages():
            made = self._pages.get(file.src_uri)
            file.page.update_date = (made and made.updated) or self._site.newest or chrome.UNDATED
        return nav

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002
        """Escape what front matter says: theme and search index print it as HTML.

        A page that names another as its canonical one stands in no search beside it.
        """
        made = self._pages.get(page.file.src_uri)
        if made and not made.listed:
            page.meta["search"] = {"exclude": True}
        if config.site_url and isinstance(page.meta.get("canonical"), str):
            page.canonical_url = urljoin(config.site_url, page.meta["canonical"])
        for key in ("title", "description", "author"):
            if isinstance(page.meta.get(key), str):
                page.meta[key] = escape(page.meta[key])
        return markdown

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:  # noqa: ARG002
        """Hand the templates what stands around the content."""
        env.globals["provebook"] = chrome.chrome(
            self._site,
            config.theme.dirs,
            policy=self._policy,
            own_menu=self._own_menu,
            plotly=self._library.uri,
            feed=FEED if self._site.feed and config.site_url else "",
        )
        return env

    @event_priority(-100)  # type: ignore[untyped-decorator]
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put the fragments into their slots, after any other plugin had the page; then what paper needs."""
        made = self._pages.get(page.file.src_uri)
        here = urljoin(config.site_url, page.url) if config.site_url else ""
        try:
            whole = slots.fill(chrome.tidied(output), made.slots if made else {})
            return paper.spelled(paper.named(whole), here)
        except slots.SlotFault as fault:
            raise PluginError(f"{self._source(page.file)}: {fault}") from fault

    def on_post_template(self, output: str, *, template_name: str, config: MkDocsConfig) -> str:  # noqa: ARG002
        """Mend the theme's pages without a source, as that of a wrong address."""
        return chrome.tidied(output)

    @event_priority(-100)  # type: ignore[untyped-decorator]
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Defer the index that the search plugin wrote; drop the packed site map, which holds a time."""
        search.defer_index(Path(config.site_dir))
        make_lean(templates() / "theme" / "assets", Path(config.site_dir) / "assets")
        join_sheets(Path(config.site_dir) / "assets")
        (Path(config.site_dir) / "sitemap.xml.gz").unlink(missing_ok=True)

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, **_: object) -> LiveReloadServer:
        """Watch each file once: two watchers of one file would build twice for one save."""
        if any(Path(config.docs_dir).is_relative_to(each) for each in config.watch):
            server.unwatch(config.docs_dir)
        return server

    def _chosen_library(self, config: MkDocsConfig) -> Library:
        try:
            return library(settings.folder(config), self.config.plotly_script)
        except LibraryRefused as no:
            fault = Fault(Place(Path(config.config_file_path)), no.key, no.what, no.found, no.accepted)
            raise PluginError(_told([fault], Path.cwd())) from no

    def _source(self, file: File) -> str:
        made = self._pages.get(file.src_uri) if file.generated_by else None
        if made and made.record:
            return f"{_near(made.record)} (the page generated from it)"
        if file.generated_by:
            return f"the generated {file.src_uri}"
        return _near(Path(file.abs_src_path))


def _near(path: Path) -> str:
    return path.relative_to(Path.cwd()).as_posix() if path.is_relative_to(Path.cwd()) else str(path)


def _told(faults: Iterable[Fault], root: Path, left_out: int = 0) -> str:
    """All faults in one text; the first line stays empty, so that MkDocs' own prefix moves none of them."""
    found = tuple(faults)
    return "\n".join(["", *(message(each, root) for each in found), count_line(found, left_out)])
