"""What a metre of lead has by the controls nearest in date to a run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Ledger
from generator.evaluation.kinds.task import LeadOfControls
from generator.evaluation.of_day import mean_of_day
from generator.evaluation.reduced import Reduced

if TYPE_CHECKING:
    from generator.records.run import Run


def lead_near(
    ledger: Ledger, run: Run, controls: Sequence[tuple[Run, Reduced]], alone: str | None
) -> LeadOfControls | None:
    """The metre of lead by first and last control of the day nearest to a run's; of two as near, the earlier.

    Args:
        ledger: The report's inputs.
        run: The run.
        controls: The report's controls, reduced, in order of date.
        alone: Name of the control that is the lead alone; None without one.
    """
    known = [
        (control, reduced.lead)
        for control, reduced in controls
        if reduced.lead is not None and control.control == alone
    ]
    if not known:
        return None
    day = min((control.date for control, _ in known), key=lambda each: (abs(each - run.date), each))
    of_day = [(control, lead) for control, lead in known if control.date == day]
    used = [of_day[0], of_day[-1]] if len(of_day) > 1 else of_day
    key = ("rig", "lead", str(alone), used[0][0].method, day.isoformat())
    metre, _ = mean_of_day(ledger, [lead.metre for _, lead in used], key, "Ω/m")
    return LeadOfControls(metre, tuple(dict.fromkeys(lead.length for _, lead in used)))
