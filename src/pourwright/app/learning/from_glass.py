"""How much of what is crushed comes out as which grade."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.calibration.learning.record import Record
from pourwright.records import Entry


def yields_of(entries: Sequence[Entry], pour_id: str) -> Iterator[Record]:
    """Compare what was sieved with what was crushed before; one record for each grade of each crushing.

    Parameters
    ----------
    entries : sequence of Entry
        In their order; what was sieved belongs to the crushing before it and names its grade.
    pour_id : str
        By which the records are named.

    Yields
    ------
    Record
        Share of the crushed glass; nothing where as much or more came out as went in.
    """
    crushed: Entry | None = None
    sums: dict[tuple[str, str], float] = {}
    went_in: dict[str, Entry] = {}
    for entry in entries:
        if entry.kind == "crushed" and entry.value:
            crushed = entry
            went_in[entry.id] = entry
        elif entry.kind == "sieved" and entry.value and crushed is not None:
            key = (crushed.id, entry.text)
            sums[key] = sums.get(key, 0.0) + entry.value
    for (number, grade), mass in sums.items():
        of = went_in[number]
        share = mass / (of.value or mass)
        if share < 1.0:
            yield Record(
                id=f"{pour_id}:crush_yield {grade} {number[:8]}",
                quantity="crush_yield",
                subject=grade,
                value=share,
                at=of.at.isoformat(),
            )
