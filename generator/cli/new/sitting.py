"""`provebook new sitting`: several pieces on one bench at one time; all but the readings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench, wrong_use
from generator.cli.new.asking import Asker, Question, given, pairs, stopping
from generator.cli.new.bound import conditions_of, meter_of, meter_question
from generator.cli.new.writing import day, read, write
from generator.intake.taking import NotTaken, parts, several

if TYPE_CHECKING:
    from generator.intake.offers import Offers
    from generator.records.schema.method import Method

CONTROL = "control"


@click.command(short_help="Begin a sitting: several pieces measured together.")
@click.option("--date", help="The day: 2026-03-09, or today.")
@click.option("--place", help="Where it is made: workshop.")
@click.option("--method", help="The method of all its runs, and its version: heating-30-a/1.")
@click.option("--runs", help='The pieces: "okvarn-ih30:A veldrun-v30:B", and control for the rig alone.')
@click.option("--control", help="What the control is: unbroken-cable.")
@click.option(
    "--instrument", multiple=True, metavar="COLUMN=METER", help="What reads a column, once for each."
)
@click.option(
    "--condition", multiple=True, metavar="NAME=VALUE", help="A condition as it was, once for each."
)
def sitting(*, instrument: tuple[str, ...], condition: tuple[str, ...], **_: str | None) -> None:
    """Begin a sitting of several pieces: asks for what they share and what reads each of them."""
    said = {**given(), **pairs("--instrument", instrument), **pairs("--condition", condition)}
    stopping(lambda: _sitting(said))


def _sitting(said: dict[str, str]) -> None:
    from generator.intake.answers import field, one_of  # noqa: PLC0415
    from generator.intake.new_sitting import NewSitting, new_sitting  # noqa: PLC0415
    from generator.intake.offers import over_time, own_columns  # noqa: PLC0415
    from generator.records.schema.sitting import Sitting  # noqa: PLC0415

    offers = read(folder_of_bench())
    known = tuple(each for each in offers.methods if over_time(offers.method(each)))
    _ready(offers, known)
    asker = Asker(said)
    text = "Which method do all its runs follow, by its id and version?"
    check = one_of(known, "there is no method with readings over time")
    name = asker.ask(Question("--method", text, accepted=known, check=check))
    example = "2026-03-09, or: today"
    date = asker.ask(Question("--date", "Which day is it made?", example, check=day(field(Sitting, "date"))))
    place = Question(
        "--place", "Where is it made?", "workshop", without="left out", check=field(Sitting, "place")
    )
    where = asker.ask(place)
    runs = parts(asker.ask(_runs(offers)))
    control = ""
    if CONTROL in runs:
        text = "What is in place of the item in the control?"
        check = field(Sitting, "runs", CONTROL, "control")
        control = asker.ask(Question("--control", text, "unbroken-cable", check=check))
    if not (name and date and runs):
        asker.settle()
    method = offers.method(name)
    shared = _shared(asker, offers, method)
    own = {
        run: {each.key: asker.ask(meter_question(offers, each, run)) for each in own_columns(method)}
        for run in runs
    }
    conditions = conditions_of(asker, method, shared, {})
    asker.finish()
    id_ = _free(offers, date)
    begun = new_sitting(offers, NewSitting(id_, name, date, where, own, control, shared, conditions))
    typed = f"type the readings into reports/sittings/{id_}.yml"
    imported = f"or: provebook import FILE --into {id_}"
    write(begun, (typed, imported, "provebook check", "provebook build"))


def _ready(offers: Offers, methods: tuple[str, ...]) -> None:
    """Stop where there is nothing yet that a sitting is made of."""
    wanted = (
        ("method", "a method with readings over time", methods),
        ("item", "an item", offers.library.items),
        ("instrument", "an instrument", offers.library.instruments),
    )
    for what, told, known in wanted:
        if not known:
            wrong_use(
                f"a sitting needs {told}, and there is none yet.\nBegin one with:  provebook new {what}"
            )


def _runs(offers: Offers) -> Question:
    """The question which pieces there are."""
    from generator.intake.answers import one_of  # noqa: PLC0415

    known = [
        f"{name}:{piece}" for name, item in sorted(offers.library.items.items()) for piece in item.specimens
    ]
    return Question(
        "--runs",
        f"Which pieces are measured together? ({CONTROL}: the rig without an item)",
        " ".join(known[:2]),
        accepted=(*known[:12], *(("…",) if len(known) > 12 else ()), CONTROL),
        check=several(one_of((*known, CONTROL), "there is no piece")),
        value='"ITEM:PIECE ITEM:PIECE …"',
        lead="any of",
    )


def _shared(asker: Asker, offers: Offers, method: Method) -> dict[str, str]:
    """What reads the columns that all runs share."""
    from generator.intake.offers import shared_columns  # noqa: PLC0415

    found: dict[str, str] = {}
    for each in shared_columns(method):
        found |= meter_of(asker, offers, each)
    return found


def _free(offers: Offers, date: str) -> str:
    """The day, with a letter behind it from the second sitting of a day on."""
    folder = offers.root / "reports" / "sittings"
    names = (date, *(f"{date}-{letter}" for letter in "bcdefghijklmnopqrstuvwxyz"))
    free = next((each for each in names if not (folder / f"{each}.yml").exists()), None)
    if free is None:
        raise NotTaken(f"the sittings of {date} have used up the alphabet")
    return free
