"""Members of a resin: what it may also be, given how far its fit or its family leaves it open."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.parameters import (
    FILM,
    NAMES,
    PLACE,
    Prior,
    Resin,
    find_prior,
    load_priors,
    resin_of,
)
from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Sourced
from pourwright.materials import CureLaw, Doubts, Resin as Record, load_materials
from pourwright.solver.draws import factor

Array = NDArray[np.float64]
LATEST_GEL = 0.95
LEAST_ENERGY = 1e3
LEAST_TRANSITION = 5.0
"""Kelvin by which the glass transition rises at least from mixed to fully cured."""


class Member(NamedTuple):
    """One of the resins that a resin may be.

    Parameters
    ----------
    resin : record
        With its numbers moved.
    film : float
        Factor on the film coefficients [-].
    """

    resin: Record
    film: float


def doubts_of(resin: Record) -> Doubts:
    """Say how sure the numbers of a resin are.

    Parameters
    ----------
    resin : record
        Generic or the shop's own.

    Returns
    -------
    Doubts
        All numbers in the order of `PARAMETERS`: what the record's own fit tells of, and of its
        family for the others, the film among them. For a record of no known family every number
        is as open as in the family that knows it least.

    Raises
    ------
    UserError
        Where the record's own doubts name a number or a family that does not exist.
    """
    own = resin.doubts
    prior = _prior_of(resin) if own is None else find_prior(own.family, f"{resin.id} doubts")
    mean, covariance = prior.mean.copy(), np.diag(prior.deviation**2)
    if own is not None:
        kept = [name for name in own.names if name != FILM]
        _refuse_unknown(kept, resin.id)
        places, told = [PLACE[name] for name in kept], [own.names.index(name) for name in kept]
        mean[places] = np.array(own.mean)[told]
        covariance[np.ix_(places, places)] = np.array(own.covariance)[np.ix_(told, told)]
    rows = tuple(tuple(row) for row in covariance.tolist())
    return Doubts(family=prior.family, names=NAMES, mean=tuple(mean.tolist()), covariance=rows)


def origin_of(resin: Record) -> str:
    """Say where the doubts of a resin come from.

    Parameters
    ----------
    resin : record
        Generic or the shop's own.

    Returns
    -------
    str
        "fit" of the resin's own, "family" of its hardener, or "widest" where its family is not known.
    """
    if resin.doubts is not None:
        return "fit"
    return "family" if _family_of(resin) else "widest"


def member(resin: Record, deviates: Array, doubts: Doubts | None = None) -> Member:
    """Move the numbers of a resin away from its record, as far as they are in doubt.

    Parameters
    ----------
    resin : record
        As planned with.
    deviates : array (15,)
        Independent, each of mean 0 and deviation 1, in the order of `PARAMETERS`; where the doubts
        hang together, a later one adds what the earlier ones do not tell.
    doubts : Doubts, optional
        Of `doubts_of`, where it is at hand.

    Returns
    -------
    Member
        Each number moved by the ratio, or the difference, by which the middle of the doubts moves:
        with all deviates 0 it is the record itself, also where the family's middle lies elsewhere.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> resin = load_materials().resin["epoxy-medium"]
    >>> quicker, film = member(resin, np.eye(15)[0])
    >>> round(quicker.cure.frequency_2.value / resin.cure.frequency_2.value, 3), film
    (1.85, 1.0)
    """
    doubts = doubts or doubts_of(resin)
    middle = np.array(doubts.mean)
    before = resin_of(middle, resin.density.value)
    after = resin_of(middle + _root(doubts) @ deviates, resin.density.value)
    moved = replace(
        resin,
        cure=_moved_cure(resin.cure, before, after),
        heat_of_reaction=_times(resin.heat_of_reaction, after.heat_of_reaction / before.heat_of_reaction),
        heat_capacity=_times(resin.heat_capacity, after.heat_capacity / before.heat_capacity),
        conductivity=_times(resin.conductivity, after.conductivity / before.conductivity),
    )
    return Member(moved, after.film)


@lru_cache(maxsize=16)
def _root(doubts: Doubts) -> Array:
    return factor(np.array(doubts.covariance))


def _moved_cure(cure: CureLaw, before: Resin, after: Resin) -> CureLaw:
    old, new = before.law, after.law
    ratios = {
        name: getattr(new, name) / getattr(old, name)
        for name in ("frequency_1", "frequency_2", "order_m", "order_n", "glass_transition_lambda")
    }
    shifts = {
        name: getattr(new, name) - getattr(old, name)
        for name in (
            "activation_energy_1",
            "activation_energy_2",
            "diffusion_offset",
            "glass_transition_start",
            "glass_transition_full",
        )
    }
    moved = {name: _times(getattr(cure, name), ratio) for name, ratio in ratios.items()}
    moved |= {name: _set(getattr(cure, name), getattr(cure, name).value + by) for name, by in shifts.items()}
    moved["gel_conversion"] = _times(cure.gel_conversion, after.gel / before.gel)
    return replace(cure, **_within_sense(moved))


def _within_sense(moved: dict[str, Sourced]) -> dict[str, Sourced]:
    """Keep what no resin can be out of the tails."""
    most = {"glass_transition_lambda": 1.0, "gel_conversion": LATEST_GEL}
    least = {
        "activation_energy_1": LEAST_ENERGY,
        "activation_energy_2": LEAST_ENERGY,
        "glass_transition_full": moved["glass_transition_start"].value + LEAST_TRANSITION,
    }
    for name, limit in most.items():
        moved[name] = _set(moved[name], min(moved[name].value, limit))
    for name, limit in least.items():
        moved[name] = _set(moved[name], max(moved[name].value, limit))
    return moved


def _times(number: Sourced, ratio: float) -> Sourced:
    return _set(number, number.value * ratio)


def _set(number: Sourced, value: float) -> Sourced:
    # the band belongs to the record; a member is one value out of it
    return number if value == number.value else replace(number, value=value, low=None, high=None)


def _family_of(resin: Record) -> str | None:
    """Id of the generic resin whose family a record belongs to."""
    priors = load_priors()
    if resin.id in priors:
        return resin.id
    families = {each.family.lower(): name for name, each in load_materials().resin.items() if name in priors}
    return families.get(resin.family.lower())


def _prior_of(resin: Record) -> Prior:
    family = _family_of(resin)
    if family is not None:
        return find_prior(family)
    priors = list(load_priors().values())
    return replace(priors[0], deviation=np.max([prior.deviation for prior in priors], axis=0))


def _refuse_unknown(names: list[str], record: str) -> None:
    for name in names:
        if name not in PLACE:
            raise UserError(
                f"no fitted number is called '{name}'", where=f"{record} doubts",
                allowed=", ".join(NAMES), todo="copy the whole table from the fit's own resin.toml",
            )  # fmt: skip
