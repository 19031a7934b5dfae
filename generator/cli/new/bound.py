"""What reads each column of a run, and the conditions it is made in: asked alike for runs and sittings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.cli.bench import wrong_use
from generator.cli.new.asking import Question
from generator.intake.taking import NotTaken

if TYPE_CHECKING:
    from collections.abc import Mapping

    from generator.cli.new.asking import Asker
    from generator.intake.offers import Asked, Offers
    from generator.intake.taking import Check
    from generator.records.schema.method import Method

NONE = "none"
"""The answer that no meter reads a column."""

AIR_MEASURED = "air-measured"


def meters_of(asker: Asker, offers: Offers, method: Method, taken: Mapping[str, str]) -> dict[str, str]:
    """What reads each column and each value of a run of its own.

    Args:
        asker: Asks.
        offers: The meters.
        method: The run's method.
        taken: Column to meter, as taken over from another run; these are not asked.
    """
    from generator.intake.offers import columns, scalars  # noqa: PLC0415

    ids = {each.id: each.quantity for each in scalars(method) if each.id in taken}
    found = dict(taken)
    for each in columns(method):
        taken_by_id = each.key not in found and each.quantity in ids.values()
        given = asker.was_given(f"--instrument {each.key}")
        if given or not (each.key in found or taken_by_id):
            found |= meter_of(asker, offers, each)
    return found


def meter_of(asker: Asker, offers: Offers, asked: Asked) -> dict[str, str]:
    """What reads a column; empty where nothing does."""
    if asked.need == "may" and not offers.meters(asked.quantity):
        return {}
    meter = asker.ask(meter_question(offers, asked))
    return {asked.key: meter} if meter and meter != NONE else {}


def meter_question(offers: Offers, asked: Asked, run: str = "") -> Question:
    """The question what reads a column.

    Args:
        offers: The meters.
        asked: The column.
        run: Whose column it is, in a sitting.
    """
    key = f"{run}@{asked.key.partition('@')[2]}" if run else asked.key
    able = offers.meters(asked.quantity)
    if asked.need == "must" and not able:
        wrong_use(f"no meter here reads {asked.what}.\nBegin one with:  provebook new instrument")
    return Question(
        f"--instrument {key}",
        f"What reads {asked.what}{f' of {run}' if run else ''}?{_WITHOUT if asked.need == 'should' else ''}",
        accepted=able if asked.need == "must" else (*able, NONE),
        default=able[0] if len(able) == 1 and asked.need != "may" else "",
        without="nothing reads it" if asked.need == "may" else "",
        check=_meter(offers, able, asked, "" if asked.need == "must" else NONE),
        value=f"COLUMN=METER, as {key}={able[0] if able else NONE}",
    )


_WITHOUT = f" (With {NONE} there is no figure, only readings.)"


def _meter(offers: Offers, able: tuple[str, ...], asked: Asked, none: str) -> Check:
    """A check of what reads a column: one of the meters that can, with another probe where it says so."""
    from generator.intake.answers import field, one_of  # noqa: PLC0415
    from generator.records.schema.run import RunRecord  # noqa: PLC0415

    form = field(RunRecord, "instruments", "current")
    known = one_of(able, f"there is no meter for {asked.quantity}")

    def check(answer: str) -> str:
        if none and answer == none:
            return answer
        meter, with_, probe = (part.strip() for part in answer.partition(" with "))
        known(meter)
        probes = offers.library.instruments[meter.split("/")[0]].probes
        if with_ and probe not in probes:
            raise NotTaken(f"'{meter}' has no probe of this name", tuple(probes))
        return form(answer)

    return check


def conditions_of(
    asker: Asker, method: Method, meters: Mapping[str, str], taken: Mapping[str, str]
) -> dict[str, str]:
    """The method's conditions as they were, and where the air was read.

    Args:
        asker: Asks.
        method: The method.
        meters: Columns that are read, and so are no conditions.
        taken: Conditions taken over from another run; these are not asked.
    """
    from generator.intake.offers import over_time  # noqa: PLC0415

    found = dict(taken)
    for key in method.conditions:
        if key in meters or key == "ambient":
            continue
        if key not in found or asker.was_given(f"--condition {key}"):
            said = asker.ask(_condition(method, key))
            found |= {key: said} if said else {}
    given = asker.was_given(f"--condition {AIR_MEASURED}")
    if given or (over_time(method) and "ambient" in meters and AIR_MEASURED not in found):
        said = asker.ask(_air_measured())
        found |= {AIR_MEASURED: said} if said else {}
    return found


def _condition(method: Method, key: str) -> Question:
    """The question how a condition was; what the method asks for in words is offered."""
    from generator.intake.answers import quantity  # noqa: PLC0415
    from generator.records.schema.method import Toleranced  # noqa: PLC0415

    asked = method.conditions[key]
    option, value = f"--condition {key}", f"NAME=VALUE, as {key}=…"
    if isinstance(asked, str):
        text = f"{key}: the method asks for {asked}. How was it?"
        return Question(option, text, default=asked, value=value)
    if isinstance(asked, Toleranced):
        wanted, like = f"{asked.value.text}, within {asked.within.text}", asked.value
    else:
        wanted, like = asked.text, asked.low
    text = f"{key}: the method asks for {wanted}. How was it, as measured?"
    return Question(option, text, like.text, check=quantity(like.quantity), value=value)


def _air_measured() -> Question:
    option = f"--condition {AIR_MEASURED}"
    text = "Where is the air read?"
    return Question(option, text, "beside the box", value=f"NAME=VALUE, as {AIR_MEASURED}=…")
