"""`provebook correct`: a published run or a meter that was wrong, corrected by a record beside it."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.cli.bench import FAULTS, folder_of_bench, load_or_stop, near, refused, wrong_use
from generator.cli.new.asking import Asker, Question, has_terminal, stopping
from generator.fault import message

if TYPE_CHECKING:
    from generator.intake.correcting import Otherwise, Planned
    from generator.records.bench import Bench


@click.command(short_help="Correct a published run, or a meter, that was wrong.")
@click.argument("name")
@click.option("--because", default="", metavar="TEXT", help="What was wrong, in a sentence.")
@click.option(
    "--set",
    "keys",
    multiple=True,
    metavar="KEY=VALUE",
    help="A key that is otherwise, as infrared.emissivity=0.93; nothing behind `=` takes it away.",
)
@click.option(
    "--leave-out",
    multiple=True,
    metavar="TIME=WHY",
    help="A reading that counts for nothing, by its time or the number of its row: 20 min=lid open.",
)
@click.option("--report", default="", help="The report that corrects a run of a sitting.")
@click.option("--id", "id_", default="", help="The correction's id; made of the run's where left out.")
@click.option("--dry-run", is_flag=True, help="Tell what would be written and what it moves; write nothing.")
@click.option("--yes", is_flag=True, help="Write without asking.")
def correct(
    *,
    name: str,
    because: str,
    keys: tuple[str, ...],
    leave_out: tuple[str, ...],
    report: str,
    id_: str,
    dry_run: bool,
    yes: bool,
) -> None:
    """Correct NAME, a published run or a meter, without a change of what editions rest on.

    NAME is a run (its id, of a sitting 2026-03-09/okvarn-ih30:A) or the id of a meter. The old record stays.
    """
    stopping(lambda: _correct(name, (because, keys, leave_out), (report, id_), (dry_run, yes)))


def _correct(
    name: str,
    said: tuple[str, tuple[str, ...], tuple[str, ...]],
    where: tuple[str, str],
    how: tuple[bool, bool],
) -> None:
    bench = load_or_stop(folder_of_bench(), as_json=False)
    from generator.intake.correcting import Planned  # noqa: PLC0415
    from generator.records.changes import EditRefused  # noqa: PLC0415

    planned = Planned(bench)
    is_meter = name in bench.instruments
    run = "" if is_meter else _run(bench, name)
    _published_or_stop(bench, name if is_meter else "", run)
    what = _asked(*said, of_run=not is_meter)
    try:
        if is_meter:
            _meter(planned, name, what)
        else:
            _of_run(planned, run, what, where)
        after = _after(planned)
        click.echo(_told(planned, after, what), nl=False)
        _write(planned, *how)
    except EditRefused as error:
        for each in error.faults:
            click.echo(message(each, Path.cwd()), err=True)
        wrong_use("nothing was written.")


def _run(bench: Bench, name: str) -> str:
    """The id of the run of a name; says which there are where there is none, or several."""
    from generator.records.rules.common import offered  # noqa: PLC0415

    found = [name] if name in bench.runs else [key for key in bench.runs if key.rpartition("/")[2] == name]
    if not found:
        near_by = ", ".join(offered(name, [*bench.runs, *bench.instruments]))
        wrong_use(f"there is no run and no meter {name!r}{f'; there are: {near_by}' if near_by else ''}")
    if len(found) > 1:
        wrong_use(f"{name!r} is more than one run: {', '.join(found)}")
    if found[0] in bench.corrected:
        wrong_use(f"{found[0]} was corrected already: correct {bench.corrected[found[0]]}")
    return found[0]


def _published_or_stop(bench: Bench, meter: str, run: str) -> None:
    """Stop where no edition rests on it: then it may simply be edited."""
    from generator.intake.correcting import resting_on  # noqa: PLC0415

    runs = [run] if run else [each.id for each in bench.runs.values() if _used(each.uses.values(), meter)]
    if any(resting_on(bench, each) for each in runs):
        return
    file = bench.runs[run].source.file if run else bench.instruments[meter].place_of().file
    wrong_use(f"no edition rests on {run or meter}, so it may simply be edited: {near(file)}")


def _used(uses: object, meter: str) -> bool:
    return any(each.instrument == meter for each in uses)  # type: ignore[attr-defined]


def _asked(because: str, keys: tuple[str, ...], leave_out: tuple[str, ...], *, of_run: bool) -> Otherwise:
    """What was wrong and what is otherwise, asked at a terminal where the options do not say it."""
    from generator.intake.correcting import Otherwise  # noqa: PLC0415

    asker = Asker({"--because": because, "--set": "; ".join(keys) or "; ".join(leave_out)})
    why = asker.ask(Question("--because", "What was wrong?", "the tape's emissivity is 0.93"))
    text = "Which key is otherwise? Several are parted by `;`"
    example = "infrared.emissivity=0.93" if of_run else "ranges.1.accuracy=±(1 % + 1 degC)"
    answer = asker.ask(Question("--set", text, example, value="KEY=VALUE"))
    asker.settle()
    if not keys and not leave_out:
        keys = tuple(each.strip() for each in re.split(_NEXT_KEY, answer) if each.strip())
    if leave_out and not of_run:
        wrong_use("--leave-out: a meter has no readings; name the run")
    return Otherwise(
        why,
        tuple(_pair("--set", each, empty=of_run) for each in keys),
        tuple(_pair("--leave-out", each, empty=False) for each in leave_out),
    )


_NEXT_KEY = r";\s*(?=[\w.@-]+\s*=)|;\s*$"
"""Parts keys that are typed on one line; a `;` in a value stays in it."""


def _pair(option: str, said: str, *, empty: bool) -> tuple[str, str]:
    key, equals, value = said.partition("=")
    if not equals or not key.strip() or not (value.strip() or empty):
        example = "--set infrared.emissivity=0.93" if option == "--set" else '--leave-out "20 min=lid open"'
        wrong_use(f"{option} {said!r}: write what it is, '=' and what stands for it, as {example}")
    return key.strip(), value.strip()


def _of_run(planned: Planned, run: str, what: Otherwise, where: tuple[str, str]) -> None:
    from generator.intake.answers import new_name  # noqa: PLC0415
    from generator.intake.correcting import correct_run, showing  # noqa: PLC0415
    from generator.intake.taking import NotTaken  # noqa: PLC0415

    report, id_ = where
    above = run.partition("/")[0]
    if above in planned.bench.reports:
        report = above
    elif not report:
        report = next(iter(showing(planned.bench, run)), "")
    if report not in planned.bench.reports:
        known = ", ".join(planned.bench.reports)
        wrong_use(f"which report is the correction to stand in? give --report; there are: {known}")
    if id_:
        try:
            new_name(planned.bench.root, lambda each: f"{report}/runs/{each}.yml")(id_)
        except NotTaken as why:
            wrong_use(f"--id {id_!r}: {why.what}")
    correct_run(planned, run, report, what, id_)


def _meter(planned: Planned, meter: str, what: Otherwise) -> None:
    from generator.intake.correcting_meter import correct_meter  # noqa: PLC0415
    from generator.intake.offers import offers  # noqa: PLC0415

    correct_meter(planned, offers(planned.bench.root).runs, meter, what)


def _after(planned: Planned) -> Bench:
    """The bench as it would be; tells what it has against the new records and stops with 1."""
    from generator.evaluation.checks import checked  # noqa: PLC0415
    from generator.records.bench import load  # noqa: PLC0415

    texts = {each.path: each.after.decode() for each in planned.writes()}
    after = checked(load(planned.bench.root, texts))
    if after.faults:
        for each in after.faults:
            click.echo(message(each, Path.cwd()), err=True)
        click.echo("Nothing was written.", err=True)
        sys.exit(FAULTS)
    return after


def _told(planned: Planned, after: Bench, what: Otherwise) -> str:
    from generator.history.corrected import effects  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415

    runs = [(old, new, after.runs[new].corrections[0].changed) for old, new in planned.corrected.items()]
    return Renderer(planned.bench.root).text(
        "text/correct.txt.jinja",
        new=[near(path) for path in planned.new],
        changed=[near(path) for path in planned.changes],
        what=what,
        runs=runs,
        effects=effects(planned.bench, after, planned.corrected),
    )


def _write(planned: Planned, dry_run: bool, yes: bool) -> None:
    from generator.records.store import Meanwhile  # noqa: PLC0415
    from generator.records.together import write_together  # noqa: PLC0415

    if dry_run:
        click.echo("\nNothing was written. Without --dry-run it is.")
        return
    if not yes and not has_terminal():
        wrong_use("nothing was written: there is no terminal to ask at; write with --yes")
    if not yes and not click.confirm("\nWrite it?"):
        click.echo("Nothing was written.")
        return
    try:
        write_together(planned.bench.root / "reports", planned.writes())
    except Meanwhile as late:
        wrong_use(f"nothing was written: {near(late.path)} was changed or written meanwhile")
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}")
    click.echo(f"\nwrote {len(planned.new) + len(planned.changes)} files")
