"""The core of a hollow piece, as rows of facts in the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.cli.words import Words


def hollow_rows(part: Mapping[str, Any] | None, words: Words) -> Iterator[tuple[str, str]]:
    """Tell a core: its wall, what it spares, what holds it down.

    Parameters
    ----------
    part : mapping or None
        The part `hollow` of a plan.
    words : Words
        The maker's units.

    Yields
    ------
    tuple
        Name and what holds for it; nothing where the piece is solid.
    """
    if part is None:
        return
    told = [f"{words.mass(part['hollow_kg'])} instead of {words.mass(part['solid_kg'])}"]
    if part["resin_saved_kg"]:
        told.append(f"{words.mass(part['resin_saved_kg'])} less resin")
    if part["money_saved"] is not None:
        told.append(f"{part['money_saved']:.0f} {part['currency']} less")
    yield "Hollow", f"to {words.length(part['wall_m'])}: {', '.join(told)}"
    yield "Core", f"{words.volume(part['core_m3'])} of {part['material_name']}; {_held(part, words)}"


def _held(part: Mapping[str, Any], words: Words) -> str:
    held = part["hold_down"]
    if not held["force_N"]:
        return "it sinks by itself, the bar carries it"
    lift, weight = words.force(held["force_N"]), words.mass(held["weight_needed_kg"])
    return f"it is lifted with {lift}; {weight} on its bar, safety {held['safety_factor']:g}"
