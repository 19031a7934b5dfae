"""Every reason that the evaluation may give for a missing figure has its words, and no others do."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

from generator.evaluation.why_not import WhyNot

WORDS = Path(__file__).parents[2] / "site_templates" / "words" / "outcomes.jinja"


def test_each_reason_has_words_and_no_word_is_left_over() -> None:
    macro = WORDS.read_text(encoding="utf-8").split("{% macro why_not(code) %}", 1)[1].split("endmacro", 1)[0]
    assert set(re.findall(r'^  "([a-z-]+)": "', macro, re.M)) == set(get_args(WhyNot))
