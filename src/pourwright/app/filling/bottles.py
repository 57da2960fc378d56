"""From bottles to crushed glass, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.crushing import Crushing, crushing_of, kinds_of, pace
from pourwright.app.filling.bottle_words import (
    STEPS,
    bottle_cautions,
    bottle_warnings,
    left_words,
    recommended,
    water_does,
)
from pourwright.app.filling.drying import drying_part
from pourwright.app.filling.look import FillLook
from pourwright.fill import FillResult
from pourwright.fill.bottles.collecting import Collected, collected
from pourwright.fill.bottles.defaults import KINDS
from pourwright.fill.bottles.sieving import CrushedSizes
from pourwright.fill.bottles.sorting import Sorted, sorting_list
from pourwright.fill.bottles.work import Worth, work_at
from pourwright.fill.glass import bottles_for
from pourwright.foundation.progress import Progress
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.fill_bottles import (
    ColourBottles,
    ColourGrade,
    CrushedGlass,
    GradeYield,
    KindCount,
    SieveRow,
    Sizes,
    SortedOut,
)
from pourwright.jobs.job import Job
from pourwright.physics.size_distribution import passing

_HOUR = 3600.0


def bottles_look(look: FillLook, progress: Progress) -> CrushedGlass | None:
    """Tell which bottles to collect, and all that is done with them.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    CrushedGlass or None
        None without glass, and for a casting material mixed with water.
    """
    del progress
    fill = look.fill
    if fill is None or not fill.glass:
        return None
    crushing = crushing_of(look.job, look.materials)
    colours = [
        _colour(look, fill, crushing, colour) for colour in dict.fromkeys(lot.colour for lot in fill.glass)
    ]
    drying = drying_part(look, fill)
    sizes = crushing.yields.sizes
    return CrushedGlass(
        yields=list(_yields(crushing)),
        sizes=None if sizes is None else _sizes(sizes, look.job),
        colours=colours,
        left=left_words(colours, look.system),
        recommendation=recommended(colours, look.job),
        steps=list(STEPS),
        sorting=[SortedOut(what=each.what, do=each.do, why=each.why) for each in _sorting(crushing)],
        drying=drying.model_copy(update={"does": water_does(fill.choices.resin.family)}),
        warnings=list(bottle_warnings(look, crushing, colours, drying)),
        cautions=list(bottle_cautions(look.job.bottles.dried)),
    )


def _sorting(crushing: Crushing) -> tuple[Sorted, ...]:
    return sorting_list(crushing.glass.expansion.value, crushing.glass.density.value)


def _yields(crushing: Crushing) -> Iterator[GradeYield]:
    for grade, share in crushing.yields.shares.items():
        record = crushing.glass.grade(grade)
        yield GradeYield(
            grade=grade,
            sieve_from_m=record.sieve_from.value,
            sieve_to_m=record.sieve_to.value,
            share=share,
            by=crushing.yields.by[grade],
        )


def _sizes(sizes: CrushedSizes, job: Job) -> Sizes:
    test, names = sizes.test, {each.sieve.si: each.sieve.text for each in job.bottles.sieving}
    rows = zip(test.openings, test.stayed, test.passed, strict=True)
    return Sizes(
        size_m=sizes.law.size,
        spread=sizes.law.spread,
        residual=sizes.residual,
        off=test.off,
        sieves=[
            SieveRow(
                name=names[opening],
                sieve_m=opening,
                stayed=stayed,
                passed=passed,
                law=passing(opening, *sizes.law),
            )
            for opening, stayed, passed in rows
        ],
    )


def _colour(look: FillLook, fill: FillResult, crushing: Crushing, colour: str) -> ColourBottles:
    wanted = {lot.grade: lot.mass for lot in fill.glass if lot.colour == colour}
    bottle = crushing.bottle(colour)
    found = collected(colour, wanted, crushing.yields, bottle)
    work = work_at(found, pace(look.job))
    worth = Worth(work.total, _bought(look.job, fill, found.wanted), _price(look.job, "hour"))
    have = sum(kind.have for kind in kinds_of(look.job, colour))
    return ColourBottles(
        colour=colour,
        bought=colour in crushing.bought,
        wanted_kg=found.wanted,
        bottle_kg=bottle,
        bottles=found.bottles,
        again=found.again,
        have=have,
        collect=max(found.bottles - have, 0),
        crushed_kg=found.crushed,
        grades=[
            ColourGrade(
                grade=need.grade,
                wanted_kg=need.wanted,
                share=need.share,
                bottles=need.bottles,
                left_kg=need.left,
            )
            for need in found.needs
        ],
        over_kg=found.over,
        rest_kg=found.rest,
        kinds=list(_kinds(look.job, found, crushing, wanted)),
        labels_h=work.labels / _HOUR,
        crushing_h=work.crushing / _HOUR,
        sieving_h=work.sieving / _HOUR,
        washing_h=work.washing / _HOUR,
        drying_h=work.drying / _HOUR,
        total_h=work.total / _HOUR,
        work_price=worth.own,
        bought_price=worth.bought,
        turns_at=None if worth.turns_at is None else worth.turns_at * _HOUR,
        take="buy" if worth.buy else "as you value an hour" if worth.buy is None else "crush",
    )


def _kinds(job: Job, found: Collected, crushing: Crushing, wanted: dict[str, float]) -> Iterator[KindCount]:
    """Each kind alone; invented ones where the job names none."""
    own = [(kind.name, kind.mass.si, kind.have) for kind in kinds_of(job, found.colour)]
    for name, mass, have in own or [(name, number.value, 0) for name, number in KINDS.items()]:
        counts = [bottles_for(each, mass, crushing.yields.shares[grade]) for grade, each in wanted.items()]
        yield KindCount(name=name, mass_kg=mass, have=have, alone=max(counts), invented=not own)


def _price(job: Job, name: str) -> float | None:
    price: Quantity | None = None if job.prices is None else getattr(job.prices, name)
    return None if price is None else price.si


def _bought(job: Job, fill: FillResult, mass: float) -> float | None:
    """What the glass of a colour costs crushed and graded."""
    price: Quantity | None = None if job.prices is None else job.prices.glass
    if price is None:
        return None
    by_volume = price.dimension is Dimension.MONEY_PER_VOLUME
    return price.si * (mass / fill.choices.glass.density.value if by_volume else mass)
