"""What went into the mold in a pour: each batch once, by the best that is known of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from math import fsum, hypot

from pourwright.app.booking.batches import AS_PLANNED_DOUBT, Batch, batches_of, weighing
from pourwright.fill.defaults import DEFAULTS as FILL
from pourwright.jobs.plan import PlanDocument
from pourwright.pour.leaked.defaults import spread
from pourwright.pour.leaked.weighed import Weighed
from pourwright.records import Entry


@dataclass(frozen=True)
class Masses:
    """What went into a mold, by how it is known.

    Parameters
    ----------
    poured : tuple of float
        Weighed as it went in, top-ups among them [kg].
    mixed : tuple of float
        Weighed before, some of which stays in the pail [kg].
    planned : tuple of float
        Mixed as planned, read off no scale [kg].
    """

    poured: tuple[float, ...] = ()
    mixed: tuple[float, ...] = ()
    planned: tuple[float, ...] = ()


@dataclass(frozen=True)
class WentIn:
    """What went into the mold in one pour.

    Parameters
    ----------
    batches : tuple of Batch
        In the order in which they were begun.
    topped_up : tuple of Entry
        What was added later.
    """

    batches: tuple[Batch, ...]
    topped_up: tuple[Entry, ...]

    @property
    def poured(self) -> tuple[Entry, ...]:
        """What was weighed as it went in, each once."""
        found = [one.said["poured"] for one in self.batches if "poured" in one.said]
        return tuple({entry.id: entry for entry in found}.values())

    @property
    def masses(self) -> Masses:
        """Every batch once, by how its mass is known."""
        rest = [one for one in self.batches if "poured" not in one.said and one.mixed is not None]
        return Masses(
            poured=tuple(entry.value or 0.0 for entry in chain(self.poured, self.topped_up)),
            mixed=tuple(_mixed(one) for one in rest if one.is_measured),
            planned=tuple(_mixed(one) for one in rest if not one.is_measured),
        )

    @property
    def mixed_and_poured(self) -> tuple[float | None, float | None]:
        """What was mixed and what of it was poured [kg]; None each where not every batch was so weighed."""
        mixed = _all_of(_mixed(one) if one.is_measured else None for one in self.batches)
        every = all("poured" in one.said for one in self.batches)
        return mixed, _all_of(entry.value for entry in self.poured) if every else None


def _all_of(masses: Iterable[float | None]) -> float | None:
    known = list(masses)
    return fsum(mass for mass in known if mass) if known and None not in known else None


def _mixed(batch: Batch) -> float:
    return 0.0 if batch.mixed is None else batch.mixed.mass


def went_in(entries: Sequence[Entry]) -> WentIn:
    """Reckon what went in by the log of one pour.

    Parameters
    ----------
    entries : sequence of Entry
        What stands in the log about the pour.

    Returns
    -------
    WentIn
    """
    topped_up = tuple(one for one in entries if one.kind == "topped_up" and one.value is not None)
    return WentIn(batches_of(entries), topped_up)


def pail_loss(plan: PlanDocument) -> Weighed:
    """Share of what is mixed that stays in the pail, with its standard deviation."""
    share = plan.fill.resin.bucket_kg / plan.fill.resin_kg if plan.fill.resin_kg else 0.0
    return Weighed(share, spread(FILL["bucket_loss"]))


def mass_in_mold(plan: PlanDocument, masses: Masses) -> Weighed | None:
    """Reckon what went into a mold.

    Parameters
    ----------
    plan : PlanDocument
        For what stays in its pails.
    masses : Masses
        Of one pour.

    Returns
    -------
    Weighed or None
        None where nothing is known to have gone in.

    Notes
    -----
    Scales err for each batch anew; the share that stays in a pail, and how close to the plan somebody
    weighs, are the same for all of a pour, so these doubts add up.
    """
    if not (masses.poured or masses.mixed or masses.planned):
        return None
    loss, planned = pail_loss(plan), fsum(masses.planned)
    from_pails = planned + fsum(masses.mixed)
    left = 1.0 - loss.mass
    scales = [weighing(mass) for mass in masses.poured] + [left * weighing(mass) for mass in masses.mixed]
    doubt = hypot(*scales, left * AS_PLANNED_DOUBT * planned, from_pails * loss.doubt)
    return Weighed(fsum(masses.poured) + left * from_pails, doubt)
