"""Decisions on glass and resin: bands, voids, masses, batches."""

from __future__ import annotations

from importlib import import_module

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
