"""Decisions on the mold: rubber, box, what holds the master down."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.mold.choices import MoldChoices as MoldChoices
    from pourwright.mold.defaults import DEFAULTS as DEFAULTS
    from pourwright.mold.design import design_mold as design_mold
    from pourwright.mold.lifting import lifting_caution as lifting_caution
    from pourwright.mold.result import (
        HoldDown as HoldDown,
        MoldResult as MoldResult,
        Panel as Panel,
        RubberMix as RubberMix,
        Seam as Seam,
    )
    from pourwright.mold.rubber import RubberPour as RubberPour

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
