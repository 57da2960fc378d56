"""A fitted resin as a record for the shop's materials folder, every number with its band and source."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.answers import answer, questions
from pourwright.calibration.fitting import Fit
from pourwright.calibration.parameters import DIFFUSION_WIDTH, FILM, NAMES, NORMAL_P90, PLACE, Resin
from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials import Resin as Record

DATA_SHEET, CUP_TEST = "data-sheet", "cup-test"
UNTOUCHED = 0.9
"""A band at least so wide, as a share of the family's, is the family's and not the fit's."""


@dataclass(frozen=True, slots=True)
class Told:
    """What a record says beside its fitted numbers.

    Parameters
    ----------
    id, name : str
        Of the record.
    base : Record
        Generic resin of the family, for whatever nobody told.
    words : str
        Which sheet and which tests; printed as conditions.
    direct : mapping
        Numbers that the sheet states as they are, SI, by field.
    """

    id: str
    name: str
    base: Record
    words: str
    direct: Mapping[str, float] = field(default_factory=dict)


_PLAIN = ("heat_of_reaction", "heat_capacity", "conductivity")
_CURE: Mapping[str, tuple[str, Callable[[Resin], float]]] = {
    "frequency_1": ("speed", lambda resin: math.log(resin.law.frequency_1)),
    "activation_energy_1": ("activation_energy", lambda resin: resin.law.activation_energy_1),
    "frequency_2": ("speed", lambda resin: math.log(resin.law.frequency_2)),
    "activation_energy_2": ("activation_energy", lambda resin: resin.law.activation_energy_2),
    "order_m": ("order_m", lambda resin: resin.law.order_m),
    "order_n": ("order_n", lambda resin: resin.law.order_n),
    "diffusion_offset": ("diffusion_offset", lambda resin: resin.law.diffusion_offset),
    "glass_transition_start": ("glass_transition_start", lambda resin: resin.law.glass_transition_start),
    "glass_transition_full": ("glass_transition_full", lambda resin: resin.law.glass_transition_full),
    "glass_transition_lambda": ("glass_transition_lambda", lambda resin: resin.law.glass_transition_lambda),
    "gel_conversion": ("gel_conversion", lambda resin: resin.gel),
}
"""Fields of the cure: the parameter that tells how far it was narrowed, and the value whose band is even."""
_LOGARITHMS = ("frequency_1", "frequency_2")


def record_text(fit: Fit, told: Told) -> str:
    """Write the record of a fitted resin.

    Parameters
    ----------
    fit : Fit
        The fit.
    told : Told
        What is known beside it.

    Returns
    -------
    str
        TOML for ``materials/resin.toml`` of the shop.
    """
    lines = [
        f"# {told.words}; fitted by pourwright. Bands are 80 %; [{told.id}.doubts] says which hang together.",
        f"[{told.id}]", f"name = {json.dumps(told.name, ensure_ascii=False)}",
        f"family = {json.dumps(told.base.family)}",
    ]  # fmt: skip
    lines += [_line(name, number) for name, number in _numbers(fit, told)]
    lines.append(f"[{told.id}.cure]")
    lines += [_line(name, number) for name, number in _cure(fit, told)]
    lines += [f"[{told.id}.doubts]", *_doubts(fit)]
    return "\n".join(lines) + "\n"


def _doubts(fit: Fit) -> Iterator[str]:
    """Most likely numbers and their covariance, so that a plan knows how sure they are."""
    # the film is that of the tested cup, and no number of the resin
    names = [name for name in NAMES if name != FILM]
    places = [PLACE[name] for name in names]
    prior = fit.question.prior
    mean = (prior.mean + prior.deviation * fit.deviates[: len(NAMES)])[places]
    inner = fit.covariance[np.ix_(places, places)]
    covariance = inner * np.outer(prior.deviation[places], prior.deviation[places])
    yield f"family = {json.dumps(prior.family)}"
    yield f"names = [{', '.join(json.dumps(name) for name in names)}]"
    yield f"mean = [{_row(mean)}]  # logarithms, where a number cannot be negative"
    yield "covariance = ["
    yield from (f"  [{_row(row)}]," for row in (covariance + covariance.T) / 2)
    yield "]"


def _row(values: NDArray[np.float64]) -> str:
    return ", ".join(repr(float(f"{value:.9g}")) for value in values)


def _numbers(fit: Fit, told: Told) -> Iterator[tuple[str, Sourced]]:
    asked = questions(fit.question.density)
    fitted = {
        "film_gel_time": (asked["film_gel"], "speed"),
        "pot_life": (asked["pot_life"], "speed"),
    }
    for item in fields(told.base):
        base = getattr(told.base, item.name)
        if not isinstance(base, Sourced):
            continue
        if item.name in told.direct:
            yield item.name, _direct(told, base, told.direct[item.name])
        elif item.name in _PLAIN:
            getter: Callable[[Resin], float] = lambda resin, name=item.name: float(getattr(resin, name))  # type: ignore[misc]  # noqa: E731
            yield item.name, _fitted(fit, told, base, item.name, getter)
        elif item.name in fitted:
            question, parameter = fitted[item.name]
            found = answer(fit, question)
            yield item.name, _sourced(fit, told, base, parameter, found.value, found.low, found.high)
        else:
            yield item.name, base


def _cure(fit: Fit, told: Told) -> Iterator[tuple[str, Sourced]]:
    for item in fields(told.base.cure):
        base: Sourced = getattr(told.base.cure, item.name)
        if item.name == "diffusion_width":
            yield item.name, Sourced(DIFFUSION_WIDTH, base.unit, base.low, base.high, base.kind, base.source)
        elif item.name in _CURE:
            parameter, getter = _CURE[item.name]
            yield item.name, _fitted(fit, told, base, parameter, getter, in_logs=item.name in _LOGARITHMS)
        else:
            yield item.name, base


def _direct(told: Told, base: Sourced, value: float) -> Sourced:
    return Sourced(value, base.unit, value, value, Kind.PUBLISHED, DATA_SHEET, told.words)


def _fitted(
    fit: Fit,
    told: Told,
    base: Sourced,
    parameter: str,
    getter: Callable[[Resin], float],
    *,
    in_logs: bool = False,
) -> Sourced:
    middle, deviation = fit.spread(getter)
    ends = (middle - NORMAL_P90 * deviation, middle, middle + NORMAL_P90 * deviation)
    low, value, high = (math.exp(end) for end in ends) if in_logs else ends
    return _sourced(fit, told, base, parameter, value, low, high)


def _sourced(
    fit: Fit, told: Told, base: Sourced, parameter: str, value: float, low: float, high: float
) -> Sourced:
    low, high = (max(low, 0.0), high) if base.unit != "K" else (low, high)
    if fit.narrowing[PLACE[parameter]] > UNTOUCHED:
        return Sourced(
            value, base.unit, low, high, base.kind, base.source, "of its family; the fit says little"
        )
    tested = fit.question.curved
    kind, source = (Kind.MEASURED, CUP_TEST) if tested else (Kind.PUBLISHED, DATA_SHEET)
    return Sourced(value, base.unit, low, high, kind, source, told.words)


def _line(name: str, number: Sourced) -> str:
    ends = "".join(
        f"{key} = {_digits(end)}, "
        for key, end in (("low", number.low), ("high", number.high))
        if end is not None
    )
    conditions = (
        f", conditions = {json.dumps(number.conditions, ensure_ascii=False)}" if number.conditions else ""
    )
    return (
        f'{name} = {{ value = {_digits(number.value)}, unit = "{number.unit}", {ends}kind = "{number.kind}", '
        f'source = "{number.source}"{conditions} }}'
    )


def _digits(value: float) -> str:
    # fewer digits would move the runs near take-off, more would pretend
    return repr(float(f"{value:.7g}"))
