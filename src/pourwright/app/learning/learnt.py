"""Learn everything that a shop's records say; set one record aside, or take it back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from pourwright.app.learning.families import family_of
from pourwright.calibration.learning.learn import learn
from pourwright.calibration.learning.record import Family, Learned, Record
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.materials import Materials


def learn_all(records: Iterable[Record], materials: Materials) -> list[Learned]:
    """Learn every quantity of every subject that has records."""
    groups: dict[tuple[str, str], list[Record]] = {}
    for record in records:
        groups.setdefault((record.quantity, record.subject), []).append(record)
    found = []
    for (quantity, subject), group in sorted(groups.items()):
        family = _known(quantity, subject, materials)
        if family is not None and any(not record.aside for record in group):
            found.append(learn(group, family))
    return found


def _known(quantity: str, subject: str, materials: Materials) -> Family | None:
    """What holds before; None of a grade or a resin that the shop has taken out of its records since."""
    try:
        return family_of(quantity, subject, materials)
    except UserError:
        return None


def set_aside(records: Sequence[Record], record_id: str, *, aside: bool = True) -> list[Record]:
    """Set one record aside, or take it back in; the others stay as they are."""
    if record_id not in {record.id for record in records}:
        raise NotThereError(f"no record '{record_id}'", where="record", todo="look at the list for its id")
    return [replace(record, aside=aside) if record.id == record_id else record for record in records]
