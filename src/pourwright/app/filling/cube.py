"""A test cube of the planned bands, as part of the fill's document."""

from __future__ import annotations

import numpy as np

from pourwright.app.document.notes import general_cautions
from pourwright.app.filling.cube_words import (
    cube_steps,
    cube_warnings,
    facts_lines,
    job_lines,
    measures,
    notes,
)
from pourwright.app.filling.look import FillLook
from pourwright.app.filling.shrinks import contracting, shrinking_numbers, sinks
from pourwright.app.setup import Setup
from pourwright.app.shaping.sizes.numbers import likely, shop_temperature
from pourwright.fill.cube import Cube, Mix, cube_of
from pourwright.fill.shrinking import last_poured
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_cube import CubeLayer, CubeMix, TestCube
from pourwright.pour.sample import Warmed, sample_warms

TENTH = 1e-4


def cube_look(look: FillLook, progress: Progress) -> TestCube | None:
    """Lay out a test cube.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    TestCube or None
        None for a casting material mixed with water.
    """
    del progress
    setup = look.setup
    if setup is None:
        return None
    own = setup.job.fill.test_cube
    cube = cube_of(setup.fill, None if own is None else own.si, setup.job.where("fill.test_cube"))
    told = _told(setup, cube)
    return told.model_copy(
        update={
            "steps": list(cube_steps(setup, told)),
            "measures": list(measures(setup, told)),
            "job_lines": list(job_lines(setup, cube)),
            "facts_lines": list(facts_lines(setup)),
            "notes": list(notes(setup, told)),
            "warnings": list(cube_warnings(setup, told)),
        }
    )


def _told(setup: Setup, cube: Cube) -> TestCube:
    warmed = _warmed(setup, cube)
    _, sink, most = sinks(setup, last_poured(cube.fill.bands), cube.fill.levels)
    piece = sinks(setup, last_poured(setup.fill.bands))[2]
    solid = setup.room_solid
    return TestCube(
        edge_m=cube.edge,
        grain_m=cube.grain,
        layers=_layers(cube),
        left_out=cube.left_out,
        mixes=[_mix(cube, mix) for mix in cube.mixes],
        glass_kg=sum(layer.glass for layer in cube.layers),
        resin_kg=sum(batch.mass for mix in cube.mixes for batch in mix.batches),
        mass_kg=cube.fill.piece_mass,
        peak_degC=None if warmed.ran_away else warmed.peak - ZERO_CELSIUS,
        peak_after_h=None if warmed.ran_away else warmed.after / 3600.0,
        peak_limit_degC=_limit(setup) - ZERO_CELSIUS,
        cools_by=6.0 / cube.edge / (solid.area / solid.volume),
        sink_m=sink,
        sink_most_m=most,
        sink_times=piece / most,
        after_week_m=cube.edge * (1.0 - _shrinks(setup, cube)),
        caliper=TENTH / cube.edge,
        steps=[],
        measures=[],
        job_lines=[],
        facts_lines=[],
        notes=[],
        cautions=[general_cautions()[0], general_cautions()[2]],
    )


def _layers(cube: Cube) -> list[CubeLayer]:
    return [
        CubeLayer(
            band=layer.band.name,
            from_m=layer.band.lower,
            to_m=layer.band.upper,
            grade=layer.band.grade,
            colour=layer.band.colour,
            glass_kg=layer.glass,
            resin_kg=layer.resin,
            void_fraction=layer.band.void_fraction,
            volume_m3=layer.band.volume,
        )
        for layer in cube.layers
    ]


def _mix(cube: Cube, mix: Mix) -> CubeMix:
    one = mix.batches[0]
    names = [cube.layers[number].band.name for number in mix.layers]
    return CubeMix(layers=names, part_a_kg=one.part_a, part_b_kg=one.part_b, batches=len(mix.batches))


def _limit(setup: Setup) -> float:
    own = setup.job.limits.resin_peak
    return setup.resin.peak_limit.value if own is None else own.si


def _warmed(setup: Setup, cube: Cube) -> Warmed:
    """The middle of the cube, all of it poured at once."""
    shop, start = shop_temperature(setup.job), setup.job.casting.start_temperature
    layers = tuple(
        (layer.band.upper - layer.band.lower, 0.0 if layer.band.neat else 1.0 - layer.band.void_fraction)
        for layer in cube.layers
    )
    glass, poured = setup.fill.choices.glass, shop if start is None else start.si
    return sample_warms(setup.resin, glass, layers, cube.edge, poured=poured, shop=shop)


def _shrinks(setup: Setup, cube: Cube) -> float:
    """Shrinkage by length of its height, gel to cold: the mean over its layers [-]."""
    stuff = contracting(setup, likely(shrinking_numbers(setup)))
    each = [
        stuff.stirred_in(0.0) if layer.band.neat else stuff.as_a_bed(1.0 - layer.band.void_fraction)
        for layer in cube.layers
    ]
    return float(np.average(each, weights=[layer.band.upper - layer.band.lower for layer in cube.layers]))
