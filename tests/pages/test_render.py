"""The renderer: a bench's templates first, and nothing that passes a value by."""

from __future__ import annotations

from pathlib import Path

import pytest
from markupsafe import Markup

from generator.fault import RecordsRefused, message
from generator.pages.render import Renderer, is_mark, quoted, words


def renderer(tmp_path: Path, **templates: str) -> Renderer:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    for name, text in templates.items():
        (folder / name.replace("__", ".")).write_text(text, encoding="utf-8")
    return Renderer(tmp_path)


def refusal(caught: pytest.ExceptionInfo[RecordsRefused]) -> str:
    """What a person reads of the one fault."""
    (fault,) = caught.value.faults
    return message(fault, caught.value.root)


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
    with pytest.raises(RecordsRefused) as no:
        made.markdown("pages/a.md.jinja", x="*", y=Markup("<b>"))
    assert refusal(no).startswith("site_templates/pages/a.md.jinja:1:1: this template can't be filled: ")
    assert refusal(no).endswith(f"   1 | {text}\n     | ^")


@pytest.mark.parametrize("text", ["{{ x | safe }}", "{{ {'a': x} | xmlattr }}", "{{ x | tojson }}"])
def test_a_fragment_cannot_claim_a_value_to_be_made(tmp_path: Path, text: str) -> None:
    made = renderer(tmp_path, a__html__jinja=text)
    with pytest.raises(RecordsRefused) as no:
        made.fragment("pages/a.html.jinja", x="<b>")
    assert "a.html.jinja:1:1: this template can't be filled: No filter named" in refusal(no)


def test_a_name_that_is_not_there_and_a_value_that_is_none_are_faults(tmp_path: Path) -> None:
    made = renderer(tmp_path, a__md__jinja="{{ x }}", b__html__jinja="{{ x }}")
    with pytest.raises(RecordsRefused) as no:
        made.markdown("pages/a.md.jinja")
    assert "a.md.jinja:1:1: this template can't be filled: 'x' is undefined" in refusal(no)
    for fill in (made.markdown, made.fragment):
        with pytest.raises(RecordsRefused) as no:
            fill("pages/a.md.jinja" if fill == made.markdown else "pages/b.html.jinja", x=None)
        assert "can't be filled: a template printed a value that is not there" in refusal(no)


def test_the_line_told_is_the_bench_s_own_where_ours_asks_for_it(tmp_path: Path) -> None:
    outer = "{% from 'words/standing.jinja' import kicker %}\n\n{{ kicker(s, '') }}\n"
    mine = renderer(tmp_path, a__md__jinja=outer)
    own = tmp_path / "site_templates" / "words" / "standing.jinja"
    own.parent.mkdir()
    own.write_text("{% macro kicker(s, d) %}\n  {{ s.nobody }}\n{% endmacro %}\n", encoding="utf-8")
    with pytest.raises(RecordsRefused) as no:
        mine.markdown("pages/a.md.jinja", s={})
    assert refusal(no).startswith("site_templates/words/standing.jinja:2:3: ")


def test_a_fault_in_a_template_of_ours_is_a_fault_of_the_code(tmp_path: Path) -> None:
    with pytest.raises(Exception, match="undefined") as no:
        renderer(tmp_path).markdown("pages/front.md.jinja")
    assert not isinstance(no.value, RecordsRefused)


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
