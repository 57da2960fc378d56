"""Bottles to collect of one colour, and what they leave over."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.fill.bottles.sieving import CrushYields
from pourwright.fill.glass import bottles_for
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_share


@dataclass(frozen=True)
class GradeNeed:
    """One grade of one colour.

    Parameters
    ----------
    grade : str
        Its id.
    wanted : float
        In the piece [kg]; 0 where it only comes along.
    share : float
        Of a crushed bottle [-].
    bottles : int
        That this grade alone would take.
    made : float
        What the bottles of the colour give of it [kg].
    """

    grade: str
    wanted: float
    share: float
    bottles: int
    made: float

    @property
    def left(self) -> float:
        """For another piece [kg]."""
        return max(self.made - self.wanted, 0.0)


@dataclass(frozen=True)
class Collected:
    """The bottles of one colour, crushed at once for all its grades.

    Parameters
    ----------
    colour : str
        Of the bottles.
    bottles : int
        Whole ones.
    crushed : float
        Their mass [kg].
    needs : tuple of GradeNeed
        From the coarsest down, those that only come along too.
    over, rest : float
        Too coarse, to be crushed again; fines and dust [kg].
    again : int
        Bottles that do where all that is left coarser than wanted is crushed again, as if it broke
        like bottles do.
    """

    colour: str
    bottles: int
    crushed: float
    needs: tuple[GradeNeed, ...]
    over: float
    rest: float
    again: int = 0

    @property
    def wanted(self) -> float:
        """In the piece [kg]."""
        return sum(need.wanted for need in self.needs)


def collected(colour: str, wanted: Mapping[str, float], yields: CrushYields, bottle: float) -> Collected:
    """Count the bottles of one colour: one crushing gives every grade, so the scarcest counts.

    Parameters
    ----------
    colour : str
        Of the bottles.
    wanted : mapping
        Mass by grade [kg].
    yields : CrushYields
        Of every grade.
    bottle : float
        Mass of one bottle [kg].

    Returns
    -------
    Collected
        ``needs``, ``over`` and ``rest`` together weigh what was crushed.

    Examples
    --------
    >>> yields = CrushYields({"coarse": 0.5, "fine": 0.25}, {"coarse": "usual", "fine": "usual"})
    >>> found = collected("green", {"coarse": 5.0}, yields, 0.5)
    >>> found.bottles, [round(need.left, 3) for need in found.needs], found.rest
    (20, [0.0, 2.5], 2.5)
    """
    each = {grade: bottles_for(mass, bottle, yields.shares[grade]) for grade, mass in wanted.items()}
    count = max(each.values(), default=0)
    crushed = count * bottle
    needs = tuple(
        GradeNeed(grade, wanted.get(grade, 0.0), share, each.get(grade, 0), crushed * share)
        for grade, share in yields.shares.items()
    )
    again = min(_again(wanted, yields, bottle), count)
    return Collected(colour, count, crushed, needs, crushed * yields.over, crushed * yields.rest, again)


def _again(wanted: Mapping[str, float], yields: CrushYields, bottle: float) -> int:
    """Bottles where what is left coarser than the finest wanted grade goes through the crusher again."""
    names = [grade for grade in yields.shares if wanted.get(grade, 0.0) > 0.0]
    if not names:
        return 0
    through = max(wanted[grade] / yields.shares[grade] for grade in names)
    order = list(yields.shares)
    coarser = order[: order.index(names[-1])]
    back = yields.over + sum(yields.shares[grade] for grade in coarser)
    mass = through * (1.0 - back) + sum(wanted.get(grade, 0.0) for grade in coarser)
    return bottles_for(mass, bottle, 1.0)


def refuse_hardly_any(grade: str, yields: CrushYields, where: str) -> None:
    """Refuse a grade that crushing gives next to nothing of.

    Parameters
    ----------
    grade : str
        That is wanted.
    yields : CrushYields
        Of every grade.
    where : str
        File and line of what says so.

    Raises
    ------
    UserError
        With its yield.
    """
    share, least = yields.shares[grade], BOTTLES["least_yield"].value
    if share < least:
        raise UserError(
            f"crushing gives {format_share(share, digits=1)} of {grade} glass",
            where=where,
            allowed=f"{format_share(least, digits=1)} or more of a grade that a band wants",
            todo="crush it another way, choose another grade, or name its colour in bottles.bought",
        )
