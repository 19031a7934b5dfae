"""Settings that the pages cannot live with are refused; what they rely on is set."""

from __future__ import annotations

from pathlib import Path

import pytest
from mkdocs.config.defaults import MkDocsConfig

from generator.host import settings
from generator.host.build import BuildRefused, build
from generator.host.preview import settings_of
from tests.host import samples


def config(bench: Path, more: str = "", theme: str = "") -> MkDocsConfig:
    text = samples.MKDOCS.replace("  name: material\n", f"  name: material\n{theme}") + more
    (bench / "mkdocs.yml").write_text(text, encoding="utf-8")
    return settings_of(bench)


@pytest.mark.parametrize(
    ("key", "more", "theme"),
    [
        ("repo_url", "repo_url: https://code.example/bench\n", ""),
        ("use_directory_urls", "use_directory_urls: false\n", ""),
        ("extra.analytics", "extra:\n  analytics: {provider: some}\n", ""),
        ("extra.consent", "extra:\n  consent: {title: Cookies}\n", ""),
        ("extra.version", "extra:\n  version: {provider: some}\n", ""),
        ("theme.features.navigation.instant", "", "  features: [navigation.instant]\n"),
        ("theme.features.navigation.instant", "", "  features: [navigation.instant.preview]\n"),
        ("theme.features.announce.dismiss", "", "  features: [announce.dismiss]\n"),
        ("theme.features.search.share", "", "  features: [search.share]\n"),
        ("extra_css", "extra_css: ['https://fonts.example/a.css']\n", ""),
        ("extra_javascript", "extra_javascript: ['//scripts.example/a.js']\n", ""),
        ("site_dir", "site_dir: reports/site\n", ""),
        ("site_dir", "site_dir: site_templates/out\n", ""),
    ],
)
def test_a_setting_that_breaks_a_promise_is_named(bench: Path, key: str, more: str, theme: str) -> None:
    faults = settings.refused(config(bench, more, theme))
    assert [fault.path for fault in faults] == [key]
    assert faults[0].place.file == bench / "mkdocs.yml"


@pytest.mark.parametrize("site_dir", [".", "..", "reports/pages", "reports/pages/site"])
def test_a_site_folder_around_the_pages_or_inside_them_is_refused(bench: Path, site_dir: str) -> None:
    (bench / "mkdocs.yml").write_text(f"{samples.MKDOCS}site_dir: {site_dir}\n", encoding="utf-8")
    with pytest.raises(BuildRefused, match="site_dir"):
        build(bench)
    assert (bench / "reports" / "bench.yml").is_file()


def test_a_site_folder_around_the_bench_is_refused_where_the_pages_lie_elsewhere(
    bench: Path, tmp_path: Path
) -> None:
    pages = tmp_path / "pages"
    (bench / "reports" / "pages").rename(pages)
    (bench / "mkdocs.yml").write_text(
        samples.MKDOCS.replace("docs_dir: reports/pages", f"docs_dir: {pages}\nsite_dir: ."), encoding="utf-8"
    )
    with pytest.raises(BuildRefused, match=r"site_dir: .* holds your records, and building empties it"):
        build(bench)
    assert (bench / "reports" / "bench.yml").is_file()


def test_a_site_folder_reached_by_a_link_is_still_inside_the_records(bench: Path) -> None:
    (bench / "reports" / "out").mkdir()
    (bench / "elsewhere").symlink_to(bench / "reports" / "out")
    assert [fault.path for fault in settings.refused(config(bench, "site_dir: elsewhere\n"))] == ["site_dir"]


def test_records_are_not_published_as_files(bench: Path) -> None:
    (bench / "mkdocs.yml").write_text(samples.MKDOCS.replace("reports/pages", "reports"), encoding="utf-8")
    with pytest.raises(BuildRefused, match="docs_dir: would publish the records as files"):
        build(bench)


def test_all_refusals_come_in_one_message_and_say_what_would_do(bench: Path) -> None:
    (bench / "mkdocs.yml").write_text(
        samples.MKDOCS.replace("  name: material\n", "  name: mkdocs\n")
        + "repo_url: https://code.example/bench\nuse_directory_urls: false\n",
        encoding="utf-8",
    )
    with pytest.raises(BuildRefused) as refused:
        build(bench)
    place = bench / "mkdocs.yml"
    assert str(refused.value) == (
        f"{place}: theme.name: the pages are laid out over 'material'; write: name: material\n"
        f"{place}: repo_url: asks a code host from each reader's browser; link to it from a page instead\n"
        f"{place}: use_directory_urls: addresses end in a slash for ever; leave the key out\n"
        "3 faults"
    )


def test_an_unknown_option_of_the_plugin_is_told(bench: Path) -> None:
    (bench / "mkdocs.yml").write_text(
        samples.MKDOCS.replace("- provebook", "- provebook: {colour: red}"), encoding="utf-8"
    )
    with pytest.raises(BuildRefused):
        build(bench, strict=True)


def test_what_the_pages_rely_on_is_set(bench: Path, tmp_path: Path) -> None:
    made = config(bench, "markdown_extensions:\n  - toc: {permalink: false}\n")
    settings.apply(made, tmp_path)
    assert made.theme.dirs[0] == str(tmp_path)
    assert made.theme["font"] is False
    assert made.theme["favicon"] == "assets/favicon.svg"
    assert {"attr_list", "md_in_html", "tables", "toc", "admonition"} <= set(made.markdown_extensions)
    assert made.mdx_configs["toc"] == {"permalink": False}
    assert list(made.plugins) == ["provebook", "material/search"]
    assert made.plugins["material/search"].config.enabled


def test_search_and_favicon_of_a_bench_are_kept(bench: Path, tmp_path: Path) -> None:
    made = config(bench, "", "  favicon: mine.png\n")
    made.plugins["material/search"] = mine = object()
    settings.apply(made, tmp_path)
    assert made.plugins["material/search"] is mine
    assert made.theme["favicon"] == "mine.png"


def test_serving_watches_records_and_own_templates_and_nothing_else(bench: Path) -> None:
    (bench / "site_templates").mkdir()
    made = config(bench)
    settings.watch(made)
    settings.watch(made)
    assert made.watch == [str(bench / "reports"), str(bench / "site_templates")]
