"""`provebook new report`: a question, the items, and the measures that answer it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench, wrong_use
from generator.cli.new.asking import Asker, Question, given, stopping
from generator.cli.new.writing import name_of, read, write
from generator.intake.taking import parts, several

if TYPE_CHECKING:
    from generator.intake.offers import Offers


@click.command(short_help="Begin a report: a question and the items compared.")
@click.option("--question", help="The question, as a reader would ask it.")
@click.option("--initiative", help="On whose initiative: own, or whose.")
@click.option("--method", help="The method that answers it: heating-30-a/1.")
@click.option("--main", help="The measure that answers it; the method's first where left out.")
@click.option("--also", help='Other methods that its items are tested by: "pull-out/1 count/1".')
@click.option("--items", help='The items compared, by their ids: "okvarn-ih30 veldrun-v30".')
@click.option("--id", help="Its id; made from the question where left out.")
def report(**_: str | None) -> None:
    """Begin a report: asks for its question, its method and its items, or takes them as options."""
    stopping(_report)


def _report() -> None:
    from generator.intake.answers import field, new_name  # noqa: PLC0415
    from generator.intake.names import free, id_from  # noqa: PLC0415
    from generator.intake.new_report import NewReport, new_report  # noqa: PLC0415
    from generator.records.schema.report import ReportRecord  # noqa: PLC0415

    folder = folder_of_bench()
    offers = read(folder)
    if not offers.methods:
        wrong_use("no method here yet, and a report needs one.\nBegin one with:  provebook new method")
    if not offers.library.items:
        wrong_use("no item here yet, and a report compares some.\nBegin one with:  provebook new item")
    asker = Asker(given())
    question = Question(
        "--question",
        "Which question does it answer, as a reader would ask it?",
        "Which 30 A in-line fuse holder stays coolest in a closed box?",
        check=field(ReportRecord, "question"),
    )
    asked = asker.ask(question)
    initiative = Question(
        "--initiative",
        "On whose initiative: your own, or whose?",
        "own, or: asked for by the maker of one item",
        check=field(ReportRecord, "initiative"),
    )
    whose = asker.ask(initiative)
    chosen, main = _main(asker, offers)
    also = _also(asker, offers, chosen)
    measures = _measures(asker, offers, main, (chosen, *also)) if chosen else ()
    items = asker.ask(_items(offers))
    made = free(folder / "reports", id_from(asked))
    name = name_of(asker, made, new_name(folder, lambda each: f"{each}/report.yml"))
    asker.finish()
    begun = new_report(folder, NewReport(name, asked, whose, (chosen, *also), main, measures, parts(items)))
    write(begun, ("provebook new run         for each piece", "provebook check"))


def _main(asker: Asker, offers: Offers) -> tuple[str, str]:
    """The method and its measure that answer the question: one that becomes a figure."""
    from generator.evaluation.kinds import KINDS  # noqa: PLC0415
    from generator.intake.answers import one_of  # noqa: PLC0415

    def figures(method: str) -> tuple[str, ...]:
        return tuple(each.id for each in offers.method(method).measures if each.kind in KINDS)

    able = tuple(each for each in offers.methods if figures(each))
    if not able:
        wrong_use(
            "no method here measures a figure, and a question is answered by one; counts and questions stand "
            "beside it.\nBegin one with:  provebook new method"
        )
    text = "Which method answers it, by its id and version?"
    check = one_of(able, "there is no method with a figure")
    chosen = asker.ask(Question("--method", text, accepted=able, check=check))
    if not chosen:
        return "", ""
    known = figures(chosen)
    if len(known) == 1 and not asker.was_given("--main"):
        return chosen, known[0]
    text = "Which of its measures answers the question?"
    check = one_of(known, f"{chosen} has no figure")
    return chosen, asker.ask(Question("--main", text, accepted=known, default=known[0], check=check))


def _also(asker: Asker, offers: Offers, chosen: str) -> tuple[str, ...]:
    """Other methods whose measures are shown, too."""
    from generator.intake.answers import one_of  # noqa: PLC0415

    others = tuple(each for each in offers.methods if each.rpartition("/")[0] != chosen.rpartition("/")[0])
    if not others:
        return ()
    text = "Which other methods are its items tested by?"
    check = several(one_of(others, "there is no other method"))
    asked = Question("--also", text, accepted=others, without="none", check=check, lead="any of")
    return parts(asker.ask(asked))


def _measures(asker: Asker, offers: Offers, main: str, methods: tuple[str, ...]) -> tuple[str, ...]:
    """The measures of all its methods, the one that answers first; each id once."""
    known = [each.id for name in methods for each in offers.method(name).measures]
    twice = sorted({each for each in known if known.count(each) > 1})
    if twice:
        asker.refuse(f"two of its methods measure '{twice[0]}'; a report needs one method for each measure")
    return tuple(dict.fromkeys((main, *known)))


def _items(offers: Offers) -> Question:
    from generator.intake.answers import one_of  # noqa: PLC0415

    known = tuple(sorted(offers.library.items))
    return Question(
        "--items",
        "Which items are compared, in the order of their colours?",
        " ".join(known[:2]),
        accepted=known,
        check=several(one_of(known, "there is no item")),
        value='"ITEM ITEM …"',
        lead="any of",
    )
