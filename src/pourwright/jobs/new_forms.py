"""Shapes that a new job writes down, to be gone on with in the job file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import tomlkit

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length, parse_quantity
from pourwright.foundation.quantities import Dimension

_ROUND = {UnitSystem.METRIC: "3 mm", UnitSystem.US: "1/8 in"}


@dataclass(frozen=True)
class NewForm:
    """One shape that is asked for by name.

    Parameters
    ----------
    sizes : tuple of str
        What its sizes are called, in their order; the last one is its height.
    lines : callable
        Writes its lines, from sizes as the maker gave them and the units of what is printed.
    """

    sizes: tuple[str, ...]
    lines: Callable[[Sequence[str], UnitSystem], Iterator[str]]


def _text(value: str) -> str:
    return tomlkit.string(value).as_string()


def _cylinder(sizes: Sequence[str], _units: UnitSystem) -> Iterator[str]:
    across, height = map(_text, sizes)
    yield (
        f"cone = {{ bottom_diameter = {across}, top_diameter = {across}, height = {height} }}"
        "  # two diameters that differ make a cone"
    )


def _sphere(sizes: Sequence[str], _units: UnitSystem) -> Iterator[str]:
    yield f"sphere = {{ diameter = {_text(sizes[0])} }}  # stands on the ground"


def _turned(sizes: Sequence[str], units: UnitSystem) -> Iterator[str]:
    across, height = (parse_quantity(size, Dimension.LENGTH).si for size in sizes)

    def point(radius: float, share: float) -> str:
        lengths = (format_length(radius * across / 2, units), format_length(share * height, units))
        return "[" + ", ".join(map(_text, lengths)) + "]"

    yield "profile = [  # radius and height, from the bottom up: measure yours and put them here"
    yield f"  {point(0.7, 0)},  # the foot, a flat disc; a bare point ends a straight line"
    yield f"  {{ through = {point(0.9, 0.4)}, to = {point(1, 0.75)} }},  # an arc, by a point half-way"
    yield f'  {{ at = {point(1, 1)}, round = "{_ROUND[units]}" }},  # the top edge, rounded'
    yield "]"


def _outline(sizes: Sequence[str], units: UnitSystem) -> Iterator[str]:
    length, width, height = map(_text, sizes)
    none = _text("0 in" if units is UnitSystem.US else "0 mm")
    yield f"outline.height = {height}  # how high the outline is drawn up"
    yield f'outline.round_top = "{_ROUND[units]}"  # all edges around the top'
    yield "outline.points = [  # x and y, around the piece and back to the first point by itself"
    for x, y in ((none, none), (length, none), (length, width), (none, width)):
        yield f'  {{ at = [{x}, {y}], round = "{_ROUND[units]}" }},  # a rounded corner'
    yield "]"


NEW_FORMS: Mapping[str, NewForm] = MappingProxyType(
    {
        "cylinder": NewForm(("diameter", "height"), _cylinder),
        "sphere": NewForm(("diameter",), _sphere),
        "turned": NewForm(("largest diameter", "height"), _turned),
        "outline": NewForm(("length", "width", "height"), _outline),
    }
)
"""By the name that answers the first question."""


def form_height(name: str, sizes: Sequence[str]) -> float:
    """Check the sizes of a shape, and give its height.

    Parameters
    ----------
    name : str
        A key of `NEW_FORMS`.
    sizes : sequence of str
        As the maker gave them.

    Returns
    -------
    float
        [m]

    Raises
    ------
    UserError
        For sizes that are too few, too many, or none.

    Examples
    --------
    >>> form_height("cylinder", ["200 mm", "0.35 m"])
    0.35
    """
    wanted = NEW_FORMS[name].sizes
    if len(sizes) != len(wanted):
        example = " x ".join(["300 mm", "200 mm", "40 mm"][: len(wanted)])
        raise UserError(
            f"{len(sizes)} sizes for {name}", where="--size", allowed=" x ".join(wanted),
            todo=f'write "{example}"',
        )  # fmt: skip
    lengths = [parse_quantity(size, Dimension.LENGTH, where="--size").si for size in sizes]
    if min(lengths) <= 0:
        raise UserError("a size of nothing", where="--size", allowed="above 0", todo="mend it")
    return lengths[-1]
