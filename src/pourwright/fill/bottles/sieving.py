"""What a crushed bottle gives of each grade: from sieve weighings, or from a record."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Literal

from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import System, UnitSystem, format_mass, format_share
from pourwright.materials.records import Glass, Grade
from pourwright.physics.size_distribution import RosinRammler, fit_sizes, passing

By = Literal["weighed", "fitted", "own record", "usual"]


@dataclass(frozen=True)
class SieveTest:
    """Crushed glass weighed sieve by sieve.

    Parameters
    ----------
    openings : tuple of float
        From the widest down [m].
    stayed : tuple of float
        Share of the mass on each [-].
    off : float
        Share that was missing (above 0) or too much (below 0) between the weighings [-].
    """

    openings: tuple[float, ...]
    stayed: tuple[float, ...]
    off: float = 0.0

    @property
    def passed(self) -> tuple[float, ...]:
        """Share that passed each sieve [-]."""
        return tuple(max(1.0 - sum(self.stayed[: n + 1]), 0.0) for n in range(len(self.stayed)))


@dataclass(frozen=True)
class CrushedSizes:
    """Sizes of crushed glass: as weighed at the sieves, by a published law between them.

    Parameters
    ----------
    test : SieveTest
        What was weighed.
    law : RosinRammler
        Fitted to it; exact for two sieves.
    """

    test: SieveTest
    law: RosinRammler

    @property
    def residual(self) -> float:
        """Most that the law misses a weighed share by [-]."""
        pairs = zip(self.test.openings, self.test.passed, strict=True)
        return max(abs(passing(opening, *self.law) - share) for opening, share in pairs)

    def passing(self, opening: float) -> float:
        """Share that passes a sieve [-]; between its weighed neighbours the law decides."""
        weighed = list(zip(self.test.openings, self.test.passed, strict=True))
        least = max((share for size, share in weighed if size <= opening), default=0.0)
        most = min((share for size, share in weighed if size >= opening), default=1.0)
        return min(max(passing(opening, *self.law), least), most)

    def weighed(self, opening: float) -> bool:
        """Whether that sieve, or one within 1 % of it, was weighed."""
        return any(abs(size / opening - 1.0) < 0.01 for size in self.test.openings)


@dataclass(frozen=True)
class CrushYields:
    """Share of a crushed bottle in each grade.

    Parameters
    ----------
    shares : mapping
        By grade, from the coarsest down [-].
    by : mapping
        How each came to be known.
    sizes : CrushedSizes or None
        None without sieve weighings.
    over : float
        Share coarser than every grade, to be crushed again [-]; 0 where it was not weighed.
    """

    shares: Mapping[str, float]
    by: Mapping[str, By]
    sizes: CrushedSizes | None = None
    over: float = 0.0

    @property
    def rest(self) -> float:
        """Share in none of the grades, nor above them: fines and dust [-]."""
        return max(1.0 - self.over - sum(self.shares.values()), 0.0)


def sieve_test(
    weighed: Sequence[tuple[float, float]],
    pan: float | None,
    crushed: float | None,
    system: System = UnitSystem.METRIC,
    *,
    in_shares: bool = False,
) -> SieveTest:
    """Turn weighings into shares.

    Parameters
    ----------
    weighed : sequence
        Opening [m] and what stayed on that sieve [kg], in any order.
    pan : float or None
        What fell through all of them [kg].
    crushed : float or None
        What was put on the top sieve [kg].
    system : System
        Units of an error.
    in_shares : bool
        Whether shares stand there in the place of masses; then ``crushed`` is 1.

    Returns
    -------
    SieveTest

    Raises
    ------
    UserError
        Where the weighings do not sum to what was put on, by how much; without pan and without what was
        put on; for a sieve named twice.
    """
    ordered = sorted(weighed, reverse=True)
    if len({opening for opening, _ in ordered}) < len(ordered):
        raise UserError("a sieve named twice", allowed="each sieve once", todo="take one of the two out")
    if pan is None and crushed is None:
        todo = "weigh what fell through all sieves, or all of it before"
        raise UserError("neither pan nor crushed is given", allowed="one of the two, or both", todo=todo)
    held = sum(mass for _, mass in ordered) + (pan or 0.0)
    put_on = held if crushed is None else crushed
    if min(held, put_on) <= 0.0:
        raise UserError("nothing was weighed", allowed="more than 0", todo="weigh what stays on each sieve")
    # without a pan what is missing has fallen through
    off = put_on - held if pan is not None else min(put_on - held, 0.0)
    if abs(off) > BOTTLES["mass_error"].value * put_on * (1 + 1e-9):
        raise _do_not_sum(
            held, put_on, off, format_share if in_shares else partial(format_mass, system=system)
        )
    whole = held if pan is not None else max(put_on, held)
    return SieveTest(
        tuple(opening for opening, _ in ordered), tuple(mass / whole for _, mass in ordered), off / put_on
    )


def _do_not_sum(held: float, put_on: float, off: float, told: Callable[[float], str]) -> UserError:
    missing = "are missing" if off > 0 else "are too much"
    by = f"{told(abs(off))} ({format_share(abs(off) / put_on)})"
    return UserError(
        f"the sieves hold {told(held)} of {told(put_on)} crushed: {by} {missing}",
        allowed=f"{format_share(BOTTLES['mass_error'].value)} of difference",
        todo="weigh again, the pan too; brush out the grains that stick in the mesh",
    )


def sizes_of(test: SieveTest) -> CrushedSizes:
    """Fit a published distribution of sizes to sieve weighings.

    Parameters
    ----------
    test : SieveTest
        Of two sieves or more that a part of the glass passed.

    Returns
    -------
    CrushedSizes

    Raises
    ------
    UserError
        For fewer than two useful sieves.
    """
    return CrushedSizes(test, fit_sizes(test.openings, test.passed))


def crush_yields(glass: Glass, own: Mapping[str, float], sizes: CrushedSizes | None = None) -> CrushYields:
    """Find the share of a crushed bottle that ends in each grade.

    Parameters
    ----------
    glass : Glass
        The record, without mixtures.
    own : mapping
        Shares by grade that the shop itself recorded.
    sizes : CrushedSizes, optional
        From sieve weighings; then nothing else counts.

    Returns
    -------
    CrushYields
        Never more than the whole bottle.
    """
    grades = sorted(glass.grades, key=lambda grade: -grade.sieve_to.value)
    if sizes is None:
        return _recorded(grades, own)
    shares = {grade.id: _between(grade, sizes) for grade in grades}
    by: dict[str, By] = {grade.id: _how(grade, sizes) for grade in grades}
    over = 1.0 - sizes.passing(max(grade.sieve_to.value for grade in grades))
    return CrushYields(shares, by, sizes, over)


def _between(grade: Grade, sizes: CrushedSizes) -> float:
    return sizes.passing(grade.sieve_to.value) - sizes.passing(grade.sieve_from.value)


def _how(grade: Grade, sizes: CrushedSizes) -> By:
    both = sizes.weighed(grade.sieve_from.value) and sizes.weighed(grade.sieve_to.value)
    return "weighed" if both else "fitted"


def _recorded(grades: Sequence[Grade], own: Mapping[str, float]) -> CrushYields:
    usual = {grade.id: grade.crush_yield.value for grade in grades if grade.id not in own}
    left = max(1.0 - sum(own.values()), 0.0)
    # what the shop found leaves only so much for the others
    scale = min(left / sum(usual.values()), 1.0) if usual else 1.0
    shares = {grade.id: own.get(grade.id, scale * grade.crush_yield.value) for grade in grades}
    return CrushYields(shares, {grade.id: "own record" if grade.id in own else "usual" for grade in grades})
