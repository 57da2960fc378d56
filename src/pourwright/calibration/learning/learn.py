"""Learn one number from a shop's records, and keep the family's where that predicts no worse."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.calibration.learning.conjugate import Beta, Normal, beta_of_band, counted
from pourwright.calibration.learning.quantities import LEAST, LEAST_COUNTED, QUANTITIES, Quantity
from pourwright.calibration.learning.record import BAND, Family, Learned, Record, Suspect
from pourwright.calibration.learning.robust import Weighing, weigh
from pourwright.calibration.learning.scales import Scale

CLIP = 3.0
"""Errors count up to so many of a record's deviations from its family: a bad one says nothing of either."""
LIKELY_BAD = 0.5
"""Chance from which on a record is named as one that looks wrong [-]."""


def learn(records: Sequence[Record], family: Family) -> Learned:
    """Learn one number of one subject.

    The records may be in any order; those that were set aside count nothing. ``family`` is where it begins.
    """
    quantity, subject = _about(records)
    used = [record for record in records if not record.aside]
    if quantity.scale == "count":
        return _counted(quantity, subject, used, family)
    return _measured(quantity, subject, used, family)


def _about(records: Sequence[Record]) -> tuple[Quantity, str]:
    about = {(record.quantity, record.subject) for record in records}
    if len(about) != 1:
        message = f"records of one quantity and one subject are needed, not {sorted(about)}"
        raise ValueError(message)
    name, subject = about.pop()
    return QUANTITIES[name], subject


@dataclass(frozen=True)
class _Scaled:
    """Records and family on the quantity's own scale."""

    prior: Normal
    values: list[float]
    doubts: list[float]
    usual: float

    def weighed(self) -> Weighing:
        """On one grid."""
        return weigh(self.prior, self.values, self.doubts, self.usual)


def _scaled(quantity: Quantity, used: Sequence[Record], family: Family) -> _Scaled:
    scale, scatter = quantity.on, quantity.scatter
    assert scatter is not None
    return _Scaled(
        _prior(scale, family),
        [scale.there(record.value) for record in used],
        [scale.stretch(record.value) * record.doubt for record in used],
        scatter.value,
    )


def _prior(scale: Scale, family: Family) -> Normal:
    return Normal(scale.there(family.value), (scale.there(family.high) - scale.there(family.low)) / BAND)


def _measured(quantity: Quantity, subject: str, used: Sequence[Record], family: Family) -> Learned:
    told, back = _scaled(quantity, used, family), quantity.on.back
    weighing = told.weighed()
    found = weighing.settled()
    error, family_error = _held_out(told, weighing)
    why = _why(len(used), error, family_error)
    value, low, high = (back(found.quantile(share)) for share in (0.5, 0.1, 0.9))
    if why:
        value, low, high = family.value, family.low, family.high
    return Learned(
        quantity=quantity.name, subject=subject, family=family, value=value, low=low, high=high,
        records=len(used), kept_family=bool(why), why=why, error=error, family_error=family_error,
        scatter=found.scatter,
        suspects=tuple(
            Suspect(record.id, record.value, chance)
            for record, chance in zip(used, found.bad, strict=True)
            if chance > LIKELY_BAD
        ),
    )  # fmt: skip


def _why(count: int, error: float | None, family_error: float | None) -> str:
    if error is None or family_error is None or count < LEAST:
        return "few"
    return "" if error < family_error else "no better"


def _held_out(told: _Scaled, weighing: Weighing) -> tuple[float | None, float | None]:
    """Mean error of each record by all others, and by the family, on the quantity's scale."""
    if len(told.values) < LEAST:
        return None, None
    by_others, by_family = [], []
    for number, value in enumerate(told.values):
        by_others.append(abs(value - weighing.settled(without=number).quantile(0.5)))
        by_family.append(abs(value - told.prior.mean))
    clip = CLIP * float(np.hypot(told.usual, told.prior.deviation))
    return float(np.minimum(by_others, clip).mean()), float(np.minimum(by_family, clip).mean())


def _counted(quantity: Quantity, subject: str, used: Sequence[Record], family: Family) -> Learned:
    failed, trials = sum(record.value for record in used), sum(record.trials for record in used)
    prior = beta_of_band(family.value, family.low, family.high)
    found = counted(prior, failed, trials)
    error, family_error = _held_out_counts(used, prior)
    why = "few" if trials < LEAST_COUNTED else _why(len(used), error, family_error)
    value, low, high = found.mean, found.quantile(0.1), found.quantile(0.9)
    if why:
        value, low, high = family.value, family.low, family.high
    return Learned(
        quantity=quantity.name, subject=subject, family=family, value=value, low=low, high=high,
        records=len(used), kept_family=bool(why), why=why, error=error, family_error=family_error,
        scatter=0.0,
    )  # fmt: skip


def _held_out_counts(used: Sequence[Record], prior: Beta) -> tuple[float | None, float | None]:
    """Mean surprise of a piece that was held out: minus the logarithm of its chance."""
    if len(used) < LEAST:
        return None, None
    failed, trials = sum(record.value for record in used), sum(record.trials for record in used)
    by_others, by_family = [], []
    for record in used:
        rest = counted(prior, failed - record.value, trials - record.trials)
        by_others.append(_surprise(record, rest.mean))
        by_family.append(_surprise(record, prior.mean))
    return sum(by_others) / trials, sum(by_family) / trials


def _surprise(record: Record, rate: float) -> float:
    return float(-record.value * np.log(rate) - (record.trials - record.value) * np.log1p(-rate))
