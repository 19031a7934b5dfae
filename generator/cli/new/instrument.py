"""`provebook new instrument`: a meter, with what its handbook states."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench
from generator.cli.new.asking import Asker, Question, given, stopping
from generator.cli.new.writing import day, name_of, write
from generator.intake.taking import either, parts, several, words

if TYPE_CHECKING:
    from generator.intake.answers import Data
    from generator.intake.taking import Check

NEVER = "never"
MODES = ("dc", "ac")


@click.command(short_help="Begin an instrument: a meter and what its handbook states.")
@click.option("--name", help="What it is: clamp meter.")
@click.option("--model", help="Its model, as printed on it.")
@click.option("--quantity", help="What it reads: temperature, current, voltage, force …")
@click.option("--from", help="Lower end of its range: 0 A.")
@click.option("--to", help="Upper end of its range: 40 A.")
@click.option("--accuracy", help="As the handbook prints it: ±(1.5 % + 2 digits).")
@click.option("--resolution", help="The step of its last digit: 0.1 A.")
@click.option("--repeatability", help="Standard deviation of readings of one thing, where it is known.")
@click.option("--valid-at", help="The air at which its accuracy holds: 18 to 28 degC.")
@click.option("--mode", help="dc or ac, for electrical ranges.")
@click.option("--channels", help='Of a thermometer with several inputs: "CH1 CH2".')
@click.option("--probes", help="Tolerance of a thermometer's probes: type K class 1.")
@click.option("--calibrated", help="never, or the day of the last calibration.")
@click.option("--calibrated-by", help="Who calibrated it.")
@click.option("--id", help="Its id; made from its name where left out.")
def instrument(**_: str | None) -> None:
    """Begin an instrument: asks what its handbook states of one range, or takes it as options."""
    stopping(_instrument)


def _instrument() -> None:
    from generator.intake.answers import field, new_name  # noqa: PLC0415
    from generator.intake.names import free, id_from  # noqa: PLC0415
    from generator.intake.new_instrument import NewInstrument, new_instrument  # noqa: PLC0415
    from generator.records.schema.instrument import Instrument  # noqa: PLC0415

    folder, asker = folder_of_bench(), Asker(given())
    name = asker.ask(
        Question("--name", "What kind of meter is it?", "clamp meter", check=field(Instrument, "name"))
    )
    text = "Its model, as printed on it?"
    model = asker.ask(
        Question("--model", text, "CM-40", without="left out", check=field(Instrument, "model"))
    )
    stated = _range(asker)
    named, tolerance = _inputs(asker, stated["quantity"])
    calibrated, by = _calibrated(asker)
    made = free(folder / "reports/instruments", id_from(name, model), ".yml")
    id_ = name_of(asker, made, new_name(folder, lambda each: f"instruments/{each}.yml"))
    asker.finish()
    meter = NewInstrument(
        id_,
        name,
        model,
        **stated,
        named=named,
        tolerance=tolerance,
        calibrated=calibrated,
        calibrated_by=by,
    )
    after = ("provebook new instrument  for each meter on the bench", "provebook new item")
    write(new_instrument(folder, meter), after)


_LIKELY = ("temperature", "current", "voltage", "resistance", "force", "torque", "mass", "length")

_EXAMPLES = {
    "temperature": ("-50 degC", "200 degC", "±(0.5 % + 0.5 degC)", "0.1 degC"),
    "current": ("0 A", "40 A", "±(1.5 % + 2 digits)", "0.1 A"),
    "voltage": ("0 mV", "400 mV", "±(0.5 % + 3 digits)", "0.1 mV"),
    "resistance": ("0 mohm", "200 mohm", "±(0.5 % + 3 digits)", "0.1 mohm"),
    "force": ("0 N", "500 N", "±(1 % + 2 N)", "2 N"),
    "torque": ("0 Nm", "5 Nm", "±4 %", "0.01 Nm"),
    "mass": ("0 g", "500 g", "±0.1 g", "0.1 g"),
    "length": ("0 mm", "150 mm", "±0.03 mm", "0.01 mm"),
}
"""From, to, accuracy and last digit of a meter of the kind, to show how each is written."""


def _range(asker: Asker) -> dict[str, str]:
    """What the handbook states of the range."""
    from generator.intake.answers import one_of  # noqa: PLC0415
    from generator.intake.new_instrument import ELECTRICAL  # noqa: PLC0415
    from generator.records.units import QUANTITIES  # noqa: PLC0415

    text = "What does it read? (Of several, the one you use; a range more is a few lines more.)"
    check = one_of(QUANTITIES, "there is no quantity")
    quantity = asker.ask(Question("--quantity", text, accepted=_LIKELY, check=check))
    low, high, accuracy, step = _EXAMPLES.get(quantity, _EXAMPLES["current"])
    likely = quantity or "current"
    stated = {
        "to": Question("--to", "Up to what does it read, in the range you use?", high),
        "from_": Question("--from", "From what on does it read?", low, without="not stated"),
        "accuracy": Question("--accuracy", "How accurate is it, as its handbook prints it?", accuracy),
        "resolution": Question("--resolution", "What is the step of its last digit?", step),
        "repeatability": Question(
            "--repeatability",
            "How much do its readings of one thing scatter (standard deviation)?",
            step,
            without="not known",
        ),
        "valid_at": Question(
            "--valid-at", "At which air does its accuracy hold?", "18 to 28 degC", without="not stated"
        ),
    }
    said = {key: asker.ask(_of_range(each, key, likely)) for key, each in stated.items()}
    mode = ""
    if quantity in ELECTRICAL:
        mode = asker.ask(
            Question("--mode", "Does it read d.c. or a.c.?", accepted=MODES, check=words(*MODES))
        )
    return {"quantity": quantity, **said, "mode": mode}


def _of_range(question: Question, key: str, quantity: str) -> Question:
    """A question whose answer is checked as a key of a range of that quantity."""
    from generator.intake.answers import refused  # noqa: PLC0415
    from generator.records.schema.instrument import InstrumentRange  # noqa: PLC0415

    name = key.rstrip("_").replace("_", "-")

    def check(answer: str) -> str:
        record: dict[str, Data] = {"quantity": quantity, name: answer}
        refused(InstrumentRange, record, name)
        return answer

    return replace(question, check=check)


def _inputs(asker: Asker, quantity: str) -> tuple[tuple[str, ...], str]:
    """Channels and probes of a thermometer."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.instrument import Instrument  # noqa: PLC0415

    if quantity != "temperature":
        return (), ""
    each: Check = field(Instrument, "channels", "CH1")
    text = "Its channels, as printed beside the inputs?"
    channels = asker.ask(Question("--channels", text, "CH1 CH2", without="one input", check=several(each)))
    tolerance = Question(
        "--probes",
        "How far off may its probes be?",
        "type K class 1",
        without="" if channels else "said by its accuracy already",
        check=field(Instrument, "probes", "p1"),
    )
    return parts(channels), asker.ask(tolerance)


def _calibrated(asker: Asker) -> tuple[str, str]:
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.instrument import Calibration  # noqa: PLC0415

    text = "When was it calibrated last?"
    check = either(NEVER, day(field(Calibration, "date")))
    when = asker.ask(Question("--calibrated", text, f"2025-11-03, or: {NEVER}", check=check))
    by = ""
    if when and when != NEVER:
        who = Question("--calibrated-by", "Who calibrated it?", "its maker", check=field(Calibration, "by"))
        by = asker.ask(who)
    return when, by
