"""What the tickets say about the core of a hollow piece."""

from __future__ import annotations

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets.wording import Wording


def core_lines(plan: PlanDocument, words: Wording) -> list[str]:
    """Say how the core is held before the first pour.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    words : Wording
        The maker's units.

    Returns
    -------
    list of str
        One line, or none where the piece is solid.
    """
    core = plan.hollow
    if core is None:
        return []
    placed = f"Core taped all over, on its stubs, {words.length(core.wall_m)} from every wall"
    held = core.hold_down
    if not held.force_N:
        return [f"{placed}; it sinks by itself, the bar carries it."]
    weight, factor = words.load(held.weight_needed_kg), f"safety factor {held.safety_factor:g}"
    return [f"{placed}, held down with {weight} on its bar ({factor})."]


def insert_lines(plan: PlanDocument, words: Wording) -> list[str]:
    """Say what is set in before the first pour, and what must be held down.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    words : Wording
        The maker's units.

    Returns
    -------
    list of str
        One line, or none where nothing is set in.
    """
    if not plan.inserts:
        return []
    names = ", ".join(insert.name for insert in plan.inserts)
    floats = [insert for insert in plan.inserts if insert.weight_needed_kg > 0.0]
    held = [f"{insert.name} with {words.mass(insert.weight_needed_kg)}" for insert in floats]
    down = f"; held down: {', '.join(held)}" if held else ""
    return [f"Set in, plugged and taped: {names}{down}."]


def core_after(plan: PlanDocument) -> str:
    """Say when the core is let go, after the last pour."""
    if plan.hollow is None:
        return ""
    weight = " The weight on the core stays until all has set" if plan.hollow.hold_down.force_N else ""
    out = "" if plan.hollow.stays else " The core comes out of the hard piece"
    return "".join(f"{text}." for text in (weight, out) if text)
