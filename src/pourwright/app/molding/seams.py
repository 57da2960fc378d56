"""Which liquid reaches which seam of a job's mold, and what it loses there."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.seams_found import SeamsFound, seams_of
from pourwright.app.molding.seams_words import liquid_words, seam_warnings, seam_words
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_seams import LiquidLeaks as LiquidPart, SeamLeak, Seams
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.leaks import Leak, LiquidLeaks
from pourwright.physics.hydrostatics import pressure_at_depth


def seams_look(look: MoldLook, progress: Progress) -> Seams:
    """Rank the seams of each liquid.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Seams
    """
    del progress
    found = seams_of(look)
    numbers = ranked(found)
    return Seams(
        liquids=[_liquid(look, each, numbers) for each in found.liquids],
        paper_m=SEAMS["paper"].value,
        words=list(seam_words(look, found)),
        warnings=list(seam_warnings(look, found)),
    )


def ranked(found: SeamsFound) -> dict[str, int]:
    """Number all seams from the worst down, those that are there before those that might be.

    Parameters
    ----------
    found : SeamsFound
        The seams.

    Returns
    -------
    dict
        Number by name.
    """
    leaks = [leak for each in found.liquids for leak in each.leaks]
    order = sorted(leaks, key=lambda leak: (leak.joint.supposed, -leak.expected, leak.joint.name))
    return {leak.joint.name: number for number, leak in enumerate(order, 1)}


def _liquid(look: MoldLook, leaks: LiquidLeaks, numbers: dict[str, int]) -> LiquidPart:
    liquid = leaks.liquid
    return LiquidPart(
        liquid=liquid.name, presses_kg_m3=liquid.presses, flows_per_Pa=liquid.fluidity,
        gels_after_h=liquid.gels_after / 3600.0, layer_m=_known(leaks.layer), poured_kg=liquid.poured,
        may_lose_kg=leaks.allowed, lost_kg=leaks.expected, widest_gap_m=_known(leaks.widest),
        seams=list(_seams(leaks, numbers)), words=liquid_words(look, leaks),
    )  # fmt: skip


def _seams(leaks: LiquidLeaks, numbers: dict[str, int]) -> Iterator[SeamLeak]:
    order = sorted(leaks.leaks, key=lambda leak: numbers[leak.joint.name])
    yield from (_seam(leaks, leak, numbers[leak.joint.name]) for leak in order)


def _seam(leaks: LiquidLeaks, leak: Leak, number: int) -> SeamLeak:
    joint = leak.joint
    head = joint.head(leaks.layer)
    return SeamLeak(
        number=number, name=joint.name, kind=joint.kind, length_m=joint.length, way_out_m=joint.mean_path,
        head_m=head, pressure_Pa=float(pressure_at_depth(head, leaks.liquid.presses)), gap_m=joint.gap,
        lost_kg=leak.expected, lost_paper_kg=leak.paper, widest_gap_m=_known(leak.widest),
        closed_by=joint.closed_by, supposed=joint.supposed,
    )  # fmt: skip


def _known(value: float) -> float | None:
    return value if isfinite(value) else None
