"""What the shop has learnt, or taken back, since an answer was made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from pourwright.app.learnt.words import counted, name_of, phrase_of, shown
from pourwright.calibration.learning.record import Learned

Key = tuple[str, str]


def learnt_since(document: Mapping[str, Any], learned: Iterable[Learned], units: str) -> Iterator[str]:
    """Say of each number whether the shop has learnt another value since.

    Parameters
    ----------
    document : mapping
        A plan, a mold's or a fill's document.
    learned : iterable of Learned
        What it would be made with today.
    units : str
        ``metric`` or ``us``.

    Yields
    ------
    str
        A sentence for each number that reads otherwise now; none where only its count of records grew.
    """
    before = {
        _key(one): float(one["value"]) for one in document.get("learnt") or () if not one["kept_family"]
    }
    today = {(one.quantity, one.subject): one for one in learned if not one.kept_family}
    for key in {**before, **today}:
        yield from _anew(key, before.get(key), today.get(key), units)


def _key(one: Mapping[str, Any]) -> Key:
    return one["quantity"], one["subject"]


def _anew(key: Key, before: float | None, today: Learned | None, units: str) -> Iterator[str]:
    quantity, subject = key
    if today is None:
        yield f"what was learnt of your {name_of(quantity, subject)} was taken back"
        return
    now, phrase = shown(quantity, today.value, units), f"{phrase_of(today, units)}, from {counted(today)}"
    if before is None:
        yield f"your {name_of(quantity, subject)} was learnt since: {phrase}"
    elif (then := shown(quantity, before, units)) != now:
        yield f"your {name_of(quantity, subject)} was learnt anew: {phrase}; it was made with {then}"
