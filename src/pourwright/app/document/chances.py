"""How sure a plan is, as a part of the plan document."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from pourwright.app.alternatives import Change
from pourwright.app.document.doubts import doubt_parts
from pourwright.app.document.kept import ready_after
from pourwright.app.document.notes import failure_words
from pourwright.app.doubting import CastingDoubt
from pourwright.app.setup import Setup
from pourwright.foundation.notation import ZERO_CELSIUS, format_duration, format_share
from pourwright.jobs import plan
from pourwright.jobs.plan_chances import Chances, Compared, PourChance, Ranking, Share, WhatIf
from pourwright.planner.chances import Answer, Chances as Weighed
from pourwright.planner.compare import Looked
from pourwright.planner.decide import Decision
from pourwright.planner.model import Choice, Failure, Trial
from pourwright.solver.sensitivity import sensitivity

Array = NDArray[np.float64]
HOUR, DAY = 3600.0, 86400.0
LEAST_SHARE = 0.001
"""A chance below this is not told: too few draws are behind it."""
SOFT_SLACK = 0.02
METHOD = (
    "Sobol' indices by the estimators of Saltelli and Jansen, on a Gaussian process learned from heat runs "
    "on the coarse grid"
)
RESIN = {
    "fit": "the shop's own fit of this resin",
    "family": "what resins sold under this name have in common; this one was not measured",
    "widest": "no family is known for this resin: as open as the widest",
}
UNITS = {"peak": "K", "bond": "s", "head": "m", "day": "s", "soak": "", "border": "m"}


def what_if_parts(setup: Setup, decision: Decision, changes: Sequence[Change]) -> list[WhatIf]:
    """Write what the changes that were looked at would do.

    Parameters
    ----------
    setup : Setup
        The job.
    decision : Decision
        The plan.
    changes : sequence of Change
        In the order of the decision's looks.

    Returns
    -------
    list of WhatIf
    """
    return [
        _what_if(changes[look.changed], look, setup, decision)
        for look in decision.looked
        if look.changed is not None
    ]


def soft_when_opened(decision: Decision, opened: float | None) -> float:
    """Count the castings that are not hard yet when the mold is opened as planned.

    Parameters
    ----------
    decision : Decision
        With its chances.
    opened : float or None
        When, in seconds after the climate's zero; None where it never is.

    Returns
    -------
    float
        Share of the runs [-].
    """
    weighed, final = decision.chances, decision.final
    if weighed is None or opened is None:
        return 1.0
    here = weighed.likely.ready - weighed.likely.begun
    scale = (final.ready - final.pours[-1].start) / here if np.isfinite(here) else 1.0
    after = weighed.ensemble.ready * scale
    # a run that never gets hard counts as soft
    return float(np.mean(~(after <= opened - final.pours[-1].start)))


def chances_part(setup: Setup, decision: Decision, opened: float | None) -> Chances | None:
    """Write how sure the plan is.

    Parameters
    ----------
    setup : Setup
        The job.
    decision : Decision
        The plan.
    opened : float or None
        When the mold is opened, in seconds after the climate's zero.

    Returns
    -------
    Chances or None
        None where nothing was taken to be in doubt.
    """
    weighed, doubt = decision.chances, decision.request.doubt
    if weighed is None or not isinstance(doubt, CastingDoubt):
        return None
    return Chances(
        probability=decision.request.probability,
        members=len(weighed.members),
        runs=len(weighed.ensemble.lived),
        held_out=weighed.held_out,
        method=METHOD,
        seed=decision.request.seed,
        resin=RESIN[doubt.origin],
        doubts=doubt_parts(setup, doubt),
        pours=[_pour(decision, weighed, number) for number in range(len(decision.final.pours))],
        soft_when_opened=soft_when_opened(decision, opened),
        rankings=list(_rankings(decision, weighed, doubt)),
        compared=_compared(setup, decision, weighed),
        notes=[
            "times of gel, bond and demolding are bands over the runs; chances are counted over the members",
            "a pour not gelled when the next is due is waited for; none goes in earlier than planned",
        ],
    )


def opened_soft(chances: Chances | None) -> list[str]:
    """Warn where the mold is opened on many castings that are still soft.

    Parameters
    ----------
    chances : Chances or None
        As written.

    Returns
    -------
    list of str
        At most one.
    """
    if chances is None or chances.soft_when_opened <= 1.0 - chances.probability + SOFT_SLACK:
        return []
    soft = (
        f"On the day planned for demolding {100 * chances.soft_when_opened:.0f} of 100 such castings are soft"
    )
    todo = "try the coldest place with a fingernail first, and plan the warm box"
    return [f"{soft}, some for good at this temperature: {todo}."]


def about_one_in(share: float) -> int | None:
    """Write a chance as about 1 in so many.

    Parameters
    ----------
    share : float
        [-]

    Returns
    -------
    int or None
        Two digits at most are meant; None below one in a thousand.

    Examples
    --------
    >>> about_one_in(0.048), about_one_in(0.0031), about_one_in(0.0004)
    (21, 320, None)
    """
    if share < LEAST_SHARE:
        return None
    exact = 1.0 / share
    step = (1, 1, 1, 10)[min(len(str(int(exact))), 3)]
    return max(1, round(exact / step) * step)


def _pour(decision: Decision, weighed: Weighed, number: int) -> PourChance:
    over, cliff = weighed.over_limit(number), weighed.cliff(number)
    sanded = number in decision.choice.trial.tops_sanded
    one_in = about_one_in(over)
    return PourChance(
        number=number + 1,
        over_limit=over,
        one_in=one_in,
        peak_kept_degC=weighed.kept(number, decision.request.probability) - ZERO_CELSIUS,
        misses_bond=0.0 if sanded else weighed.missed(number),
        cliff=cliff,
        text=_sentence(one_in, cliff=cliff),
    )


def _sentence(one_in: int | None, *, cliff: bool) -> str:
    if one_in is None:
        said = "fewer than 1 in 1000 such pours go over the limit"
    else:
        said = f"about 1 in {one_in} such pours goes over the limit"
    if cliff:
        said += "; this is a cliff: a few per cent more speed, depth or warmth, and it runs far hotter"
    return said


def _rankings(decision: Decision, weighed: Weighed, doubt: CastingDoubt) -> Iterator[Ranking]:
    near = [number for number, answer in enumerate(weighed.peaks) if answer is not None]
    if near:
        number = max(near, key=weighed.over_limit)
        answer = weighed.peaks[number]
        assert answer is not None
        likely, band = (
            decision.final.pours[number].peak,
            weighed.band(weighed.ensemble.peaks(number), 0.1, 0.9),
        )
        moved = weighed.finer[number]
        low, high = (likely, likely) if band is None else (band[0] + moved, band[1] + moved)
        shown = tuple(value - ZERO_CELSIUS for value in (likely, low, high))
        words = f"hottest place of pour {number + 1}"
        error = answer.error * (likely - answer.base)
        yield _ranking(f"peak_of_{number + 1}", words, "degC", shown, error, answer, decision, doubt)
    if weighed.ready is not None:
        last = decision.final.pours[-1]
        likely = decision.final.ready - last.start
        low, high = ready_after(decision, 0.1, 0.9) or (likely, likely)
        shown = tuple(value / HOUR for value in (likely, low, high))
        error = weighed.ready.error * shown[0]
        yield _ranking("demold", "time until it is hard", "h", shown, error, weighed.ready, decision, doubt)


def _ranking(
    key: str,
    words: str,
    unit: str,
    shown: tuple[float, ...],
    error: float,
    answer: Answer,
    decision: Decision,
    doubt: CastingDoubt,
) -> Ranking:
    # the logarithm of rise or time: its spread is not ruled by a few run-aways
    learned: Callable[[Array], Array] = answer.emulator.predict
    indices = sensitivity(learned, doubt.groups, doubt.size, seed=decision.request.seed, count=256, repeats=4)
    shares = [
        Share(
            name=group.name,
            words=group.words,
            first=float(np.clip(first, 0.0, 1.0)),
            total=float(np.clip(total, 0.0, 1.0)),
        )
        for group, first, total in zip(doubt.named, indices.first, indices.total, strict=True)
    ]
    value, low, high = shown
    return Ranking(
        answer=key,
        words=words,
        unit=unit,
        value=value,
        value_p10=low,
        value_p90=high,
        held_out_error=error,
        shares=sorted(shares, key=lambda one: -one.total),
    )


def _compared(setup: Setup, decision: Decision, weighed: Weighed) -> list[Compared]:
    """Each number of pours once: those that fail, the chosen one, those that other chances take."""
    rows = {failure.count: _failed(failure, setup) for failure in decision.choice.failed}
    for look in decision.looked:
        if look.changed is None and isinstance(look.found, Choice) and look.over_limit is not None:
            row = _other(look, look.found, look.over_limit)
            held = rows.get(row.pours)
            # of two plans with as many pours the one that keeps the limits more surely
            if held is None or held.over_limit is None or (held.over_limit > look.over_limit):
                rows[row.pours] = row
    trial = decision.choice.trial
    chosen = len(trial.levels)
    rows[chosen] = Compared(
        pours=chosen,
        chosen=True,
        levels_m=list(trial.levels),
        days=_days(trial),
        over_limit=weighed.any_over,
        text=f"this plan{_sanding(decision.choice)}",
    )
    return [rows[count] for count in sorted(rows)]


def _days(trial: Trial) -> float | None:
    """From the first pour until it is likely hard and somebody is there."""
    return None if trial.ready is None else (trial.ready - trial.starts[0]) / DAY


def _failed(failure: Failure, setup: Setup) -> Compared:
    return Compared(
        pours=failure.count,
        days=None,
        over_limit=None,
        constraint=failure.constraint,
        amount=failure.amount,
        unit=UNITS.get(failure.constraint),
        text=failure_words(failure, setup),
    )


def _other(look: Looked, found: Choice, over: float) -> Compared:
    trial = found.trial
    return Compared(
        pours=len(trial.levels),
        levels_m=list(trial.levels),
        days=_days(trial),
        over_limit=over,
        text=f"planned to keep the limits in {format_share(look.request.probability)} of castings"
        f"{_sanding(found)}",
    )


def _sanding(found: Choice) -> str:
    count = found.trial.sanded
    if not count:
        return ""
    return f", {count} {'top' if count == 1 else 'tops'} washed and sanded in between"


def _what_if(change: Change, look: Looked, setup: Setup, decision: Decision) -> WhatIf:
    words, found = change.words, look.found
    # a short search may miss what the long one has found
    if change.no_worse and (isinstance(found, Failure) or _cost(decision.choice) < _cost(found)):
        found = decision.choice
    if isinstance(found, Failure):
        text = f"{words}: no plan keeps the limits: {failure_words(found, setup)}"
        return WhatIf(change=words, pours=None, days=None, text=text)
    trial, now = found.trial, len(decision.choice.trial.levels)
    count = len(trial.levels)
    days = _days(trial)
    pours = "the same number of pours" if count == now else f"{_pours(count)} instead of {now}"
    when = ", and it never gets hard there"
    if days is not None:
        when = f", likely hard {format_duration(days * DAY)} after the first"
    text = f"{words}: {pours}{when}{_sanding(found)}"
    return WhatIf(change=words, pours=count, days=days, text=text)


def _cost(found: Choice) -> tuple[int, float]:
    return found.cost, np.inf if found.trial.ready is None else found.trial.ready


def _pours(count: int) -> str:
    return "1 pour" if count == 1 else f"{count} pours"


def with_bands(pours: Sequence[plan.Pour], decision: Decision) -> list[plan.Pour]:
    """Add the bands of peak, gel and bond to the pours.

    Parameters
    ----------
    pours : sequence of plan.Pour
        Of the likely casting.
    decision : Decision
        With its chances.

    Returns
    -------
    list of plan.Pour
        Unchanged where nothing was weighed.
    """
    weighed = decision.chances
    if weighed is None:
        return list(pours)
    return [pour.model_copy(update=_bands(weighed, number, decision)) for number, pour in enumerate(pours)]


def _bands(weighed: Weighed, number: int, decision: Decision) -> dict[str, float]:
    """Bands over the runs, moved from the coarse grid to where the final run is."""
    ensemble, likely, seen = weighed.ensemble, weighed.likely.pours[number], decision.final.pours[number]
    found: dict[str, float] = {}
    band = weighed.band(ensemble.peaks(number), 0.1, 0.9)
    if band is not None:
        low, high = (value + seen.peak - likely.peak - ZERO_CELSIUS for value in band)
        found |= {"peak_temperature_degC_p10": low, "peak_temperature_degC_p90": high}
    finals = {"gel": seen.gel_last, "bonds_from": seen.bonds_from, "bonds_until": seen.bonds_until}
    names = {"gel": "gel_after_h", "bonds_from": "bonds_from_h", "bonds_until": "bonds_until_h"}
    for name, final in finals.items():
        band = weighed.band(ensemble.times(number, name), 0.1, 0.9)
        here = getattr(likely, name)
        if band is not None and np.isfinite(final) and np.isfinite(here):
            low, high = (value * (final - seen.start) / here / HOUR for value in band)
            found |= {f"{names[name]}_p10": low, f"{names[name]}_p90": high}
    return found
