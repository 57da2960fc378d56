"""The size ledger as a part of the plan document, with what the heat run knows better."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.sizes.made import Made
from pourwright.app.shaping.sizes.numbers import likely
from pourwright.app.shaping.sizes.part import sizes_part
from pourwright.app.shaping.sizes.steps import steps_of
from pourwright.foundation.notation import ZERO_CELSIUS, UnitSystem, format_cut_length, format_temperature
from pourwright.jobs.job import Job
from pourwright.jobs.plan_part import Point
from pourwright.jobs.plan_sizes import Direction, RunSizes, Sizes
from pourwright.materials import Resin
from pourwright.pour.cracks import Cracks

Array = NDArray[np.float64]


def sizes_of(
    piece: PieceRead, job: Job, resin: Resin | None = None, cracks: Cracks | None = None
) -> Sizes | None:
    """Write the ledger of a piece.

    Parameters
    ----------
    piece : PieceRead
        As read for the job.
    job : Job
        For its words.
    resin : Resin, optional
        Of the heat run.
    cracks : Cracks, optional
        Of the heat run: how much warmer each pour gels than it was poured.

    Returns
    -------
    Sizes or None
        None for a piece that was read without a job.
    """
    if piece.sizes is None:
        return None
    sizes = sizes_part(piece.sizes, job)
    told = job.sizes.gels_at is not None or not piece.sizes.case.warm
    if resin is None or cracks is None or told:
        return sizes
    gels = gels_at(job, piece.sizes.case.shop, resin, cracks)
    return sizes.model_copy(update={"run": _run(piece.sizes, job, sizes, gels)})


def gels_at(job: Job, shop: float, resin: Resin, cracks: Cracks) -> float:
    """Mean temperature at which the liquid of a heat run gels.

    Parameters
    ----------
    job : Job
        For the temperature at which it is poured.
    shop : float
        Temperature of the shop, where the job does not give that of the resin [K].
    resin : Resin
        Of the run.
    cracks : Cracks
        With what every pour loses until gel.

    Returns
    -------
    float
        [K]

    Notes
    -----
    What a pour loses until gel is V (v a_gel - 3 alpha dT): solved for dT over all pours.
    """
    liquid = sum(sink.liquid for sink in cracks.sinks)
    lost = sum(sink.lost for sink in cracks.sinks) / liquid
    cured = resin.cure_shrinkage.value * resin.cure.gel_conversion.value
    warming = (cured - lost) / (3.0 * resin.solid.expansion_soft.value)
    start = job.casting.start_temperature
    return (shop if start is None else start.si) + warming


def _run(made: Made, job: Job, sizes: Sizes, gels: float) -> RunSizes:
    steps = steps_of({**likely(made.numbers), "gels_at": gels}, made.case)
    piece = _ordered(steps.cast(made.master_size) - made.sanded, sizes.directions)
    master = _ordered(steps.master(made.cast), sizes.directions)
    system = UnitSystem(job.units)
    shown = {
        name: " x ".join(format_cut_length(side, system) for side in each)
        for name, each in (("piece", piece), ("master", master))
    }
    assumed, seen = (format_temperature(each, system) for each in (sizes.gels_at_degC + ZERO_CELSIUS, gels))
    text = (
        f"In the heat run of this plan the resin gels at {seen} on average, the ledger takes {assumed}. "
        f"Gelled at {seen}, the piece from this master is {shown['piece']}."
    )
    if sizes.shape_is == "piece":
        text += f' For the piece as wanted write gels_at = "{seen}": the master is then {shown["master"]}.'
    return RunSizes(gels_at_degC=gels - ZERO_CELSIUS, piece_m=piece, master_m=master, text=text)


def _ordered(sizes: Array, directions: list[Direction]) -> Point:
    x, y, z = (float(sizes["xyz".index(one.poured)]) for one in directions)
    return (x, y, z)
