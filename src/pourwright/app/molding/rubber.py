"""The work of pouring the rubber, as part of the mold's document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    format_duration,
    format_length,
    format_mass,
    format_volume,
)
from pourwright.foundation.progress import Progress
from pourwright.geometry import open_face
from pourwright.jobs.mold_contact import RubberBatches
from pourwright.mold import DEFAULTS
from pourwright.mold.rubber_work import RubberWork, left_over_uses, pouring_steps, rubber_work


def rubber_look(look: MoldLook, progress: Progress) -> RubberBatches:  # noqa: ARG001 - one shape for all looks
    """Reckon batches, time, first coat and left-overs of the rubber pour.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed.

    Returns
    -------
    RubberBatches
    """
    mold, mix = look.mold, look.mold.rubber
    rubber, shop = mold.choices.rubber, mold.choices.shop
    work = rubber_work(
        rubber,
        mix.batches,
        taken=mix.mass,
        area=look.piece.solid.area - open_face(look.piece.mesh).area,
        shop=shop,
        method=mold.method,
        pot=mold.choices.vacuum_pot,
    )
    return RubberBatches(
        batches=len(mix.batches),
        batch_kg=max(batch.mass for batch in mix.batches),
        mixed_kg=mix.mass_mixed,
        spare_kg=work.spare,
        first_coat_kg=work.first_coat,
        parts_by_weight=(rubber.parts_a.value, rubber.parts_b.value),
        parts_by_volume=work.by_volume,
        by_volume=_by_volume(look, work),
        shop_degC=shop - ZERO_CELSIUS,
        works_for_h=work.works_for / 3600,
        longest_batch_h=work.longest_batch / 3600,
        alone_h=work.alone / 3600,
        in_two_h=work.in_two / 3600,
        late=work.late,
        pot_batch_kg=work.pot_batch,
        pot=_pot(look, work),
        fill_mark_m=mix.fill_mark,
        end_mark_m=mix.level_after,
        method=mold.method,
        steps=list(pouring_steps(mold.method)),
        left_overs=list(left_over_uses(rubber.cure_kind)),
        skin_wall=_skin_wall(look),
        warnings=list(_warnings(look, work)),
    )


def _by_volume(look: MoldLook, work: RubberWork) -> str:
    rubber = look.mold.choices.rubber
    if work.by_volume is None:
        return "weigh: its record does not give the densities of A and B, so nothing can be said by volume"
    a, b = work.by_volume
    weighed = (rubber.parts_a.value, rubber.parts_b.value)
    if weighed[0] == weighed[1] and abs(a - b) < 0.005 * a:
        return "equal parts either way: no sums; weigh where you can"
    by_weight = f"{weighed[0]:g} to {weighed[1]:g} by weight"
    return f"{a:g} to {b:.3g} parts by volume are {by_weight}; weigh where you can"


def _skin_wall(look: MoldLook) -> str:
    """A skin has no box that bulges: its shell carries it, and its wall is common practice alone."""
    if look.mold.choices.way != "skin":
        return ""
    usual, written = DEFAULTS["skin"], look.job.mold.skin
    low, thick, high = (
        format_length(edge, look.system)
        for edge in (usual.low or 0.0, usual.value if written is None else written.si, usual.high or 0.0)
    )
    return f"{thick} (common practice, {low} to {high}): its shell carries it all over; never fill it without"


def _pot(look: MoldLook, work: RubberWork) -> str:
    pot = look.mold.choices.vacuum_pot
    if pot is None or work.pot_batch is None:
        return "no vacuum pot: pour in a thin stream from high up, which pulls the bubbles apart"
    most = format_mass(work.pot_batch, look.system)
    return f"a pot of {format_volume(pot, look.system)} is filled to a third, {most}: rubber foams up in it"


def _warnings(look: MoldLook, work: RubberWork) -> Iterator[str]:
    # of a hung master the mold itself says it
    if work.late != "no" and look.mold.method == "screwed":
        works, one = format_duration(work.works_for), format_duration(work.longest_batch)
        yield f"A batch takes {one} and the rubber works for {works} in this shop: mix smaller batches."
