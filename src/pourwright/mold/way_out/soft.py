"""What a rubber bears: stiffness from its hardness, the nick that grows, tongues that tear off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from pourwright.geometry import ThinPart
from pourwright.materials import Rubber
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.physics.rubber_modulus import ModulusBand, modulus_band
from pourwright.physics.tear import notch_stretch, root_stress, trousers_energy

LEAST_SHORE, MOST_SHORE = 5.0, 80.0
"""Hardness that the relations hold for [Shore A]."""


@dataclass(frozen=True, slots=True)
class Soft:
    """What the rubber bears.

    Parameters
    ----------
    modulus : float
        Young's modulus [Pa].
    elongation : float
        At break [-].
    notch_strain : float
        Lengthening at which a nick in a cut edge grows [-].
    """

    modulus: float
    elongation: float
    notch_strain: float


@dataclass(frozen=True, slots=True)
class Tongue:
    """Rubber in a slot or hole of the piece, as it is pulled out.

    Parameters
    ----------
    part : ThinPart
        Its thickness, depth and place.
    count : int
        How many there are of its kind.
    force : float
        Pull on it, for a metre of a slot [N/m] or for one pin [N].
    stress : float
        At its root [Pa].
    margin : float
        What the root bears with a nick in it, by that stress [-].
    """

    part: ThinPart
    count: int
    force: float
    stress: float
    margin: float


def stiffness(rubber: Rubber) -> ModulusBand:
    """Young's modulus of a rubber with its band.

    Parameters
    ----------
    rubber : Rubber
        With its hardness.

    Returns
    -------
    ModulusBand
        The hardness's own range is in the band.
    """
    hardness, spread = rubber.hardness_shore_a, WAY_OUT["modulus_spread"].value
    low, high = hardness.low or hardness.value, hardness.high or hardness.value
    ends = [modulus_band(_held(value), spread) for value in (low, hardness.value, high)]
    return ModulusBand(ends[0].low, ends[1].likely, ends[2].high)


def bears(rubber: Rubber) -> Soft:
    """Say what a rubber bears.

    Parameters
    ----------
    rubber : Rubber
        The record.

    Returns
    -------
    Soft
    """
    found = stiffness(rubber)
    # a nick is judged on the safe side: the stiffest rubber that tears most easily
    grows = notch_stretch(found.high, least_tearing_energy(rubber), WAY_OUT["nick"].value) - 1.0
    return Soft(found.likely, rubber.elongation_at_break.value, grows)


def least_tearing_energy(rubber: Rubber) -> float:
    """Energy that a rubber takes to tear at least [J/m2], from the tear strength of its data sheet."""
    share, strength = WAY_OUT["trousers_share"], rubber.tear_strength
    return trousers_energy((share.low or share.value) * (strength.low or strength.value))


def tongues(parts: Iterable[tuple[ThinPart, int]], rubber: Rubber) -> tuple[Tongue, ...]:
    """Hold tongues of rubber against the pull that draws them out of their slots.

    Parameters
    ----------
    parts : iterable of ThinPart and int
        Slots and holes of the piece, and how many of each.
    rubber : Rubber
        The record.

    Returns
    -------
    tuple of Tongue
        The worst first.
    """
    bearable = _bearable(rubber)
    found = (_tongue(part, count, bearable) for part, count in parts if part.stands)
    return tuple(sorted(found, key=lambda tongue: tongue.margin))


def _tongue(part: ThinPart, count: int, bearable: float) -> Tongue:
    assert part.stands is not None
    stress = root_stress(part.stands, part.thickness, WAY_OUT["grip"].value, float(part.pin))
    section = pi / 4 * part.thickness**2 if part.pin else part.thickness
    return Tongue(part, count, stress * section, stress, bearable / stress)


def _bearable(rubber: Rubber) -> float:
    """Stress by the section at rest at which a nick grows, or the rubber breaks [Pa]."""
    soft = bears(rubber)
    ratio = 1.0 + soft.notch_strain
    return min(soft.modulus / 3.0 * (ratio - 1.0 / ratio**2), rubber.tensile_strength.value)


def _held(shore: float) -> float:
    return min(max(shore, LEAST_SHORE), MOST_SHORE)
