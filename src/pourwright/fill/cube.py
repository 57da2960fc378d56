"""A small cube of the planned bands, poured before the piece: its edge, its layers, what is weighed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil
from types import MappingProxyType

from pourwright.fill.choices import BandChoice, FillChoices
from pourwright.fill.design import design_fill
from pourwright.fill.parts import FillBand
from pourwright.fill.result import FillResult
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.foundation.sources import Kind, Sourced
from pourwright.geometry import box, level_volume
from pourwright.materials.batches import Batch
from pourwright.materials.records import Glass

_PRACTICE = "common-practice"
CUBE: Mapping[str, Sourced] = MappingProxyType(
    {
        "edge": Sourced(
            0.060, "m", 0.050, 0.100, Kind.PRACTICE, _PRACTICE, "least edge, to see colour in it",
        ),
        "grains": Sourced(
            10.0, "", 8.0, 15.0, Kind.PRACTICE, _PRACTICE, "largest grains across, or its walls decide",
        ),
        "layer_grains": Sourced(
            3.0, "", 2.0, 5.0, Kind.PRACTICE, _PRACTICE, "largest grains in the height of a layer of a cube",
        ),
        "neat_layer": Sourced(
            0.010, "m", 0.005, 0.020, Kind.PRACTICE, _PRACTICE, "least neat layer of a cube",
        ),
    }
)  # fmt: skip
"""What a test cube is laid out with, SI."""
ROUND = {UnitSystem.METRIC: 0.005, UnitSystem.US: 0.0254 / 4}
"""Edges are told in steps of this [m]."""
CROWDED = 1.5
"""A cube that all bands would make so much larger shows each kind of band once."""


@dataclass(frozen=True)
class Layer:
    """One layer of a cube, which stands for one band of the piece.

    Parameters
    ----------
    number : int
        Of the band in the job, from 1; 0 for the neat cover.
    band : FillBand
        As it lies in the cube.
    glass, resin : float
        To the scale's step [kg].
    """

    number: int
    band: FillBand
    glass: float
    resin: float


@dataclass(frozen=True)
class Mix:
    """Resin that is mixed and poured at once.

    Parameters
    ----------
    layers : tuple of int
        Which layers it fills, counted from 0.
    batches : tuple of Batch
        To the scale's step, with what is lost on the way.
    """

    layers: tuple[int, ...]
    batches: tuple[Batch, ...]


@dataclass(frozen=True)
class Cube:
    """A test cube.

    Parameters
    ----------
    edge : float
        [m]
    grain : float
        Largest in it [m]; 0 without glass.
    fill : FillResult
        Of the cube, as if it were the piece.
    layers : tuple of Layer
        From the floor up.
    mixes : tuple of Mix
        In their order: glass never lies on neat resin that is still liquid.
    left_out : int
        Bands of the piece that are like another one and not shown.
    """

    edge: float
    grain: float
    fill: FillResult
    layers: tuple[Layer, ...]
    mixes: tuple[Mix, ...]
    left_out: int


def cube_of(fill: FillResult, edge: float | None = None, where: str = "") -> Cube:
    """Lay out a test cube for a fill.

    Parameters
    ----------
    fill : FillResult
        Of the piece.
    edge : float, optional
        The shop's own [m].
    where : str
        File and line of that.

    Returns
    -------
    Cube

    Raises
    ------
    UserError
        For an edge too small for the bands.
    """
    glass = fill.choices.glass
    numbered = list(zip(fill.choices.bands, fill.bands, strict=False))
    shown = list(enumerate(numbered, 1))
    if edge is None and _least_edge(fill.bands, glass) > CROWDED * _usual_edge(fill.bands, glass):
        shown = _kinds(shown)
    cover = fill.bands[len(fill.choices.bands) :]
    bands = (*(band for _, (_, band) in shown), *(cover if not shown[-1][1][1].neat else ()))
    side = _edge(bands, glass, edge, where, fill.choices)
    heights = layer_heights([band.upper - band.lower for band in bands], _least(bands, glass), side)
    made = _poured(fill.choices, [choice for _, (choice, _) in shown], heights, side)
    step = fill.choices.tools.scale_step
    numbers = [*(number for number, _ in shown), 0]
    layers = tuple(
        Layer(number, band, to_step(band.glass_mass, step), to_step(band.resin_mass, step))
        for number, band in zip(numbers, made.bands, strict=False)
    )
    return Cube(side, _largest(bands, glass), made, layers, _mixes(made), len(numbered) - len(shown))


def layer_heights(wanted: Sequence[float], least: Sequence[float], edge: float) -> tuple[float, ...]:
    """Share the height of a cube out to its layers.

    Parameters
    ----------
    wanted : sequence of float
        Heights in the piece, above 0 [m].
    least : sequence of float
        Least height of each layer [m]; together no more than the edge.
    edge : float
        [m]

    Returns
    -------
    tuple of float
        They sum to the edge: in proportion, but for those that would be lower than their least.

    Examples
    --------
    >>> [round(each, 3) for each in layer_heights([0.30, 0.09, 0.01], [0.02, 0.02, 0.006], 0.1)]
    [0.072, 0.022, 0.006]
    """
    held: set[int] = set()
    while True:
        free = sum(height for number, height in enumerate(wanted) if number not in held)
        left = edge - sum(least[number] for number in held)
        heights = [
            least[number] if number in held else height * left / free for number, height in enumerate(wanted)
        ]
        low = {number for number, height in enumerate(heights) if height < least[number] * (1 - 1e-12)}
        if low <= held:
            return tuple(heights)
        held |= low
        if len(held) == len(wanted):
            # all at their least: they are the whole edge, but for rounding
            more = edge / sum(least)
            return tuple(each * more for each in least)


def to_step(mass: float, step: float) -> float:
    """Round a mass to the scale's step [kg].

    Parameters
    ----------
    mass, step : float
        [kg]

    Returns
    -------
    float

    Examples
    --------
    >>> to_step(0.12345, 0.001), to_step(0.12345, 0.01)
    (0.123, 0.12)
    """
    return round(round(mass / step) * step, 9)


def _kinds(
    shown: list[tuple[int, tuple[BandChoice, FillBand]]],
) -> list[tuple[int, tuple[BandChoice, FillBand]]]:
    """Each kind of band once, where it comes first."""
    first: dict[tuple[str | None, str | None], tuple[int, tuple[BandChoice, FillBand]]] = {}
    for each in shown:
        first.setdefault((each[1][1].grade, each[1][1].colour), each)
    return list(first.values())


def _least(bands: Sequence[FillBand], glass: Glass) -> list[float]:
    """Least height of each layer; a neat cover at the top only has to cover one grain."""
    found = [
        CUBE["neat_layer"].value
        if band.grade is None
        else CUBE["layer_grains"].value * glass.grade(band.grade).sieve_to.value
        for band in bands
    ]
    if len(bands) > 1 and bands[-1].neat and not bands[-2].neat:
        found[-1] = min(bands[-1].upper - bands[-1].lower, _largest(bands[-2:-1], glass))
    return found


def _largest(bands: Sequence[FillBand], glass: Glass) -> float:
    return max((glass.grade(band.grade).sieve_to.value for band in bands if band.grade), default=0.0)


def _usual_edge(bands: Sequence[FillBand], glass: Glass) -> float:
    return max(CUBE["edge"].value, CUBE["grains"].value * _largest(bands, glass))


def _least_edge(bands: Sequence[FillBand], glass: Glass) -> float:
    return sum(_least(bands, glass))


def _edge(
    bands: Sequence[FillBand], glass: Glass, edge: float | None, where: str, choices: FillChoices
) -> float:
    least, step = _least_edge(bands, glass), ROUND[choices.units]
    if edge is None:
        return ceil(max(_usual_edge(bands, glass), least) / step - 1e-9) * step
    if least > edge:
        raise UserError(
            f"a test cube of {format_length(edge, choices.units)} is too small for its bands",
            where=where,
            allowed=f"{format_length(ceil(least / step - 1e-9) * step, choices.units)} or more",
            todo="three largest grains to a layer, so take a larger cube, or leave test_cube out",
        )
    return edge


def _poured(
    choices: FillChoices, bands: Sequence[BandChoice], heights: Sequence[float], edge: float
) -> FillResult:
    """Fill the cube as if it were the piece."""
    tops, level = [], 0.0
    for height in heights:
        level += height
        tops.append(level)
    cover = heights[-1] if len(heights) > len(bands) else 0.0
    laid = tuple(
        replace(band, to=None if number == len(bands) - 1 else tops[number], soft=None, shell=None)
        for number, band in enumerate(bands)
    )
    mesh = box([edge, edge, edge])
    made = replace(choices, bands=laid, neat_cover=cover, overfill=0.0)
    return design_fill(mesh, level_volume(mesh), made)


def _mixes(made: FillResult) -> tuple[Mix, ...]:
    """A new mix where glass comes onto neat resin, which has to gel first."""
    starts = [0]
    starts += [
        number
        for number, (below, above) in enumerate(pairwise(made.bands), 1)
        if below.neat and not above.neat
    ]
    found = []
    for first, after in pairwise([*starts, len(made.bands)]):
        lower, upper = made.bands[first].lower, made.bands[after - 1].upper
        mass = made.resin_between(lower, upper).total
        found.append(Mix(tuple(range(first, after)), made.batches(mass)))
    return tuple(found)
