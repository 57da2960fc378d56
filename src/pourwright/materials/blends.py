"""Grades of glass mixed with one another, as one more grade."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import reduce

from pourwright.foundation.notation import format_share
from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.records import Glass, Grade
from pourwright.physics.mixed_packing import mixed_solid_fraction
from pourwright.physics.permeability import mean_grain

Blend = tuple[tuple[str, float], ...]
"""Grades with their shares of the mass; of one glass, so also of the volume of its grains."""
SOURCE = "de-larrard-1999"


def blend_name(blend: Blend) -> str:
    """Name a mixture, coarse or fine as it was written.

    Parameters
    ----------
    blend : Blend
        Grades and shares.

    Returns
    -------
    str

    Examples
    --------
    >>> blend_name((("coarse", 0.6), ("medium", 0.4)))
    '60 % coarse + 40 % medium'
    """
    return " + ".join(f"{format_share(share)} {grade}" for grade, share in blend)


def with_blends(glass: Glass, blends: Iterable[Blend]) -> Glass:
    """Add mixtures to a glass as grades of its own.

    Parameters
    ----------
    glass : Glass
        The record.
    blends : iterable of Blend
        Of grades that it has.

    Returns
    -------
    Glass
        The same substance with more grades.

    Raises
    ------
    UserError
        For a grade that it does not have.
    """
    return reduce(_with_blend, dict.fromkeys(blends), glass)


def _with_blend(glass: Glass, blend: Blend) -> Glass:
    parts = sorted(((glass.grade(name), share) for name, share in blend), key=lambda part: -_grain(part[0]))
    grades = [grade for grade, _ in parts]
    made = Grade(
        id=blend_name(blend),
        name=blend_name(blend),
        sieve_from=min((grade.sieve_from for grade in grades), key=lambda sieve: sieve.value),
        sieve_to=max((grade.sieve_to for grade in grades), key=lambda sieve: sieve.value),
        void_fraction=blended_voids(grades, [share for _, share in parts]),
        crush_yield=min((grade.crush_yield for grade in grades), key=lambda share: share.value),
    )
    return replace(glass, grades=(*glass.grades, made))


def blended_voids(grades: Sequence[Grade], shares: Sequence[float]) -> Sourced:
    """Void fraction of a mixture.

    Parameters
    ----------
    grades : sequence of Grade
        Coarsest first.
    shares : sequence of float
        Of the grains' volume.

    Returns
    -------
    Sourced
        Value: well mixed. Low: from the closest beds of each. High: not mixed at all, side by side.
    """
    value = _voids(grades, shares, [grade.void_fraction.value for grade in grades])
    low = _voids(grades, shares, [_low(grade) for grade in grades])
    apart = 1.0 - 1.0 / sum(share / (1.0 - _high(grade)) for grade, share in zip(grades, shares, strict=True))
    told = "well mixed, not shaken afterwards; a bucket test of the mixture is better"
    return Sourced(value, "", low, max(apart, value), Kind.MEMORY, SOURCE, told)


def _voids(grades: Sequence[Grade], shares: Sequence[float], voids: Sequence[float]) -> float:
    sizes = [_grain(grade) for grade in grades]
    return 1.0 - mixed_solid_fraction(sizes, shares, [1.0 - void for void in voids])


def _grain(grade: Grade) -> float:
    return mean_grain(grade.sieve_from.value, grade.sieve_to.value)


def _low(grade: Grade) -> float:
    return grade.void_fraction.value if grade.void_fraction.low is None else grade.void_fraction.low


def _high(grade: Grade) -> float:
    return grade.void_fraction.value if grade.void_fraction.high is None else grade.void_fraction.high
