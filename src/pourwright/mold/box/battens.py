"""Battens on a panel, level or upright: how far it then bulges, and whether board and battens bear it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from pourwright.materials.records import Board
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.upright import Upright
from pourwright.physics.beams import BentBeam, evenly_growing, evenly_loaded, second_moment
from pourwright.physics.plate_edges import largest_moment
from pourwright.physics.plates import BentPlate

MOST_BATTENS = 12
Lie = Literal["level", "upright"]


@dataclass(frozen=True, kw_only=True)
class Battens:
    """Battens on one panel.

    Parameters
    ----------
    lie : str
        "level", the uppermost along the rim; or "upright", with one more along the rim to hold their tops.
    at : tuple of float
        Heights above the foot; or, of upright ones, from the left edge of what is wet, without that along
        the rim [m].
    bulge : float
        Of the panel with them [m].
    sags : tuple of float
        How far the most loaded level one bends, or an upright one and that along the rim [m].
    moment : float
        Largest in the board, per width [N].
    batten_stress : float
        Largest in a batten [Pa].
    end_force : float
        By which the end of the most loaded level one pulls at its corner [N].
    laths : float
        Length of lath for one panel [m].
    """

    lie: Lie
    at: tuple[float, ...]
    bulge: float
    sags: tuple[float, ...]
    moment: float
    batten_stress: float
    end_force: float
    laths: float

    @property
    def count(self) -> int:
        """How many, that along the rim counted."""
        return len(self.at) + (self.lie == "upright")


def battens_level(panel: Upright, stiffness: float, batten: Board, count: int) -> Battens:
    """Lay battens across the panel, evenly spaced, the uppermost at the rim.

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    stiffness : float
        Of the panel [N m].
    batten : Board
        Of the battens.
    count : int
        How many, that along the rim counted.

    Returns
    -------
    Battens
        Its bulge is the most that a batten bends and the lowest field between them, added: on the safe
        side, for the panel's own help to the battens counts for nothing.
    """
    field = panel.height / count
    # the uppermost takes a share of its one field only; a third covers it from a triangle to an even load
    loads = [float(panel.pressure(field * k)) * field for k in range(1, count)]
    loads.append(float(panel.pressure(field * (count - 1))) * field / 3.0)
    bent = evenly_loaded(max(loads), panel.width, batten.bending_modulus.value * _second_moment())
    lowest = panel.field(panel.width, 0.0, field, stiffness)
    at = tuple(field * k for k in range(1, count + 1))
    return _of("level", at, (bent,), lowest, max(loads) * panel.width / 2.0, count * panel.width)


def battens_upright(panel: Upright, stiffness: float, batten: Board, count: int) -> Battens:
    """Stand battens against the panel, evenly spaced, and one more along the rim that holds their tops.

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    stiffness : float
        Of the panel [N m].
    batten : Board
        Of the battens.
    count : int
        How many stand.

    Returns
    -------
    Battens
        Its bulge is that of the rim's batten, of one that stands and of the field between two, added.
    """
    field = panel.width / (count + 1)
    bending = batten.bending_modulus.value * _second_moment()
    load = panel.foot * field
    stands = evenly_growing(load, panel.height, bending)
    # what a load that grows downward rests on the rim: a sixth of it, from every field
    on_rim = panel.foot * panel.wet**2 / (6.0 * panel.height)
    rim = evenly_loaded(on_rim, panel.width, bending)
    between = panel.field(field, 0.0, panel.height, stiffness)
    at = tuple(field * k for k in range(1, count + 1))
    laths = count * panel.height + panel.width
    return _of("upright", at, (stands, rim), between, on_rim * panel.width / 2.0, laths)


def _of(
    lie: Lie,
    at: tuple[float, ...],
    beams: tuple[BentBeam, ...],
    field: BentPlate,
    end_force: float,
    laths: float,
) -> Battens:
    width, depth = BOX["batten_width"].value, BOX["batten_depth"].value
    return Battens(
        lie=lie,
        at=at,
        bulge=sum(beam.deflection for beam in beams) + field.largest[0],
        sags=tuple(beam.deflection for beam in beams),
        moment=largest_moment(field),
        batten_stress=max(beam.moment for beam in beams) * 6.0 / (width * depth**2),
        end_force=end_force,
        laths=laths,
    )


def _second_moment() -> float:
    return second_moment(BOX["batten_width"].value, BOX["batten_depth"].value)


def fewest(
    panel: Upright, stiffness: float, batten: Board, holds: Callable[[Battens], bool]
) -> Battens | None:
    """Find the battens that hold a panel with the least lath.

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    stiffness : float
        Of the panel [N m].
    batten : Board
        Of the battens.
    holds : callable
        Whether battens are enough.

    Returns
    -------
    Battens or None
        None where even twelve, level or upright, are too few.
    """
    found = list(_first_of_each(panel, stiffness, batten, holds))
    return min(found, key=lambda battens: battens.laths, default=None)


def _first_of_each(
    panel: Upright, stiffness: float, batten: Board, holds: Callable[[Battens], bool]
) -> Iterator[Battens]:
    for laid in (battens_level, battens_upright):
        tried = (laid(panel, stiffness, batten, count) for count in range(1, MOST_BATTENS + 1))
        first = next((battens for battens in tried if holds(battens)), None)
        if first is not None:
            yield first
