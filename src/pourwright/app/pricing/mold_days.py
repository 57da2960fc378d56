"""How long a casting keeps its mold, and how many pieces one mold gives in a month."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from pourwright.app.pricing.planned import Planned
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.plan import PlanDocument
from pourwright.line.capacity.rate import MONTH
from pourwright.line.defaults import LINE

DAY = timedelta(days=1)
SECONDS, HOURS = 86_400.0, 24.0
SOFT = "it never gets hard in this shop: plan it warmer, or with another resin"
NOBODY_KNOWS = "nobody knows when this powder may leave the mold: demold_time of the material"


@dataclass(frozen=True)
class Kept:
    """Days that a casting keeps its mold.

    Parameters
    ----------
    days : float or None
        From its first pour until the mold has rested; None where it never leaves, or nobody knows.
    made_of : tuple of Trace
        What they are from.
    gap : str
        Why they are not known.
    """

    days: float | None
    made_of: tuple[Trace, ...] = ()
    gap: str = ""

    def pieces(self, scrap: float) -> float | None:
        """Good ones that one mold gives in a month at most, cast again as soon as it has rested."""
        return None if not self.days else MONTH / HOURS / self.days * (1.0 - scrap)


def kept_of(planned: Planned) -> Kept:
    """Read it off a plan; off fill where all goes in at once."""
    if planned.plan is not None:
        return _of_plan(planned.plan)
    hours = None if planned.mineral is None else planned.mineral.demold_h
    if hours is None:
        return Kept(None, gap=NOBODY_KNOWS)
    trace = Trace(where="fill", path="mineral.demold_h", words="until it may leave", value=hours, unit="h")
    # water leaves no trace in rubber: the mold need not rest
    return Kept(hours / HOURS, (trace,))


def _of_plan(plan: PlanDocument) -> Kept:
    if plan.demold.at is None:
        return Kept(None, gap=SOFT)
    first, last = (datetime.fromisoformat(each) for each in (plan.pours[0].start, plan.demold.at))
    rest = LINE["rest"]
    traces = (
        Trace(
            where="plan", path="pours[0].start, demold.at", words="first pour until it may leave",
            value=round((last - first) / DAY, 4), unit="day",
        ),
        Trace(
            where="practice", path="rest", words=f"the mold rests: {rest.conditions}",
            value=rest.value / SECONDS, unit="day",
        ),
    )  # fmt: skip
    return Kept(sum(each.value for each in traces), traces)
