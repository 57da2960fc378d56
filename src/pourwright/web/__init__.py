"""The page: a request becomes one call of app, its result a page or JSON; nothing else speaks HTTP."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.web.application import make_app as make_app
    from pourwright.web.command import serve as serve

_PUBLIC = {"make_app": "application", "serve": "command"}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
