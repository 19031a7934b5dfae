"""`provebook import`: a meter's file, looked at or brought into a run or a sitting."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from generator.cli.bench import FAULTS, SETTINGS, faults_as_data, folder_of_bench, near, refused, wrong_use
from generator.cli.import_options import from_start, hint_options, hints_of
from generator.cli.streams import print_data
from generator.fault import Fault, count_line, in_order, message

if TYPE_CHECKING:
    from collections.abc import Iterable
    from decimal import Decimal

    from generator.intake.importing.plan import Plan
    from generator.intake.importing.request import Request


@click.command("import", short_help="Look at a meter's file, or bring it into a run.")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--into", default="", metavar="RUN|SITTING", help="Where its readings go; without it nothing is written."
)
@click.option(
    "--meter", default="", metavar="ID", help="Whose file it is, where several meters read the run."
)
@click.option(
    "--replace",
    "standing",
    flag_value="replace",
    default="keep",
    help="Put the readings in place of those that the run has in these columns.",
)
@click.option(
    "--starts-at",
    metavar='"0 s"',
    callback=from_start,
    help="When its first reading was, from the start of the run, where the clocks do not tell.",
)
@click.option("--json", "as_json", is_flag=True, help="Print what was read as JSON, and nothing else.")
@hint_options
def import_(
    file: Path,
    *,
    into: str,
    meter: str,
    standing: Any,
    starts_at: Decimal | None,
    as_json: bool,
    **options: Any,
) -> None:
    """Tell what a meter's FILE holds, as CSV, text or workbook; with --into, bring its readings into a run.

    First without --into: it prints what was understood, column by column, and what was left out. What the
    file does not say itself is not guessed; the message then names the line and the option that settles it.

    With --into RUN the readings go into the run's record, the file itself is kept beside it, and the hints
    that were needed are kept for the next file of that meter:

    \b
      provebook import log.csv
      provebook import log.csv --into my-report/run-a \\
        --map "CH1=ambient" --map "CH3=temperature@body"
    """  # noqa: D301
    from generator.intake.importing.request import Request  # noqa: PLC0415
    from generator.intake.meter.decode import MOST_BYTES  # noqa: PLC0415
    from generator.records.files import content  # noqa: PLC0415

    root = folder_of_bench() if into or meter else _bench_or_none()
    data = content(file.absolute(), MOST_BYTES)
    if isinstance(data, Fault):
        _faults([data], as_json=as_json)
    request = Request(file.name, data, hints_of(options), into, meter, standing, root, starts_at)
    plan = _plan_or_stop(request, file, as_json=as_json)
    if plan.target is None:
        _tell(plan, (), as_json=as_json)
        return
    if not as_json:
        _tell(plan, (), as_json=False)
    _write_or_stop(plan)
    _told_after(plan, as_json=as_json)


def _bench_or_none() -> Path | None:
    here = Path.cwd()
    return here if (here / SETTINGS).is_file() else None


def _plan_or_stop(request: Request, file: Path, *, as_json: bool) -> Plan:
    """What is to be done; where the file or a record does not allow it, say why and stop."""
    from generator.intake.importing.plan import plan  # noqa: PLC0415
    from generator.intake.importing.refusals import AtFault, Refused  # noqa: PLC0415
    from generator.intake.meter.series import Unreadable  # noqa: PLC0415
    from generator.records.changes import EditRefused  # noqa: PLC0415

    try:
        return plan(request)
    except Unreadable as why:
        _faults(tuple(each.as_fault(file.absolute()) for each in why.problems), as_json=as_json)
    except (AtFault, EditRefused) as why:
        _faults(why.faults, as_json=as_json)
    except Refused as why:
        wrong_use("\n".join((why.what, *(f"  {each}" for each in why.instead))))


def _faults(found: Iterable[Fault], *, as_json: bool) -> NoReturn:
    told = in_order(found)
    if as_json:
        print_data({"format": 1, "faults": faults_as_data(told, Path.cwd())})
    for each in () if as_json else told:
        click.echo(message(each, Path.cwd()), err=True)
    if not as_json:
        click.echo(count_line(told, 0), err=True)
    sys.exit(FAULTS)


def _tell(plan: Plan, written: tuple[str, ...], *, as_json: bool) -> None:
    here = plan.request.root or Path.cwd()
    if as_json:
        from generator.intake.importing.data import as_data  # noqa: PLC0415

        print_data(as_data(plan, here, written))
        return
    from generator.intake.importing.view import preview  # noqa: PLC0415

    click.echo(preview(plan, here), nl=False)


def _write_or_stop(plan: Plan) -> None:
    from generator.records.store import Meanwhile  # noqa: PLC0415
    from generator.records.together import write_together  # noqa: PLC0415

    try:
        write_together((plan.request.root or Path.cwd()) / "reports", plan.writes)
    except Meanwhile as why:
        wrong_use(f"{near(why.path)} was changed meanwhile, so nothing was written; try again.")
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}")


def _told_after(plan: Plan, *, as_json: bool) -> None:
    """Say what was written, and what the records have against it now."""
    from generator.evaluation.checks import checked  # noqa: PLC0415
    from generator.intake.importing.view import outcome  # noqa: PLC0415
    from generator.records.bench import load  # noqa: PLC0415

    root = plan.request.root or Path.cwd()
    bench = checked(load(root))
    files = {each.path for each in plan.writes}
    own = in_order(each for each in (*bench.faults, *bench.doubts) if each.place.file in files)
    if as_json:
        written = tuple(each.path.relative_to(root).as_posix() for each in plan.writes)
        _tell(plan, written, as_json=True)
    else:
        click.echo(outcome(plan, root), nl=False)
        for each in own:
            click.echo(message(each, Path.cwd()), err=True)
        if own:
            click.echo(count_line(own, 0), err=True)
    if any(each.word == "fault" for each in own):
        sys.exit(FAULTS)
    if not as_json:
        click.echo("\nNext:\n  provebook build")
