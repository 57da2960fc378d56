"""Decisions on the mold: rubber, box, what holds the master down."""

from __future__ import annotations

from importlib import import_module

_PUBLIC = {
    "DEFAULTS": "defaults",
    "MoldChoices": "choices",
    "HoldDown": "result",
    "MoldResult": "result",
    "Panel": "result",
    "RubberMix": "result",
    "Seam": "result",
    "RubberPour": "rubber",
    "design_mold": "design",
    "lifting_caution": "lifting",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
