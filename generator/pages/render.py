"""The one renderer: templates to Markdown and to fragments, with every value made harmless on its way.

A value that a template prints is text, whatever it holds: in Markdown its punctuation is written as numeric
character references, in fragments it is escaped for HTML. Only what a template of ours made (`Markup`) passes
as it is, and there is no filter to claim so.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, StrictUndefined, TemplateSyntaxError, nodes
from markupsafe import Markup, escape

from generator.pages.locate import templates
from generator.pages.own_templates import blamed

_SPACES = "".join(map(chr, (0xA0, 0x1680, *range(0x2000, 0x200B), 0x202F, 0x205F, 0x3000)))
"""Spaces that are no blanks here, and at a word's end undo its emphasis in Markdown."""

_MARKS = {ord(sign): f"&#{ord(sign)};" for sign in f"!\"#$%&'()*+,-./:;<=>?@[\\]^_`{{|}}~{_SPACES}"}
_BLANKS = re.compile(r"[\x00-\x20\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]+")
"""Line ends, and what can't be printed; no-break spaces are no blanks."""

_IN_NO_MARKUP = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
"""What no XML may hold (XML 1.0, 2.2, Char), and no HTML should; a text in quotes can, by its number."""

_MIXING: dict[type[nodes.Node], str] = {
    nodes.Concat: "~",
    nodes.Add: "+",
    nodes.Mod: "%",
    nodes.Mul: "*",
    nodes.ScopedEvalContextModifier: "autoescape",
}
"""What would join a value to made markup behind the back of `inert`."""

LONGEST_MARK = 14
"""The most characters of a mark ("F-30") that is kept on one line: a phone's card holds no longer one."""

_PLAIN_FILTERS = ("length", "first", "last", "list", "batch")
"""Filters that make no text; the others are not offered to Markdown templates."""


def inert(value: object) -> Markup:
    """Text that Markdown and HTML leave alone.

    Args:
        value: Anything that can be printed; a `Markup` passes as it is.

    Returns:
        The text on one line, trimmed, its ASCII punctuation as numeric references.
    """
    if isinstance(value, Markup):
        return value
    return Markup(_printable(str(value)).translate(_MARKS))  # noqa: S704  # nothing of HTML or Markdown is left in it


def data_block(value: object) -> Markup:
    """JSON for a `script` block of data: nothing in it can end the block or start markup."""
    told = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        told = told.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(told)  # noqa: S704  # nothing that HTML knows is left in it


def quoted(value: object) -> Markup:
    """A text as a value of a page's front matter: HTML in a JSON string, which is YAML too.

    The theme prints titles and descriptions as they are, so they are escaped for HTML here; a `Markup` is
    HTML already.
    """
    told = value if isinstance(value, Markup) else escape(str(value))
    return Markup(json.dumps(_printable(str(told)), ensure_ascii=False))  # noqa: S704


def words(text: str) -> list[str]:
    """A text in parts at its blanks, so that a template can keep a part on one line."""
    return _printable(text).split(" ")


def is_mark(word: str) -> bool:
    """Whether a word is a mark such as "F-30", which a line's end would tear at its hyphen."""
    return "-" in word and len(word) <= LONGEST_MARK and any(sign.isdigit() for sign in word)


class Renderer:
    """Fills templates: a bench's own first, whose faults are a `RecordsRefused`, then ours."""

    def __init__(self, bench: Path) -> None:
        self._bench = bench
        folders = [bench / "site_templates", templates()]
        loader = ChoiceLoader([FileSystemLoader(folder, followlinks=True) for folder in folders])
        self._markdown = _MarkdownEnvironment(
            loader=loader,
            autoescape=True,
            finalize=_inert_or_refused,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        kept = {name: self._markdown.filters[name] for name in _PLAIN_FILTERS}
        self._markdown.filters = {**kept, "quoted": quoted, "words": words}
        self._markdown.tests["mark"] = is_mark
        self._fragments = Environment(
            loader=loader,
            autoescape=True,
            finalize=_refused_or_kept,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self._texts = Environment(
            loader=loader,
            autoescape=False,  # noqa: S701  # for a terminal, which reads no markup
            finalize=_refused_or_kept,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self._texts.filters["words"] = words
        self._texts.tests["mark"] = is_mark
        for claim in ("safe", "xmlattr", "tojson"):
            del self._fragments.filters[claim]
        self._fragments.filters["words"] = words
        self._fragments.tests["mark"] = is_mark

    def markdown(self, name: str, **facts: object) -> str:
        """Fill a Markdown template, `pages/report.md.jinja`."""
        return self._filled(self._markdown, name, facts)

    def as_read(self, name: str, **facts: object) -> str:
        """What a reader reads of a Markdown template without headings or links: no tags, real punctuation."""
        return Markup(self.markdown(name, **facts)).striptags()  # noqa: S704  # it is made plain text

    def fragment(self, name: str, **facts: object) -> Markup:
        """Fill an HTML or SVG template, `charts/heating.svg.jinja`."""
        made = _IN_NO_MARKUP.sub(" ", self._filled(self._fragments, name, facts))
        return Markup(made)  # noqa: S704  # a template of ours made it, with every value escaped

    def text(self, name: str, **facts: object) -> str:
        """Fill a template of plain text for a terminal, `text/explain.txt.jinja`."""
        return self._filled(self._texts, name, facts)

    def _filled(self, environment: Environment, name: str, facts: dict[str, object]) -> str:
        own = self._bench / "site_templates"
        if own.exists() and own.samefile(templates()):  # the demo's bench lies beside ours
            return environment.get_template(name).render(facts)
        with blamed(own, self._bench):
            return environment.get_template(name).render(facts)


class _MarkdownEnvironment(Environment):
    """Refuses what would mix a value with made markup before it is made harmless."""

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        tree = super()._parse(source, name, filename)
        for node in tree.find_all(tuple(_MIXING)):
            what = f"`{_MIXING[type(node)]}` is not for Markdown templates; print the parts one by one"
            raise TemplateSyntaxError(what, node.lineno, name, filename)
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Getattr):
                what = f"`{call.node.attr}(…)` is not for Markdown templates; work it out before"
                raise TemplateSyntaxError(what, call.lineno, name, filename)
        return tree


def _printable(text: str) -> str:
    return _BLANKS.sub(" ", text).strip(" ")


def _inert_or_refused(value: Any) -> Any:
    return inert(_refused_or_kept(value))


def _refused_or_kept(value: Any) -> Any:
    if value is None:
        raise ValueError("a template printed a value that is not there")
    return value
