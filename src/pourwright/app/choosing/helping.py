"""What is said beside every field: one sentence, why it matters, a typical value and its source."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from pourwright.app.choosing.catalogue import Choice, choices
from pourwright.foundation.sources import Kind, load_sources

NO_SOURCE, FROM_MEMORY = "common practice, no source", "from memory"
_PLAINLY: Mapping[str, str] = MappingProxyType({str(Kind.PRACTICE): NO_SOURCE, str(Kind.MEMORY): FROM_MEMORY})
_OWN = frozenset({"common-practice", "families-from-memory"})


def help_document() -> dict[str, Any]:
    """Tell the help of every field.

    Returns
    -------
    dict
        ``label``, ``sentence``, ``why``, ``typical`` and ``source`` by key.
    """
    return {key: help_of(choice) for key, choice in choices().items()}


def help_of(choice: Choice) -> dict[str, str]:
    """Tell the help of one field.

    Parameters
    ----------
    choice : Choice
        The field.

    Returns
    -------
    dict
        From its own entry, or from how its key is declared.
    """
    told, extra = choice.help, choice.extra
    meaning = str(choice.info.description or "")
    return {
        "label": choice.label,
        "sentence": str(told.get("sentence") or f"{meaning[:1].upper()}{meaning[1:]}."),
        "why": str(told.get("why") or extra.get("why", "")),
        "typical": str(told.get("typical") or choice.default),
        "source": source_of(told if "source" in told else extra),
    }


def source_of(entry: Mapping[str, Any]) -> str:
    """Say where a typical value comes from.

    Parameters
    ----------
    entry : Mapping
        With ``kind`` and ``source``; without them it is the program's own choice.

    Returns
    -------
    str
        A citation, or that there is none.
    """
    kind, key = str(entry.get("kind", Kind.PRACTICE)), str(entry.get("source", "common-practice"))
    if key in _OWN:
        return _PLAINLY.get(kind, kind)
    return load_sources()[key].printed
