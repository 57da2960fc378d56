"""What a shop has learnt and not taken back, read from its book for a plan."""

from __future__ import annotations

from pathlib import Path

from pourwright.app.learnt.applied import choices_with_learned, with_learned
from pourwright.app.shop import shop_folder
from pourwright.calibration.learning.quantities import LEAST, LEAST_COUNTED, QUANTITIES
from pourwright.calibration.learning.record import BAND, Family, Learned
from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job
from pourwright.materials import Materials, load_materials
from pourwright.records import BOOK_FILE, Learned as Kept, learned_now, open_book

ABOVE = 4
SAME = 1e-12


def in_force(folder: Path) -> list[Learned]:
    """What holds in the shop that a folder lies in; nothing where there is no book, or none to be read."""
    place = _book(folder)
    if place is None:
        return []
    try:
        with open_book(place, make=False) as book:
            return [of_row(row) for row in learned_now(book)]
    except UserError:
        # a plan is made all the same; the book's own pages say what is wrong with it
        return []


def of_row(row: Kept) -> Learned:
    """What the book keeps, as it was learnt."""
    half, before = BAND / 2.0 * row.sd, BAND / 2.0 * row.prior_sd
    kept = abs(row.mean - row.prior_mean) < SAME and abs(row.sd - row.prior_sd) < SAME
    family = Family(row.prior_mean, row.prior_mean - before, row.prior_mean + before)
    return Learned(
        quantity=row.quantity, subject=row.subject, family=family, value=row.mean, low=row.mean - half,
        high=row.mean + half, records=row.records, kept_family=kept, why=_why(row) if kept else "",
        error=None, family_error=None, scatter=0.0,
    )  # fmt: skip


def _why(row: Kept) -> str:
    least = LEAST_COUNTED if QUANTITIES[row.quantity].scale == "count" else LEAST
    return "few" if row.records < least else "no better"


def learnt_value(job: Job, quantity: str, subject: str) -> float | None:
    """Give what the shop has learnt of one number; None where the family's value holds."""
    for one in in_force(job.path.parent):
        if (one.quantity, one.subject) == (quantity, subject) and not one.kept_family:
            return one.value
    return None


def mold_name(job: Job) -> str:
    """Name the mold of a job, as the shop's book does: by the job's folder."""
    return job.path.resolve().parent.name


def of_mold(job: Job, quantity: str) -> float:
    """Give what was learnt of a job's mold, as a factor on what is drawn or usual; 1 where nothing was."""
    return learnt_value(job, quantity, mold_name(job)) or 1.0


def shop_materials(job: Job) -> Materials:
    """The families, the shop's own records, and what the shop has learnt."""
    return with_learned(load_materials(shop_folder(job)), in_force(job.path.parent))


def learnt_choices(job: Job) -> Job:
    """The job with what was learnt of pail and film, where it says nothing of them."""
    return choices_with_learned(job, in_force(job.path.parent))


def _book(folder: Path) -> Path | None:
    here = folder.resolve()
    places = (each / BOOK_FILE for each in (here, *here.parents[:ABOVE]))
    return next((place for place in places if place.is_file()), None)
