"""`provebook plan`: what a comparison would find before its pieces are bought, and the order of its runs."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.cli.bench import folder_of_bench, load_or_stop, near, refused, wrong_use
from generator.cli.streams import print_data

if TYPE_CHECKING:
    from generator.evaluation.planned import Asked, Plan
    from generator.records.bench import Bench
    from generator.records.money import Money
    from generator.records.schema.measures import AnyMeasure
    from generator.records.schema.method import Method

MOST_ITEMS = 40
MOST_PIECES = 100
_ID = re.compile(r"[a-z0-9-]{1,40}")


@click.command(short_help="Tell what a comparison would find, and draw the order of its runs.")
@click.argument("method")
@click.option("--measure", default="", metavar="ID", help="Which of its measures; the first where left out.")
@click.option(
    "--items",
    default="",
    metavar='5|"A B C"',
    help="How many items, or their ids; those tested so far where left out.",
)
@click.option("--pieces", type=click.IntRange(1, MOST_PIECES), help="Pieces of each that are run.")
@click.option("--gap", default="", metavar='"2 K"', help="The difference that matters to you.")
@click.option(
    "--spread",
    default="",
    metavar='"2 K"',
    help="Standard deviation between pieces, in place of your results'.",
)
@click.option(
    "--price",
    "prices",
    multiple=True,
    metavar='[ITEM=]"4.80 EUR"',
    help="What a piece costs; may be repeated.",
)
@click.option("--per-day", type=click.IntRange(1, MOST_PIECES), help="Runs of pieces a day.")
@click.option("--control", default="", metavar="NAME", help="What is run first and last of a day.")
@click.option("--seed", default="1", show_default=True, help="Any text: the order of runs is drawn from it.")
@click.option(
    "--sheet",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write a bench sheet to print, as Markdown.",
)
@click.option("--json", "as_json", is_flag=True, help="Print as JSON (README: For other programs).")
def plan(*, method: str, sheet: Path | None, as_json: bool, **options: Any) -> None:
    """Tell which gaps a comparison by METHOD would show, with 2 to 10 pieces of each item.

    METHOD is its id, for the newest version, or id and version (`closed-box-heating/2`). The spread between
    pieces is that of your own results by it, else the one that the method declares; --spread
    goes before both.
    """
    bench = load_or_stop(folder_of_bench(), as_json=as_json)
    version = _method(bench, method)
    measure = _measure(version, options["measure"])
    made = _plan(bench, version, measure, _asked(bench, version, measure, options))
    if sheet is not None:
        _write(bench, made, sheet)
    if as_json:
        from generator.evaluation.plan_as_data import plan_as_data  # noqa: PLC0415

        print_data(plan_as_data(made))
        return
    from generator.pages.plan import planned  # noqa: PLC0415

    click.echo(planned(bench, made), nl=False)
    if sheet is not None:
        click.echo(f"\nwrote {near(sheet.absolute())}")


def _method(bench: Bench, name: str) -> Method:
    key, _, version = name.partition("/")
    versions = bench.methods.get(key)
    if versions is None:
        wrong_use(
            f"no method {key!r} here; methods of this bench: {', '.join(sorted(bench.methods)) or 'none yet'}"
        )
    if not version:
        return versions[max(versions)]
    found = versions.get(int(version)) if version.isascii() and version.isdigit() else None
    if found is None:
        wrong_use(f"no version {version!r} of {key}; it has: {', '.join(map(str, sorted(versions)))}")
    return found


def _measure(method: Method, name: str) -> AnyMeasure:
    from generator.evaluation.kinds import KINDS  # noqa: PLC0415

    able = [each for each in method.measures if each.kind in KINDS]
    known = ", ".join(each.id for each in able) or "none"
    if not name and able:
        return able[0]
    found = method.measure(name)
    if found is None or found not in able:
        told = (
            f"{method.id} has no measure {name!r}"
            if name and found is None
            else ("what is counted or answered has no figure whose gaps could be planned")
        )
        wrong_use(f"{told}; with figures: {known}")
    return found


def _asked(bench: Bench, method: Method, measure: AnyMeasure, options: dict[str, Any]) -> Asked:
    from generator.evaluation.planned import Asked  # noqa: PLC0415

    names = _names(bench, method, options["items"])
    return Asked(
        names=names,
        pieces=options["pieces"] or 0,
        gap=_size(measure, "--gap", options["gap"]),
        spread=_size(measure, "--spread", options["spread"]),
        per_day=options["per_day"] or 0,
        control=_id("--control", options["control"].strip()) if options["control"].strip() else "",
        seed=" ".join(options["seed"].split()),
        prices=_prices(names, options["prices"]),
    )


def _names(bench: Bench, method: Method, said: str) -> tuple[str, ...]:
    """The items: as named, so many without a name, or all that the bench tested by the method."""
    if not said.strip():
        tested = {run.item for run in bench.standing if run.method == method.id and run.item}
        if len(tested) < 2:
            wrong_use('say how many items, or which:  --items 5  or  --items "okvarn-ih30 veldrun-v30"')
        return tuple(sorted(tested))
    if said.strip().isascii() and said.strip().isdigit():
        count = int(said.strip()[:9])
        names = tuple(f"item-{number}" for number in range(1, min(count, MOST_ITEMS + 1) + 1))
    else:
        names = tuple(_id("--items", each) for each in said.replace(",", " ").split())
        if len(set(names)) < len(names):
            wrong_use("--items: an item is named twice")
    if not 2 <= len(names) <= MOST_ITEMS:
        wrong_use(f"--items: a comparison is of 2 to {MOST_ITEMS} items")
    return names


def _id(option: str, said: str) -> str:
    if not _ID.fullmatch(said):
        wrong_use(f"{option}: {said!r} is no id; an id has small letters, digits and hyphens")
    return said


def _size(measure: AnyMeasure, option: str, said: str) -> float:
    """A difference of the measure's figures, above nought, in SI; 0 where nothing was said."""
    from generator.records.quantity import QuantityError, plain_quantity  # noqa: PLC0415
    from generator.records.schema.measures import quantity_of  # noqa: PLC0415
    from generator.records.units import INTERVAL, TEMPERATURE  # noqa: PLC0415

    if not said.strip():
        return 0.0
    wanted = quantity_of(measure)
    try:
        found = plain_quantity(said, INTERVAL if wanted == TEMPERATURE else wanted)
    except QuantityError as error:
        wrong_use(f"{option} {said!r}: {_why(error)}")
    if found.si <= 0:
        wrong_use(f"{option} {said!r}: a size above nought is needed")
    return found.si


def _prices(names: tuple[str, ...], said: tuple[str, ...]) -> dict[str, Money]:
    from generator.records.money import parse_money  # noqa: PLC0415
    from generator.records.quantity import QuantityError  # noqa: PLC0415

    found = {}
    for each in said:
        item, equals, price = each.rpartition("=")
        if equals and item.strip() not in names:
            wrong_use(f"--price {each!r}: {item.strip()!r} is none of the items: {', '.join(names)}")
        try:
            found[item.strip()] = parse_money(price)
        except QuantityError as error:
            wrong_use(f"--price {each!r}: {_why(error)}")
    return found


def _why(error: Any) -> str:
    accepted = f" (accepted: {', '.join(error.accepted)})" if error.accepted else ""
    return f"{error.what}{accepted}"


def _plan(bench: Bench, method: Method, measure: AnyMeasure, asked: Asked) -> Plan:
    from generator.evaluation.planning import NoSpread, plan  # noqa: PLC0415

    try:
        return plan(bench, method, measure, asked)
    except NoSpread:
        wrong_use(
            f"nothing says how far apart pieces of one item lie in {measure.id}: no item of yours has two "
            f"pieces with a figure by it, and the method declares no spread.\n"
            f'Say what standard deviation you expect:  --spread "…", or run two pieces of one item first.'
        )


def _write(bench: Bench, made: Plan, sheet: Path) -> None:
    from generator.pages.bench_sheet import bench_sheet  # noqa: PLC0415
    from generator.records.store import Meanwhile, Write, write_all  # noqa: PLC0415

    path = sheet.absolute()
    try:
        write_all([Write(path, bench_sheet(bench, made).encode())])
    except Meanwhile:
        wrong_use(f"{near(path)} exists already, and nothing is written over it.")
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}")
