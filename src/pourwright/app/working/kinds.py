"""The kinds of long work there are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from pourwright.app.working import tasks
from pourwright.app.working.orders import FillOptions, NoOptions, PlanOptions


@dataclass(frozen=True)
class Kind:
    """A kind of long work.

    Parameters
    ----------
    what : str
        By which it is asked for.
    words : str
        What a person reads.
    do : callable
        Importable; given an `Order` and ``progress``, it answers with plain values.
    options : type
        What may be chosen.
    heavy : bool
        Whether it keeps the processors busy: of such work one goes on at a time.
    """

    what: str
    words: str
    do: Callable[..., dict[str, Any]]
    options: type[BaseModel] = NoOptions
    heavy: bool = True


KINDS = {
    kind.what: kind
    for kind in (
        Kind("plan", "planning the pours", tasks.plan, PlanOptions),
        Kind("mold", "working out the mold", tasks.mold),
        Kind("fill", "working out the fill", tasks.fill, FillOptions),
        Kind("cut", "working out what to saw", tasks.cut),
        Kind("read", "reading the shape", tasks.read, heavy=False),
    )
}
"""All of them, by name."""
