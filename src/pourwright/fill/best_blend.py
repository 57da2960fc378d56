"""The mixture of grades that leaves least room for resin."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from scipy.optimize import linprog

from pourwright.foundation.errors import UserError
from pourwright.materials.blends import Blend
from pourwright.materials.records import Glass, Grade
from pourwright.physics.arrays import Array
from pourwright.physics.mixed_packing import room_taken
from pourwright.physics.permeability import mean_grain

STEPS = (0.05, 0.01, 0.001, 1e-6)
"""Shares are rounded to the first of these that what lies ready allows: nobody shovels finer."""
LEAST = 0.05


def best_blend(glass: Glass, names: Sequence[str], most: Mapping[str, float] | None = None) -> Blend:
    """Find the shares of grades that lie closest together.

    Parameters
    ----------
    glass : Glass
        The record.
    names : sequence of str
        Grades to mix.
    most : mapping of str to float, optional
        Greatest share of each, where no more of it lies ready [-].

    Returns
    -------
    Blend
        Coarsest first, rounded to a twentieth; one grade alone where no mixture is closer.

    Raises
    ------
    UserError
        For an unknown grade, or where what lies ready is too little for the whole.

    Notes
    -----
    The bed takes what the worst of its carrying sizes needs, each a sum over the shares (`room_taken`): the
    least of those is a linear program.

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> best_blend(load_materials().glass["soda-lime-crushed"], ["fine", "coarse"])
    (('coarse', 0.65), ('fine', 0.35))
    """
    grades = sorted({name: glass.grade(name) for name in names}.values(), key=_grain, reverse=True)
    bounds = [(0.0, min((most or {}).get(grade.id, 1.0), 1.0)) for grade in grades]
    if sum(high for _, high in bounds) < 1.0 - 1e-9:
        raise UserError("what lies ready is too little", todo="buy or crush more, or mix fewer bands")
    solids = [1.0 - grade.void_fraction.value for grade in grades]
    taken = room_taken([_grain(grade) for grade in grades], solids)
    count = len(grades)
    found = linprog(
        np.append(np.zeros(count), 1.0),
        A_ub=np.hstack([taken, -np.ones((count, 1))]),
        b_ub=np.zeros(count),
        A_eq=np.append(np.ones(count), 0.0)[None, :],
        b_eq=[1.0],
        bounds=[*bounds, (0.0, None)],
    )
    shares = np.asarray(found.x, dtype=float)[:count]
    return _rounded([grade.id for grade in grades], shares, np.array([high for _, high in bounds]))


def _rounded(names: Sequence[str], shares: Array, most: Array) -> Blend:
    """Shares in whole steps that sum to 1, none above what lies ready; what is hardly there is left out."""
    little = np.where(shares < LEAST, 0.0, shares)
    kept = little if most[little > 0.0].sum() >= 1.0 else shares
    step = next(each for each in STEPS if np.floor(most[kept > 0.0] / each + 1e-9).sum() >= 1.0 / each - 0.5)
    wanted, room = kept / kept.sum() / step, np.floor(most / step + 1e-9)
    steps = np.minimum(np.floor(wanted + 1e-9), room)
    while steps.sum() < round(1.0 / step):
        short = np.where((steps < room) & (kept > 0.0), wanted - steps, -np.inf)
        steps[int(np.argmax(short))] += 1
    made = zip(names, steps, strict=True)
    return tuple((name, round(float(count) * step, 6)) for name, count in made if count > 0)


def _grain(grade: Grade) -> float:
    return mean_grain(grade.sieve_from.value, grade.sieve_to.value)
