"""Decisions on glass and resin: bands, voids, masses, batches."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.fill.choices import (
        BandChoice as BandChoice,
        BucketTest as BucketTest,
        FillChoices as FillChoices,
    )
    from pourwright.fill.defaults import DEFAULTS as DEFAULTS
    from pourwright.fill.design import design_fill as design_fill
    from pourwright.fill.dipstick import DipRow as DipRow, dip_stick as dip_stick
    from pourwright.fill.minerals import MineralMix as MineralMix, mix_mineral as mix_mineral
    from pourwright.fill.parts import FillBand as FillBand, GlassLot as GlassLot, ResinLedger as ResinLedger
    from pourwright.fill.result import FillResult as FillResult
    from pourwright.fill.sifting import (
        sifted_void_fraction as sifted_void_fraction,
        sifts_through as sifts_through,
    )
    from pourwright.fill.wetted import wetted_area as wetted_area

_PUBLIC = {
    "DEFAULTS": "defaults",
    "BandChoice": "choices",
    "BucketTest": "choices",
    "FillChoices": "choices",
    "FillBand": "parts",
    "FillResult": "result",
    "GlassLot": "parts",
    "ResinLedger": "parts",
    "design_fill": "design",
    "DipRow": "dipstick",
    "dip_stick": "dipstick",
    "MineralMix": "minerals",
    "mix_mineral": "minerals",
    "sifted_void_fraction": "sifting",
    "sifts_through": "sifting",
    "wetted_area": "wetted",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
