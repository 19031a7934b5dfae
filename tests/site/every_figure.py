"""Walks what a site tells and finds figures without a unit, without a ± or a reason, without pieces; and promises.

What is a figure is known by where it comes from: a number with the unit of a measure is one that the evaluation
found, or stands in the records, or is typed in a template; any other is a fault.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from generator.records.units import UNITS
from tests.pages.test_words import BARRED, DENIAL
from tests.site.known import Ground, Known
from tests.site.lines import Line, bare_figures, lines

NUMBER = r"(?<![\w.,/−-])[−-]?\d+(?:,\d{3})*(?:\.\d+)?(?![\w]|[.,]\d)"
_LIST = rf"{NUMBER}(?:(?:, | and | to ){NUMBER})*"
_MONEY = ("€", "£", "%", "EUR", "GBP", "USD", "times", "in 100")


@dataclass(frozen=True)
class Fault:
    """What is wrong, of which words, in which line."""

    what: str
    text: str
    line: str


class Walk:
    """Reads lines by what may stand there."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        units = "|".join(sorted(map(re.escape, ground.units), key=len, reverse=True))
        others = {each.symbol for each in UNITS if each.symbol not in ground.units} | set(_MONEY)
        other = "|".join(sorted(map(re.escape, others), key=len, reverse=True))
        self._unit = re.compile(rf" ?(?P<unit>{units})(?![\w·²³/])")
        self._heads = re.compile(rf"(?<![\w])(?<!\d )(?:{units})(?![\w·²³/])")
        self._other = re.compile(rf" ?(?:{other})(?![\w·²³])")
        self._full = re.compile(rf"(?P<value>{NUMBER}) ± (?P<half>{NUMBER})")
        self._uneven = re.compile(
            rf"(?P<value>{NUMBER}) (?P<unit>{units}) \((?P<half>{NUMBER} to {NUMBER})\)"
        )
        self._about = re.compile(
            rf"\babout (?:\( )?(?P<numbers>{_LIST}) (?P<unit>{units})(?: \( ?(?P<others>{_LIST}) (?P<us>{units}) ?\))?"
        )
        self._lone = re.compile(rf"(?:(?P<low>{NUMBER}) to )?(?P<value>{NUMBER})")
        self._of_value: dict[str, list[Known]] = {}
        for each in ground.known:
            self._of_value.setdefault(each.value, []).append(each)

    def page(self, html: str) -> list[Fault]:
        """The faults of a page, each once."""
        found = [Fault("no ±", text, text) for text in bare_figures(html)]
        return list(dict.fromkeys([*found, *(fault for line in lines(html) for fault in self.line(line))]))

    def text(self, text: str) -> list[Fault]:
        """The faults of a text that stands by itself."""
        return list(dict.fromkeys(self.line(Line.alone(text))))

    def line(self, line: Line) -> Iterator[Fault]:
        """The faults of a line."""
        text = line.text
        for word in BARRED.findall(text.replace(DENIAL, "")):
            yield Fault("promises", word, line.text)
        if line.is_part_of_a_budget:
            return
        for each in self.ground.said:
            text = re.sub(rf"(?<![\w.,]){re.escape(each)}(?!\w)", " ", text) if each in text else text
        for pattern, read in (
            (self._full, self._whole),
            (self._uneven, self._whole),
            (self._about, self._spoken),
            (self._lone, self._bare),
        ):
            for found in pattern.finditer(text):
                yield from (Fault(what, found[0].strip(), line.text) for what in read(line, text, found))
            text = pattern.sub(lambda found: "~" * len(found[0]), text)

    def _whole(self, line: Line, text: str, found: re.Match[str]) -> Iterator[str]:
        """A figure with its ±."""
        named = found.groupdict().get("unit")
        after = None if named else self._unit.match(text, found.end())
        if after and self._over(line) and re.match(r"[A-Z] \d", text[after.start("unit") :]):
            after = None  # the letter of the next piece
        if line.is_working or (not named and after is None and self._other.match(text, found.end())):
            return
        units = {named} if named else {after["unit"]} if after else self._over(line)
        known = [each for each in self._of_value.get(found["value"], []) if each.half_width == found["half"]]
        fitting = [each for each in known if each.unit in units]
        if found[0] in self.ground.given:
            return
        if not units:
            yield "no unit"
        elif not fitting:
            yield "no figure of the evaluation"
        elif not any(each.counted.search(line.around) for each in fitting):
            yield "no pieces"

    def _spoken(self, line: Line, text: str, found: re.Match[str]) -> Iterator[str]:
        """Figures told roughly: each is near to one that stands with its ± on the same page, or says itself why not."""
        for numbers, unit in ((found["numbers"], found["unit"]), (found["others"], found["us"])):
            for number in re.findall(NUMBER, numbers or ""):
                if not any(self._is_near(number, unit, each, line) for each in self.ground.known):
                    yield "spoken, and nowhere told with its ±"

    def _is_near(self, number: str, unit: str, known: Known, line: Line) -> bool:
        if known.unit != unit:
            return False
        if known.reason is not None:
            return known.value == number and bool(
                known.reason.search(line.around) and known.counted.search(line.around)
            )
        value, places = _number(known.value), len(number.partition(".")[2])
        step = max(10.0**-places, 1.0)
        near = abs(value - _number(number)) <= step / 2 + 1e-9
        return near and (not line.page or f"{known.value} ± {known.half_width}" in line.page)

    def _bare(self, line: Line, text: str, found: re.Match[str]) -> Iterator[str]:
        """A number, or from one to another, without a ±."""
        after = self._unit.match(text, found.end())
        alone = line.is_cell and text.strip() == found[0]
        if re.search(r"(?<![\d~] )± $", text[: found.start()]):
            return  # how far something may be off
        if line.is_working or (after is None and self._other.match(text, found.end())):
            return
        units = {after["unit"]} if after else self._over(line) if alone else set()
        if not units:
            yield from self._forgotten(line, found)
        elif not self._is_given(line, found, units, alone=alone):
            yield from self._unsaid(line, found, units)

    def _unsaid(self, line: Line, found: re.Match[str], units: set[str]) -> Iterator[str]:
        """What such a number lacks: it is one that has no ± of its own, which its words say, or it is a fault."""
        known = [
            each
            for text in (found[0], found["value"])
            for each in self._of_value.get(text, [])
            if each.unit in units and each.reason is not None
        ]
        if not known:
            yield "no ±"
        elif not (said := [each for each in known if each.reason and each.reason.search(line.around)]):
            yield "no reason for no ±"
        elif not any(each.counted.search(line.around) for each in said):
            yield "no pieces"

    def _forgotten(self, line: Line, found: re.Match[str]) -> Iterator[str]:
        """A figure of the evaluation that stands bare, with no unit behind it and no ±."""
        if (
            "." not in found["value"]
            or found["value"] in self.ground.given
            or line.is_drawn
            or line.has_another_unit
        ):
            return
        if any(each.half_width for each in self._of_value.get(found["value"], [])):
            yield "no unit and no ±"

    def _is_given(self, line: Line, found: re.Match[str], units: set[str], *, alone: bool) -> bool:
        given, read = self.ground.given, self.ground.read
        ends = [each for each in (found["low"], found["value"]) if each]
        if alone or re.search(r"\bas read\b", line.text):
            read_so = all(end in read or any(f"{end} {unit}" in read for unit in units) for end in ends)
        else:
            read_so = False
        return read_so or all(any(f"{end} {unit}" in given for unit in units) for end in ends)

    def _over(self, line: Line) -> set[str]:
        """The units that are said over a line."""
        return set(self._heads.findall(line.heads))


def _number(text: str) -> float:
    return float(text.replace("−", "-").replace(",", ""))
