"""The renderer: a bench's templates first, and nothing that passes a value by."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import TemplateSyntaxError, UndefinedError
from markupsafe import Markup

from generator.pages.render import Renderer, is_mark, quoted, words


def renderer(tmp_path: Path, **templates: str) -> Renderer:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    for name, text in templates.items():
        (folder / name.replace("__", ".")).write_text(text, encoding="utf-8")
    return Renderer(tmp_path)


def test_a_template_of_the_bench_goes_before_ours(tmp_path: Path) -> None:
    made = renderer(tmp_path, front__md__jinja="mine: {{ front }}")
    assert made.markdown("pages/front.md.jinja", front="a*b") == "mine: a&#42;b"


def test_markdown_values_are_inert_and_fragments_escaped(tmp_path: Path) -> None:
    made = renderer(tmp_path, a__md__jinja="{{ x }}", b__html__jinja='<p title="{{ x }}">{{ x }}</p>')
    assert made.markdown("pages/a.md.jinja", x="<b> *c*") == "&#60;b&#62; &#42;c&#42;"
    assert made.fragment("pages/b.html.jinja", x='"<b>*') == '<p title="&#34;&lt;b&gt;*">&#34;&lt;b&gt;*</p>'


def test_a_macro_s_values_are_inert_and_its_words_stay(tmp_path: Path) -> None:
    text = "{% macro m(x) %}**{{ x }}**{% endmacro %}{{ m(x) }}"
    assert renderer(tmp_path, a__md__jinja=text).markdown("pages/a.md.jinja", x="*") == "**&#42;**"


@pytest.mark.parametrize(
    "text",
    [
        "{{ x ~ y }}",
        "{{ x + y }}",
        "{{ x % y }}",
        "{{ x * 2 }}",
        "{% autoescape false %}{{ x }}{% endautoescape %}",
        "{{ x.join(y) }}",
        "{{ x | safe }}",
        "{{ x | join(y) }}",
        "{{ x | replace('a', 'b') }}",
    ],
)
def test_what_could_slip_a_value_through_markdown_is_refused(tmp_path: Path, text: str) -> None:
    made = renderer(tmp_path, a__md__jinja=text)
    with pytest.raises(TemplateSyntaxError):
        made.markdown("pages/a.md.jinja", x="*", y=Markup("<b>"))


@pytest.mark.parametrize("text", ["{{ x | safe }}", "{{ {'a': x} | xmlattr }}", "{{ x | tojson }}"])
def test_a_fragment_cannot_claim_a_value_to_be_made(tmp_path: Path, text: str) -> None:
    made = renderer(tmp_path, a__html__jinja=text)
    with pytest.raises(TemplateSyntaxError):
        made.fragment("pages/a.html.jinja", x="<b>")


def test_a_name_that_is_not_there_and_a_value_that_is_none_are_faults_of_the_code(tmp_path: Path) -> None:
    made = renderer(tmp_path, a__md__jinja="{{ x }}", b__html__jinja="{{ x }}")
    with pytest.raises(UndefinedError):
        made.markdown("pages/a.md.jinja")
    for fill in (made.markdown, made.fragment):
        with pytest.raises(ValueError, match="not there"):
            fill("pages/a.md.jinja" if fill == made.markdown else "pages/b.html.jinja", x=None)


def test_a_value_of_front_matter_is_html_in_a_json_string() -> None:
    assert quoted('A&B "c" é') == '"A&amp;B &#34;c&#34; é"'
    assert quoted("a\nb\x85c") == '"a b c"'
    assert quoted(Markup("a &#45; b")) == '"a &#45; b"'


def test_a_mark_is_a_short_word_with_a_hyphen_and_a_digit() -> None:
    assert [
        each
        for each in ("F-30", "D-2025-1187", "in-line", "IH30", "XL-3000-Professional-Edition")
        if is_mark(each)
    ] == [
        "F-30",
        "D-2025-1187",
    ]


def test_a_text_s_words_are_what_stands_between_its_blanks() -> None:
    assert words("  Pallsto \n F-30 ") == ["Pallsto", "F-30"]
    assert words("30\N{NO-BREAK SPACE}A") == ["30\N{NO-BREAK SPACE}A"]
    assert words("") == [""]
