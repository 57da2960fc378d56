"""A measured pour against its plan, in words, with what to do."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.measuring.compared import LEAST_WARMING, Compared
from pourwright.app.measuring.places import AIR
from pourwright.app.measuring.predicted import Predicted
from pourwright.jobs.plan import Pour
from pourwright.sheets.wording import Wording

ALIKE_K, ALIKE_SHARE = 2.0, 0.1
"""What a cheap sensor and a watch cannot tell apart: kelvins, and a share of the planned time."""
AIR_ALIKE_K = 1.0


def measured_words(found: Compared, plan: Predicted, pour: Pour, words: Wording) -> list[str]:
    """Say what was measured against what was planned.

    Parameters
    ----------
    found : Compared
        Of one sensor.
    plan : Predicted
        Of its place.
    pour : Pour
        Of the plan.
    words : Wording
        The maker's units.

    Returns
    -------
    list of str
        The answer first, then band, limit and agreement; what to do last.
    """
    if plan.place.told == AIR:
        return list(_air(found, words))
    lines = [_peak(found, words), *_band(found, plan, words), *_limit(found, pour, words)]
    return [*lines, *_agreement(found, words), *_what_to_do(found, pour, words)]


def _span(words: Wording, hours: float) -> str:
    """A time to the quarter of an hour: nobody's peak is sharper."""
    return words.duration(round(4.0 * hours) / 4.0)


def _air(found: Compared, words: Wording) -> Iterator[str]:
    if found.mean_K is None:
        yield "Too little of it was measured to compare the shop's air."
        return
    apart = words.difference(abs(found.mean_K))
    if abs(found.mean_K) < AIR_ALIKE_K:
        yield f"The shop was as warm as planned, within {apart}."
        return
    side = "warmer" if found.mean_K > 0 else "cooler"
    yield f"The shop was {apart} {side} than planned while this pour cured."
    how = "faster and hotter" if found.mean_K > 0 else "slower"
    yield f"Resin cures {how} in it: write the real temperatures into the job and plan what is left again."


def _is_alike(found: Compared) -> bool:
    late = abs(found.later) <= max(ALIKE_SHARE * found.planned_after_h, 0.25)
    return abs(found.warmer) < ALIKE_K and late


def _peak(found: Compared, words: Wording) -> str:
    peak, planned = words.temperature(found.peak_degC), words.temperature(found.planned_degC)
    after, then = _span(words, found.peak_after_h), _span(words, found.planned_after_h)
    if found.rising:
        return f"Still rising at its last reading, {peak} after {after}; planned were {planned} after {then}."
    how = "as planned" if _is_alike(found) else f"{_apart(found, words)} than planned"
    return f"Peaked {how}: {peak} after {after}; planned were {planned} after {then}."


def _apart(found: Compared, words: Wording) -> str:
    told = []
    if abs(found.warmer) >= ALIKE_K:
        side = "higher" if found.warmer > 0 else "lower"
        told.append(f"{words.difference(abs(found.warmer))} {side}")
    if abs(found.later) > max(ALIKE_SHARE * found.planned_after_h, 0.25):
        side = "later" if found.later > 0 else "earlier"
        told.append(f"{_span(words, abs(found.later))} {side}")
    return " and ".join(told)


def _band(found: Compared, plan: Predicted, words: Wording) -> Iterator[str]:
    if plan.band is None or found.rising:
        return
    low, high = (words.temperature(end) for end in plan.band)
    where = {
        "inside": "That lies within what eight in ten such pours do",
        "below": "That is cooler than nine in ten such pours get",
        "above": "That is hotter than nine in ten such pours get",
    }
    if found.side is not None:
        yield f"{where[found.side]}, {low} to {high}."


def _limit(found: Compared, pour: Pour, words: Wording) -> Iterator[str]:
    limit = words.temperature(pour.peak_limit_degC)
    if found.over_from_h is None or found.over_until_h is None:
        yield f"It did not go over the limit of {limit}."
        return
    over = words.difference(found.peak_degC - pour.peak_limit_degC)
    when = f"from {_span(words, found.over_from_h)} to {_span(words, found.over_until_h)} after it went in"
    yield f"It went over the limit of {limit} by {over}, {when}: look for yellowing and cracks."


def _agreement(found: Compared, words: Wording) -> Iterator[str]:
    if found.rms_K is None:
        yield "Too little of it was measured to lay the curves on each other."
        return
    told = (
        f"Measured and planned lie {words.small_difference(found.rms_K)} apart on average (root mean square)"
    )
    if found.shift_h is None or found.rms_shifted_K is None or abs(found.shift_h) < 0.25:
        yield f"{told}."
        return
    side = "later" if found.shift_h > 0 else "earlier"
    run = f"as a whole the measured one runs {_span(words, abs(found.shift_h))} {side}"
    yield f"{told}; {run}, and with that taken off {words.small_difference(found.rms_shifted_K)} are left."


def _what_to_do(found: Compared, pour: Pour, words: Wording) -> Iterator[str]:
    if found.rising:
        yield "Leave the logger in until it is cool again: only then its peak is known."
        return
    if found.planned_degC - _begun(pour) < LEAST_WARMING:
        yield "So little warming has no peak worth the name: go by the gel and a hardness test."
        return
    if not _is_alike(found):
        yield f"{_why(found)} {_next(found, pour, words)}"
    yield "The shop learns from it: pourwright book learn."


def _begun(pour: Pour) -> float:
    return (
        pour.history.hottest_degC[0] if pour.start_temperature_degC is None else pour.start_temperature_degC
    )


def _why(found: Compared) -> str:
    hotter, cooler = found.warmer >= ALIKE_K, found.warmer <= -ALIKE_K
    if found.later > 0:
        if hotter:
            return "Later and yet hotter: more went in than planned, or the logger's clock is off."
        return "The resin or the shop was cooler than planned."
    if cooler:
        return "In time and yet cooler: heat gets out faster, or the sensor was not where it is hottest."
    return "The resin or the shop was warmer than planned, or the resin is quicker."


def _next(found: Compared, pour: Pour, words: Wording) -> str:
    """Everything that waits for cure comes later, or earlier, in the share that the peak did."""
    share = found.peak_after_h / max(found.planned_after_h, 0.1) - 1.0
    moved = share * pour.bonds_from_h
    if abs(moved) < 0.25:
        return "Cure and the next pour come about when they were planned."
    by = _span(words, abs(moved))
    side = "later" if moved > 0 else "earlier"
    what = "Cure comes" if pour.next_from is None else "Cure and the next pour come"
    todo = "test with a stick and a fingernail before you go on" if moved > 0 else "be there in time"
    return f"{what} {side} by about {by}: {todo}."
