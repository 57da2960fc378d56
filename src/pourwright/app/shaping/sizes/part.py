"""The size ledger as a part of what the tool answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from pourwright.app.shaping.sizes.faces import OPEN, Group, Skin, group_words, skin_of
from pourwright.app.shaping.sizes.made import Made
from pourwright.app.shaping.sizes.numbers import Values, ends, spread
from pourwright.app.shaping.sizes.steps import steps_of
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    UnitSystem,
    format_cut_length,
    format_share,
    format_temperature,
)
from pourwright.foundation.sources import Sourced, load_sources
from pourwright.geometry import measure
from pourwright.jobs import plan_sizes as part
from pourwright.jobs.job import Job

Array = NDArray[np.float64]
WORDS = {
    "rubber_shrinkage": "shrinkage of the rubber",
    "rubber_expansion": "expansion of the rubber",
    "warm_share": "rubber's share of the resin's warmth",
    "held": "rubber held by its panels",
    "rim_rises": "level that follows the rubber's own rim",
    "gels_at": "it gels or sets at",
    "casting_shrinkage": "shrinkage of the casting",
    "cure_shrinkage": "shrinkage of the resin by volume",
    "gel_conversion": "cured at gel",
    "cure_reached": "cured in the end",
    "expansion_glass": "expansion of the resin",
    "touching": "grains that hold each other",
}
_CAVITY = (
    "Mold, glass, resin and heat are reckoned with the cold cavity; heights of bands and pours stand in it."
)
_GIVEN = "The shape is the master: mold, glass, resin and heat are reckoned with it as it is."
_BAND = (
    "Low and high take each number to both ends of its range, effects added by squares; no band of chances."
)
_OWN = (
    "One casting measured against its master makes this far surer: write it as casting_shrinkage, with "
    'rubber_shrinkage = "0 %".'
)


def sizes_part(made: Made, job: Job) -> part.Sizes:
    """Write the ledger.

    Parameters
    ----------
    made : Made
        Piece, master and cavity.
    job : Job
        For its words.

    Returns
    -------
    plan_sizes.Sizes
    """
    lower, upper = made.in_file(made.master).bounds
    x, y, z = (float(side) for side in upper - lower)
    return part.Sizes(
        shape_is=job.sizes.shape_is,
        cut=job.sizes.cut,
        directions=sorted(_directions(made), key=lambda one: (one.axis, one.poured)),
        faces=[_face(made, group, job) for group in made.groups],
        piece_volume_m3=measure(made.piece).volume,
        cavity_volume_m3=measure(made.cavity).volume,
        master_volume_m3=measure(made.master).volume,
        master_size_m=(x, y, z),
        gels_at_degC=made.numbers["gels_at"].value - ZERO_CELSIUS,
        numbers=[_number(name, number, UnitSystem(job.units)) for name, number in made.numbers.items()],
        notes=list(_notes(made, job)),
    )


def _directions(made: Made) -> Iterator[part.Direction]:
    piece = made.cast - made.sanded
    gelled = made.cast / (1.0 - made.steps.casting)
    cold = made.master_size * (1.0 - made.steps.rubber)
    for axis in range(3):
        small, large = _band(made, _master, axis)
        least, most = _band(made, _piece, axis)
        name = _file_axis(made.frame.matrix[axis, :3])
        yield part.Direction(
            axis=name,
            poured="xyz"[axis],
            words=_direction_words(name, axis),
            piece_m=float(piece[axis]),
            piece_low_m=least,
            piece_high_m=most,
            sanded_m=float(made.sanded[axis]),
            cast_m=float(made.cast[axis]),
            casting_m=float((gelled - made.cast)[axis]),
            rubber_m=float((made.master_size - cold)[axis]),
            warm_rubber_m=float((cold - gelled)[axis]),
            cavity_m=float(cold[axis]),
            master_m=float(made.master_size[axis]),
            master_low_m=small,
            master_high_m=large,
        )


def _band(made: Made, answer: Callable[[Values, Made], Array], axis: int) -> tuple[float, float]:
    _, low, high = spread(made.numbers, lambda values: float(answer(values, made)[axis]))
    return low, high


def _master(values: Values, made: Made) -> Array:
    return steps_of(values, made.case).master(made.cast)


def _piece(values: Values, made: Made) -> Array:
    return steps_of(values, made.case).cast(made.master_size) - made.sanded


def _file_axis(direction: Array) -> str:
    axis = int(np.abs(direction).argmax())
    return "xyz"[axis] if abs(direction[axis]) > 1 - 1e-9 else ""


def _direction_words(name: str, axis: int) -> str:
    poured = "up as poured" if axis == 2 else "across"
    return f"{name}, {poured}" if name else f"{'xyz'[axis]} as poured, {poured.removesuffix(' as poured')}"


def _face(made: Made, group: Group, job: Job) -> part.FaceGroup:
    skin = skin_of(group, made.case.layers)
    through = skin is not None and group.sanded > skin.depth
    words = group_words(group.name, made.frame.up)
    areas = np.linalg.norm(made.shape.area_vectors[group.faces], axis=1)
    text = "" if not group.sanded or skin is None else _skin_words(group, skin, words, UnitSystem(job.units))
    return part.FaceGroup(
        name=group.name,
        words=words,
        area_m2=float(areas.sum()),
        sanded_m=group.sanded,
        stands_out_m=_stands_out(made, group),
        skin_m=None if skin is None else skin.depth,
        glass_share=None if skin is None else skin.glass,
        through=through,
        text=text,
    )


def _stands_out(made: Made, group: Group) -> float:
    """How far faces of the master lie outside those of the piece, shrinkage shared out to both sides [m]."""
    vectors = made.shape.area_vectors[group.faces]
    areas = np.linalg.norm(vectors, axis=1)
    normals = vectors / np.maximum(areas, 1e-300)[:, None]
    middles, shrunk = made.shape.triangles[group.faces].mean(axis=1), made.cast / made.master_size
    cast = middles * shrunk if made.master is made.shape else middles + group.sanded * normals
    away = cast - made.master.bounds.mean(axis=0) * shrunk
    return group.sanded + float((vectors * away * (1.0 / shrunk - 1.0)).sum() / areas.sum())


def _skin_words(group: Group, skin: Skin, words: str, system: UnitSystem) -> str:
    off, depth = (_fine(each, system) for each in (group.sanded, skin.depth))
    start = f"sanding {off} off the {words}"
    if group.sanded > skin.depth:
        film = "neat cover" if skin.cover else f"skin over the {skin.grade} glass, on average"
        return (
            f"{start} goes through the {film} {depth} deep, to the glass: {format_share(skin.glass)} of the "
            "face is cut glass, the look of terrazzo; it takes diamond abrasives, wet, and more hours"
        )
    if skin.cover:
        return f"{start} stays in the neat layer {depth} deep: clear resin, no glass"
    return (
        f"{start} stays above the mean skin of {depth} over the {skin.grade} glass, but grains touch the "
        f"mold: {format_share(skin.glass)} of the face is glass"
    )


def _fine(length: float, system: UnitSystem) -> str:
    number, _, unit = format_cut_length(length, system).partition(" ")
    return f"{number.rstrip('0').rstrip('.')} {unit}"


def _number(name: str, number: Sourced, system: UnitSystem) -> part.SizeNumber:
    low, high = ends(number)
    return part.SizeNumber(
        name=name,
        words=WORDS[name],
        value=number.value,
        value_low=low,
        value_high=high,
        unit=number.unit,
        kind=str(number.kind),
        source=load_sources()[number.source].printed,
        told=f"{_shown(number.value, number.unit, system)} ({_range(low, high, number.unit, system)})",
    )


def _range(low: float, high: float, unit: str, system: UnitSystem) -> str:
    first, last = (_shown(each, unit, system) for each in (low, high))
    shared = first.partition(" ")[2]
    return f"{first.removesuffix(f' {shared}') if last.endswith(shared) else first} to {last}"


def _shown(value: float, unit: str, system: UnitSystem) -> str:
    if unit == "K":
        return format_temperature(value, system)
    return f"{value * 1e6:.3g}e-6 /K" if unit == "1/K" else f"{100 * value:.3g} %"


def _notes(made: Made, job: Job) -> Iterator[str]:
    yield _CAVITY if job.sizes.shape_is == "piece" else _GIVEN
    if job.sizes.shape_is == "piece":
        more = measure(made.master).volume / measure(made.cavity).volume - 1.0
        yield (
            f"The master displaces {format_share(more, digits=1)} more rubber than the cavity that rubber "
            "and hold-down are reckoned with; the allowance covers it."
        )
    floor = next((group for group in made.groups if group.name == "floor" and group.sanded), None)
    if floor is not None and made.frame.flipped:
        off = _fine(floor.sanded, UnitSystem(job.units))
        yield f"Heights as it stands are those of the casting; the sanded piece ends {off} lower at its top."
    yield _BAND
    if job.sizes.casting_shrinkage is None:
        yield _OWN


def size_words(sizes: part.Sizes) -> Iterator[str]:
    """Say what has to be minded before the master is cut.

    Parameters
    ----------
    sizes : plan_sizes.Sizes
        The ledger.

    Yields
    ------
    str
        One sentence for each group of faces that is sanded into or through its skin.
    """
    for face in sizes.faces:
        if face.through or (face.text and face.name != OPEN and face.glass_share):
            yield face.text
