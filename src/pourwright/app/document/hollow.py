"""The core in the plan document, and the weight that the piece may have."""

from __future__ import annotations

from pourwright.app.hollow_limit import limit_words
from pourwright.app.hollow_part import Poured, hollow_part
from pourwright.app.insert_part import insert_parts
from pourwright.app.setup import Setup
from pourwright.jobs.plan_hollow import Hollow
from pourwright.jobs.plan_inserts import Insert
from pourwright.pour.defaults import DEFAULTS as POUR


def core_part(setup: Setup) -> Hollow | None:
    """Write the core of a piece that is cast hollow."""
    return None if setup.hollow is None else hollow_part(setup.hollow, _poured(setup), setup.piece_mass)


def too_heavy(setup: Setup) -> list[str]:
    """Say that the piece is heavier than `limits.weight`, and what would mend it; else nothing."""
    told = limit_words(setup.piece.mesh, _poured(setup), setup.piece_mass)
    return [told] if told else []


def inserts_part(setup: Setup) -> list[Insert]:
    """Write what is set into the casting."""
    warmest = setup.resin.cure.glass_transition_full.value - POUR["service_margin"].value
    factor, conductivity = setup.mold.choices.safety_factor, setup.resin.conductivity.value
    return insert_parts(setup.inserts, setup.fill.densest, factor, conductivity, warmest)


def _poured(setup: Setup) -> Poured:
    wet, factor = setup.fill.densest, setup.mold.choices.safety_factor
    solid, dry = setup.solid_fill, setup.resin.density.value
    return Poured(setup.job, setup.piece.levels, setup.fill, solid, wet, dry, factor)
