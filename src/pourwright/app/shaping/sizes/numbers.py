"""The numbers a size ledger rests on, each with its range and where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import sqrt

from pourwright.app.shaping.sizes.defaults import DEFAULTS
from pourwright.foundation.sources import Kind, Sourced
from pourwright.jobs.job import Job
from pourwright.materials import Materials, Mineral, Resin

Numbers = Mapping[str, Sourced]
Values = Mapping[str, float]


def numbers_of(job: Job, materials: Materials) -> Numbers:
    """Collect the numbers of a job.

    Parameters
    ----------
    job : Job
        With its materials.
    materials : Materials
        The families and the shop's own records.

    Returns
    -------
    mapping
        By name; a casting material mixed with water, or a shrinkage measured by the shop, takes the place
        of what a resin is reckoned from.

    Raises
    ------
    UserError
        For a material that is not known, with its line.
    """
    rubber = materials.find("rubber", job.mold.rubber, job.where("mold.rubber"))
    own, casting = job.sizes.rubber_shrinkage, job.sizes.casting_shrinkage
    shrinks = rubber.linear_shrinkage if own is None else _measured(own, "caliper", "")
    found = {"rubber_shrinkage": shrinks, "rubber_expansion": rubber.expansion}
    found |= {name: DEFAULTS[name] for name in ("warm_share", "held", "rim_rises")}
    cast = materials.casting(job.casting.material, job.where("casting.material"))
    found["gels_at"] = gels_at(job, cast if isinstance(cast, Resin) else None)
    if casting is not None:
        return found | {"casting_shrinkage": _measured(casting, "caliper", "")}
    if isinstance(cast, Mineral):
        return found | {"casting_shrinkage": cast.setting_shrinkage}
    return found | {
        "cure_shrinkage": cast.cure_shrinkage,
        "gel_conversion": cast.cure.gel_conversion,
        "cure_reached": DEFAULTS["cure_reached"],
        "expansion_glass": cast.solid.expansion_glass,
        "touching": DEFAULTS["touching"],
    }


def shop_temperature(job: Job) -> float:
    """Mean temperature of the shop [K]."""
    shop = job.shop
    given = [each.si for each in (shop.temperature, shop.day_temperature, shop.night_temperature) if each]
    return sum(given) / len(given)


def _measured(value: float, error: str, unit: str) -> Sourced:
    off = DEFAULTS[error].value
    return Sourced(value, unit, value - off, value + off, Kind.MEASURED, "common-practice", "by the shop")


def gels_at(job: Job, resin: Resin | None) -> Sourced:
    """Temperature of the casting material as it gels or sets.

    Parameters
    ----------
    job : Job
        With its shop, and what the maker measured.
    resin : Resin or None
        None for a material mixed with water.

    Returns
    -------
    Sourced
        [K], with its range.
    """
    shop, given = shop_temperature(job), job.sizes.gels_at
    if given is not None:
        return _measured(given.si, "thermometer", "K")
    if resin is None:
        rise = DEFAULTS["mineral_warmth"]
        edges = [shop + float(each or 0.0) for each in (rise.value, rise.low, rise.high)]
    else:
        limit = resin.peak_limit.value if job.limits.resin_peak is None else job.limits.resin_peak.si
        share = DEFAULTS["gel_warmth"]
        edges = [
            shop + float(each or 0.0) * max(limit - shop, 0.0)
            for each in (share.value, share.low, share.high)
        ]
    text = (DEFAULTS["mineral_warmth"] if resin is None else DEFAULTS["gel_warmth"]).conditions
    return Sourced(edges[0], "K", edges[1], edges[2], Kind.PRACTICE, "common-practice", text)


def likely(numbers: Numbers) -> dict[str, float]:
    """Take the likely value of each number."""
    return {name: number.value for name, number in numbers.items()}


def ends(number: Sourced) -> tuple[float, float]:
    """Give both ends of a number's range; its value where it has none."""
    low = number.value if number.low is None else number.low
    return low, number.value if number.high is None else number.high


def spread(numbers: Numbers, answer: Callable[[Values], float]) -> tuple[float, float, float]:
    """Give an answer with its band.

    Parameters
    ----------
    numbers : mapping
        With their ranges.
    answer : callable
        From values by name.

    Returns
    -------
    tuple of float
        Likely, low and high: each number goes to both ends of its range, one at a time; effects add by
        squares, those that lower the answer and those that raise it apart.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from pourwright.foundation.sources import Kind, Sourced
    >>> three = Sourced(1.0, "", 0.7, 1.3, Kind.PRACTICE, "common-practice")
    >>> four = replace(three, low=0.6, high=1.4)
    >>> [round(each, 3) for each in spread({"a": three, "b": four}, lambda at: at["a"] + at["b"])]
    [2.0, 1.5, 2.5]
    """
    values = likely(numbers)
    middle = answer(values)
    below = above = 0.0
    for name, number in numbers.items():
        moves = [answer({**values, name: end}) - middle for end in ends(number)]
        below += min(*moves, 0.0) ** 2
        above += max(*moves, 0.0) ** 2
    return middle, middle - sqrt(below), middle + sqrt(above)
