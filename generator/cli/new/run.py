"""`provebook new run`: one method, once, on one piece; all but the readings."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench, wrong_use
from generator.cli.new.asking import Asker, Question, given, pairs, stopping
from generator.cli.new.bound import conditions_of, meters_of
from generator.cli.new.writing import day, name_of, read, write

if TYPE_CHECKING:
    from generator.intake.new_run import Taken
    from generator.intake.offers import Offers
    from generator.records.schema.method import Method

CONTROL = "control"


@click.command(short_help="Begin a run: all but its readings.")
@click.option(
    "--like", metavar="RUN", help="Take method, meters, conditions and termination over from a run."
)
@click.option("--report", help="The report that it belongs to.")
@click.option("--method", help="The method and its version: heating-30-a/1.")
@click.option("--item", help="The item; or the word control, for a run of the rig without one.")
@click.option("--specimen", help="The piece: A.")
@click.option("--control", help="What the control is: unbroken-cable.")
@click.option("--date", help="The day: 2026-03-08, or today.")
@click.option("--place", help="Where it is made: workshop.")
@click.option("--strip", help="How long the conductor is stripped: 10 mm.")
@click.option("--tool", help="What it is fastened with: ratchet crimper.")
@click.option(
    "--instrument", multiple=True, metavar="COLUMN=METER", help="What reads a column, once for each."
)
@click.option(
    "--condition", multiple=True, metavar="NAME=VALUE", help="A condition as it was, once for each."
)
@click.option("--id", help="Its id; made from day, item and piece where left out.")
def run(*, instrument: tuple[str, ...], condition: tuple[str, ...], **_: str | None) -> None:
    """Begin a run: asks for what only you know, and leaves its readings to be typed or imported."""
    said = {**given(), **pairs("--instrument", instrument), **pairs("--condition", condition)}
    stopping(lambda: _run(said))


def _run(said: dict[str, str]) -> None:
    from generator.intake.answers import field, new_name  # noqa: PLC0415
    from generator.intake.names import free, id_from  # noqa: PLC0415
    from generator.intake.new_run import NewRun, new_run  # noqa: PLC0415
    from generator.intake.offers import over_time  # noqa: PLC0415
    from generator.records.schema.run import RunRecord  # noqa: PLC0415

    offers = read(folder_of_bench())
    _ready(offers)
    asker = Asker(said)
    taken = _like(offers, said.get("--like", ""))
    report = _report(asker, offers, taken.report)
    name = _method(asker, offers, taken.method)
    item, specimen, control = _piece(asker, offers, report)
    date = asker.ask(_date(offers, item, specimen))
    if not (name and report):
        asker.settle()
    method = offers.method(name)
    text = "Where is it made?"
    check = field(RunRecord, "place")
    place = asker.ask(Question("--place", text, "workshop", without="left out", check=check)) or taken.place
    fastened = _termination(asker, taken, method)
    meters = meters_of(asker, offers, method, taken.instruments)
    conditions = conditions_of(asker, method, meters, taken.conditions)
    runs = offers.root / "reports" / report / "runs"
    made = free(runs, id_from(date, control or item, specimen.lower()), ".yml")
    id_ = name_of(asker, made, new_name(offers.root, lambda each: f"{report}/runs/{each}.yml"))
    asker.finish()
    run = NewRun(id_, report, name, date, item, specimen, control, place, fastened, meters, conditions)
    typed = f"type the readings into reports/{report}/runs/{id_}.yml"
    imported = (f"or: provebook import FILE --into {report}/{id_}",) if over_time(method) else ()
    write(new_run(offers, run), (typed, *imported, "provebook check", "provebook build"))


def _ready(offers: Offers) -> None:
    """Stop where there is nothing yet that a run belongs to."""
    wanted = (
        ("method", offers.methods),
        ("item", offers.library.items),
        ("report", offers.library.reports),
    )
    for what, known in wanted:
        if not known:
            wrong_use(f"no {what} here yet, and a run needs one.\nBegin one with:  provebook new {what}")


def _like(offers: Offers, name: str) -> Taken:
    """What is taken over from the run of that name; nothing without one."""
    from generator.intake.new_run import Taken, taken_from  # noqa: PLC0415
    from generator.records.schema.told import nearest  # noqa: PLC0415

    if not name:
        return Taken()
    found = offers.like(name)
    if not found:
        known = [*offers.runs.by_id, *(each.rpartition("/")[2] for each in offers.runs.by_id)]
        wrong_use(f"there is no run {name!r}{nearest(name, known)}")
    if len(found) > 1:
        wrong_use(f"{name!r} is more than one run: {', '.join(each.id for each in found)}")
    draft = found[0]
    if str(draft.body.method) not in offers.methods:
        wrong_use(f"{draft.id} is by {draft.body.method}, and there is no such method")
    return taken_from(draft, offers.method(str(draft.body.method)))


def _report(asker: Asker, offers: Offers, taken: str) -> str:
    """The report, asked where there are several."""
    from generator.intake.answers import one_of  # noqa: PLC0415

    known = tuple(sorted(offers.library.reports))
    one = known[0] if len(known) == 1 else ""
    if not asker.was_given("--report") and (taken or one):
        return taken or one
    check = one_of(known, "there is no report")
    return asker.ask(Question("--report", "Which report does it belong to?", accepted=known, check=check))


def _method(asker: Asker, offers: Offers, taken: str) -> str:
    from generator.intake.answers import one_of  # noqa: PLC0415

    if taken and not asker.was_given("--method"):
        return taken
    text = "Which method, by its id and version?"
    check = one_of(offers.methods, "there is no method")
    return asker.ask(Question("--method", text, accepted=offers.methods, check=check))


def _piece(asker: Asker, offers: Offers, report: str) -> tuple[str, str, str]:
    """Item and piece, or what the control is."""
    from generator.intake.answers import field, one_of  # noqa: PLC0415
    from generator.records.schema.run import RunRecord  # noqa: PLC0415

    named = offers.library.reports[report].items if report else ()
    known = (*(each for each in named if each in offers.library.items), CONTROL)
    item = CONTROL
    if not asker.was_given("--control"):
        text = f"Which item? ({CONTROL}: a run of the rig without one)"
        item = asker.ask(
            Question("--item", text, accepted=known, check=one_of(known, "this report has no item"))
        )
    if item == CONTROL:
        text = "What is in place of the item?"
        check = field(RunRecord, "control")
        return "", "", asker.ask(Question("--control", text, "unbroken-cable", check=check))
    pieces = offers.pieces(item) if item else ()
    check = one_of(pieces, "this item has no piece") if item else str
    text = "Which piece of it?"
    return item, asker.ask(Question("--specimen", text, accepted=pieces, check=check)), ""


def _date(offers: Offers, item: str, specimen: str) -> Question:
    """The day, which is not before the piece was had."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.intake.taking import NotTaken  # noqa: PLC0415
    from generator.records.schema.run import RunRecord  # noqa: PLC0415

    taken = day(field(RunRecord, "date"))
    had = offers.library.items[item].specimens[specimen].date if item and specimen else None

    def check(answer: str) -> str:
        date = taken(answer)
        if had is not None and date < had.isoformat():
            raise NotTaken(f"piece {specimen} was had on {had}, after this day")
        return date

    return Question("--date", "Which day is it made?", "2026-03-08, or: today", check=check)


def _termination(asker: Asker, taken: Taken, method: Method) -> dict[str, str]:
    """How the conductor is fastened, where the method names one."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.run import RunRecord  # noqa: PLC0415

    found = dict(taken.termination)
    asked = (
        Question("--strip", "How long is the conductor stripped?", "10 mm", without="left out"),
        Question("--tool", "What is it fastened with?", "ratchet crimper", without="left out"),
    )
    for each in asked if "conductor" in method.conditions else ():
        key = each.option.removeprefix("--")
        said = asker.ask(replace(each, check=field(RunRecord, "termination", key)))
        found |= {key: said} if said else {}
    return {"number": "1", **found} if found else {}
