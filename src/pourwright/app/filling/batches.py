"""How the resin of a job is weighed and mixed, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.document.notes import general_cautions
from pourwright.app.filling.look import FillLook
from pourwright.app.setup import ANY_DAY, Setup, climate, tools
from pourwright.fill import FillBand
from pourwright.fill.mixing import (
    AMINES,
    MIXING,
    WITHOUT_A_LIMIT,
    batch_limits,
    clock,
    coarsest_step,
    ratio_matters,
    volume_ratio,
)
from pourwright.foundation.notation import format_mass, format_share
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_batches import BandBatches, Batches, BatchStep
from pourwright.pour.bucket import pail_of


def batches_look(look: FillLook, progress: Progress) -> Batches | None:
    """Split the resin of every band into batches.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Batches or None
        None for a casting material mixed with water.
    """
    del progress
    setup = look.setup
    if setup is None:
        return None
    resin, shop_tools = setup.resin, tools(look.job)
    limits = batch_limits(resin, shop_tools, setup.most_in_pail)
    bands = [_band(setup, band) for band in setup.fill.bands]
    steps = [step for band in bands for step in band.batches]
    masses = [step.part_a_kg + step.part_b_kg for step in steps]
    parts = (resin.parts_a.value, resin.parts_b.value)
    worst = max((step.ratio_error for step in steps), key=abs, default=0.0)
    return Batches(
        parts_by_weight=parts,
        b_by_volume=volume_ratio(resin),
        most_kg=limits.most,
        most_by=limits.which,
        pail_kg=limits.pail,
        scale_kg=limits.scale,
        heat_kg=limits.heat,
        pot_life_h=resin.pot_life.value / 3600,
        pot_life_of=resin.pot_life.conditions,
        in_mold_within_h=_within(setup, max(masses, default=limits.most)) / 3600,
        scale_step_kg=shop_tools.scale_step,
        coarsest_step_kg=coarsest_step(min(masses, default=limits.most), parts),
        ratio_bears=MIXING["ratio_bears"].value,
        worst_ratio_error=worst,
        ratio_matters=ratio_matters(worst),
        tint_kg=MIXING["tint"].value * sum(masses),
        tint_batch_kg=MIXING["tint"].value * max(masses, default=0.0),
        tint_share=MIXING["tint"].value,
        bands=bands,
        warnings=list(_warnings(setup, worst, min(masses, default=limits.most))),
        cautions=[general_cautions()[0], *_amines(setup)],
    )


def _within(setup: Setup, mass: float) -> float:
    """Time from mixing until a batch must be in the mold, on a warm day [s]."""
    shop, start = climate(setup.job, ANY_DAY).warmest, setup.job.casting.start_temperature
    mixed_at = shop if start is None else start.si
    return pail_of(setup.resin, mass, tools(setup.job).pail, mixed_at, shop).work_within


def _band(setup: Setup, band: FillBand) -> BandBatches:
    ledger = setup.fill.resin_between(band.lower, band.upper)
    made = setup.batches(ledger.total)
    below = setup.fill.liquid_below(band.lower)
    each = ledger.poured / setup.resin.density.value / max(len(made), 1)
    standing, rim = setup.piece.frame.as_standing, setup.mold.rim
    ends = clock(tuple(batch.mass for batch in made))
    levels = [setup.fill.level_of_liquid(below + each * batch.number) for batch in made]
    return BandBatches(
        band=band.name,
        glass=not band.neat,
        resin_kg=ledger.total,
        batches=[
            BatchStep(
                number=batch.number,
                part_a_kg=batch.part_a,
                part_b_kg=batch.part_b,
                ratio_error=batch.ratio_error,
                in_after_h=end / 3600,
                level_m=level,
                level_standing_m=standing(level),
                dip_m=rim - level,
            )
            for batch, end, level in zip(made, ends, levels, strict=True)
        ],
    )


def _amines(setup: Setup) -> Iterator[str]:
    """What is known of hardeners in the air; which one is in the can its data sheet says."""
    if "epoxy" not in setup.resin.family.lower():
        return
    (name, limit), *_ = AMINES.items()
    yield (
        f"Amine hardeners: {limit.value:g} {limit.unit} of {name} in the air over a shift is the limit at "
        f"work in the United States, and it goes through the skin; {WITHOUT_A_LIMIT[0]} has none "
        "set, which does not make it harmless. The safety data sheet names yours; local rules come first."
    )


def _warnings(setup: Setup, worst: float, smallest: float) -> Iterator[str]:
    if not ratio_matters(worst):
        return
    step = tools(setup.job).scale_step
    parts = (setup.resin.parts_a.value, setup.resin.parts_b.value)
    asked = format_mass(coarsest_step(smallest, parts), setup.system)
    yield (
        f"The scale's step of {format_mass(step, setup.system)} puts B off by "
        f"{format_share(abs(worst))} in the smallest batch: it stays softer. Weigh that one on a scale with "
        f"steps of {asked} or less, or mix two bands together."
    )
