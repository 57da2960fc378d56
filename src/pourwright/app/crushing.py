"""From what a job says about bottles to yields and bottle masses, in SI."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pourwright.fill.bottles.collecting import refuse_hardly_any
from pourwright.fill.bottles.defaults import BOTTLES, DRYING
from pourwright.fill.bottles.sieving import CrushYields, crush_yields
from pourwright.fill.bottles.work import Pace
from pourwright.fill.glass import NO_COLOUR
from pourwright.jobs.bottle_checks import written_sizes
from pourwright.jobs.bottles_section import BottleKind
from pourwright.jobs.job import Job
from pourwright.materials import Glass, Materials


@dataclass(frozen=True)
class Crushing:
    """Bottles of a job.

    Parameters
    ----------
    glass : Glass
        The record, without mixtures.
    yields : CrushYields
        Share of a bottle in each grade.
    masses : mapping
        Of one bottle, by colour of a band [kg]; the usual one where missing.
    usual : float
        Of one bottle where no kind is told [kg].
    bought : frozenset of str
        Colours that come crushed and graded.
    """

    glass: Glass
    yields: CrushYields
    masses: Mapping[str, float]
    usual: float
    bought: frozenset[str]

    def bottle(self, colour: str) -> float:
        """Mass of one bottle of a colour [kg]."""
        return self.masses.get(colour, self.usual)


def crushing_of(job: Job, materials: Materials) -> Crushing:
    """Read what a job says about its bottles.

    Parameters
    ----------
    job : Job
        As written.
    materials : Materials
        The families and the shop's own records.

    Returns
    -------
    Crushing

    Raises
    ------
    UserError
        For a grade that a band wants and crushing gives next to nothing of, with its line.
    """
    glass: Glass = materials.find("glass", job.fill.glass, job.where("fill.glass"))
    yields = crush_yields(glass, job.bottles.crush_yield, written_sizes(job))
    bought = frozenset(job.bottles.bought)
    for grade in dict.fromkeys(_crushed_grades(job, bought)):
        if grade in yields.shares:
            refuse_hardly_any(
                grade, yields, job.where("bottles.sieving" if yields.sizes else "bottles.yield")
            )
    colours = dict.fromkeys(band.colour or NO_COLOUR for band in job.band if not band.neat)
    colours |= dict.fromkeys(band.shell.colour for band in job.band if band.shell is not None)
    masses = {colour: _mass(kinds) for colour in colours if (kinds := kinds_of(job, colour))}
    usual = glass.bottle_mass.value if job.bottles.mass is None else job.bottles.mass.si
    return Crushing(glass, yields, masses, usual, bought)


def kinds_of(job: Job, colour: str) -> list[BottleKind]:
    """List the kinds of bottles that give a colour.

    Parameters
    ----------
    job : Job
        As written.
    colour : str
        Of a band; `NO_COLOUR` where any will do.

    Returns
    -------
    list of BottleKind
        In the order of the job.
    """
    return [kind for kind in job.bottles.kind if colour == NO_COLOUR or kind.colour in {colour, None}]


def pace(job: Job) -> Pace:
    """How long one person takes, by the job or by common practice.

    Parameters
    ----------
    job : Job
        As written.

    Returns
    -------
    Pace
    """
    written = job.bottles
    names = ("label", "crushing", "sieving", "washing", "drying")
    times = {name: getattr(written, f"{name}_time") for name in names}
    own = {name: BOTTLES[name].value if time is None else time.si for name, time in times.items()}
    return Pace(**own, change=BOTTLES["change"].value)


def waits(job: Job) -> float:
    """Time until trays keep their weight, by the job or by common practice.

    Parameters
    ----------
    job : Job
        As written.

    Returns
    -------
    float
        [s]
    """
    written = job.bottles
    return DRYING[written.dried].value if written.dries_in is None else written.dries_in.si


def _mass(kinds: Sequence[BottleKind]) -> float:
    """Of one bottle, as many of each kind as there are already; else as many of one as of another."""
    there = sum(kind.have for kind in kinds)
    if there:
        return sum(kind.have * kind.mass.si for kind in kinds) / there
    return sum(kind.mass.si for kind in kinds) / len(kinds)


def _crushed_grades(job: Job, bought: frozenset[str]) -> list[str]:
    bands = [band for band in job.band if not band.neat and band.colour not in bought]
    return [grade for band in bands for grade, _ in (band.blend or ((band.grade or "", 1.0),))]
