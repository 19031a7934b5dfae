"""`provebook new method`: a procedure, from a starter."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench
from generator.cli.new.asking import Asker, Question, given, stopping
from generator.cli.new.writing import write
from generator.intake.taking import number, words

if TYPE_CHECKING:
    from generator.intake.taking import Check

BETTER = ("higher", "lower", "neither")
GOOD = ("yes", "no", "neither")


@click.command(short_help="Begin a method from a starter.")
@click.argument("id", required=False, default="")
@click.option("--from", help="The starter: heating, drop, pull-out, force, torque, count or check.")
@click.option("--title", help="The method in a line; made from the answers where left out.")
@click.option("--current", help="heating, drop: the current that is set: 30 A.")
@click.option("--minutes", help="heating: how long a run is; 60 where left out.")
@click.option("--conductor", help="heating, drop, pull-out, torque: the cable: 4 mm2 class 5.")
@click.option("--lead", help="drop: how much cable lies between the probe points: 100 mm.")
@click.option("--enclosure", help="heating: what the part lies in: closed box 2 l.")
@click.option("--where", help="heating: where on the part its temperature is read.")
@click.option("--stop-limit", help="heating: the temperature at which a run is stopped: 90 degC.")
@click.option("--air", help="heating: the air that temperatures are told for: 40 degC.")
@click.option("--because", help="heating: why that air: a closed locker in summer.")
@click.option("--what", help="force: what it does; count: what is counted; endurance: what is done.")
@click.option("--failure", help="endurance: what counts as broken.")
@click.option("--better", help="force, count: higher, lower or neither.")
@click.option("--question", help="check: the question that a look answers.")
@click.option("--good", help="check: the answer one hopes for: yes, no or neither.")
def method(**_: str | None) -> None:
    """Begin version 1 of a method, called ID, from a starter: asks what the starter cannot know.

    Starters are for extra-low voltage and for parts that are off. Each number says where it comes from.
    """
    stopping(_method)


_STARTERS = {
    "heating": "how much hotter than the air a part gets at a current",
    "drop": "what a part loses of the voltage at a current, its resistance, the heat it makes",
    "pull-out": "how hard one has to pull before a cable leaves",
    "force": "the force of a movement: pushing in, pulling off, opening",
    "torque": "the torque at which a screw terminal gives way",
    "count": "how often something happens, of so many times",
    "endurance": "how often something can be done before the part breaks",
    "check": "a question that a look answers: yes, no, could not tell",
}


def _method() -> None:
    from generator.intake.answers import field, new_name  # noqa: PLC0415
    from generator.intake.names import free, id_from  # noqa: PLC0415
    from generator.intake.new_method import STARTERS, NewMethod, new_method, title_of  # noqa: PLC0415
    from generator.records.schema.method import Method  # noqa: PLC0415

    folder, asker = folder_of_bench(), Asker(given())
    text = "Which starter shall it begin from?\n" + "\n".join(
        f"  {name:<9} {what}" for name, what in _STARTERS.items()
    )
    starter = Question("--from", text, check=words(*STARTERS), value="STARTER")
    chosen = asker.ask(starter)
    if not chosen:
        asker.settle()
    questions = {**_heating(), **_reference(), **_others(chosen)}
    if chosen == "drop":
        questions |= _drop()
    said = {key.replace("-", "_"): asker.ask(questions[key]) for key in STARTERS[chosen]}
    title = Question(
        "--title",
        "The method in a line?",
        default=title_of(folder, chosen, said),
        check=field(Method, "title"),
    )
    said["title"] = asker.ask(title)
    check = new_name(folder, lambda each: f"methods/{each}/1.yml")
    made = free(folder / "reports/methods", id_from(chosen, said.get("current", "")))
    named = "Its id, which is its folder's name and stands in its address for ever?"
    name = asker.ask(Question("id", named, "heating-30-a", default=made, check=check))
    asker.finish()
    after = (
        f"read reports/methods/{name}/1.yml, and change what does not fit your bench",
        "provebook new instrument",
        "provebook new item",
    )
    write(new_method(folder, NewMethod(name, chosen, **said)), after)


def _heating() -> dict[str, Question]:
    """What the starter of heating asks, by its options."""
    from generator.intake.answers import field, quantity  # noqa: PLC0415
    from generator.intake.new_method import LONGEST, SHORTEST, USUAL_MINUTES  # noqa: PLC0415
    from generator.records.schema.method import Method  # noqa: PLC0415

    asked = (
        Question("--current", "Which current is set?", "30 A", check=quantity("current")),
        Question(
            "--minutes",
            "How many minutes is a run, at the end of which it is compared?",
            default=USUAL_MINUTES,
            check=number(LONGEST, SHORTEST),
        ),
        Question(
            "--conductor",
            "Which cable is fastened to the part: its size and class?",
            "4 mm2 class 5",
            check=_words("conductor"),
        ),
        Question("--enclosure", "What does the part lie in?", "closed box 2 l", check=_words("enclosure")),
        Question(
            "--where",
            "Where on the part is its temperature read?",
            default="side of the body over the contact",
            check=field(Method, "points", "body", "where"),
        ),
        Question(
            "--stop-limit",
            "At which temperature is a run stopped: what part or cable is marked for, less a margin?",
            "90 degC",
            check=field(Method, "stop-limit"),
        ),
    )
    return {each.option.removeprefix("--"): each for each in asked}


def _reference() -> dict[str, Question]:
    """The air that temperatures are told for, and why that."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.method import Method  # noqa: PLC0415

    asked = (
        Question(
            "--air",
            "Which air are temperatures told for, the warmest where your readers fit such parts?",
            "40 degC",
            check=field(Method, "reference-ambient", "value"),
        ),
        Question(
            "--because",
            "Why that air?",
            "a closed locker in summer",
            check=field(Method, "reference-ambient", "because"),
        ),
    )
    return {each.option.removeprefix("--"): each for each in asked}


def _others(starter: str) -> dict[str, Question]:
    """What the other starters ask, by their options."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.method import Method  # noqa: PLC0415

    text, example = {
        "count": ("What is counted?", "openings after which the lid did not hold"),
        "endurance": ("What is done again and again, in the plural?", "openings"),
    }.get(starter, ("What does the force do?", "pushing the plug fully in"))
    text_of = field(Method, "title")
    good = "Which answer does one hope for?"
    asked = (
        Question("--what", text, example, check=text_of),
        Question("--failure", "What counts as broken?", "the lid no longer holds", check=text_of),
        Question("--better", "Which way is better?", accepted=BETTER, check=words(*BETTER)),
        Question("--question", "What does a look answer?", "Does the lid stay shut?", check=text_of),
        Question("--good", good, accepted=GOOD, check=words(*GOOD)),
    )
    return {each.option.removeprefix("--"): each for each in asked}


def _drop() -> dict[str, Question]:
    """The cable whose drop is taken off, by a name that says its resistance."""
    from generator.intake.answers import quantity, read_by  # noqa: PLC0415
    from generator.records.conductor import parse_conductor  # noqa: PLC0415

    asked = (
        Question(
            "--conductor",
            "Which cable is fastened to the part: its size and class?",
            "4 mm2 class 5, or: 12 AWG stranded",
            check=read_by(parse_conductor),
        ),
        Question(
            "--lead",
            "How much of that cable lies between the probe points beside the part, both sides together?",
            "100 mm",
            check=quantity("length"),
        ),
    )
    return {each.option.removeprefix("--"): each for each in asked}


def _words(key: str) -> Check:
    """A check of a condition that is exact text: a quantity alone would need its tolerance."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.intake.taking import NotTaken  # noqa: PLC0415
    from generator.records.quantity import QuantityError, parse_quantity  # noqa: PLC0415
    from generator.records.schema.method import Method  # noqa: PLC0415

    taken = field(Method, "conditions", key)

    def check(answer: str) -> str:
        try:
            parse_quantity(answer)
        except QuantityError:
            return taken(answer)
        raise NotTaken("a size alone; say in words what it is, too", (f"{answer} class 5",))

    return check
