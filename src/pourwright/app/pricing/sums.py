"""All lines of a cost with their sums."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from pourwright.app.pricing.hours import hours
from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.overhead import overheads
from pourwright.app.pricing.running import Running, running
from pourwright.app.pricing.things import things
from pourwright.costing.lines import ONE, PRACTICE, SCRAP, Cost, Line, Run, cost_of, practised
from pourwright.foundation.notation import format_share
from pourwright.jobs.cost_line import CostLine

ORDER = {"casting": 0, "mold": 1, "piece": 2}


@dataclass(frozen=True)
class Sums:
    """What a piece costs.

    Parameters
    ----------
    look : CostLook
        What it is told from.
    entries : tuple of Entry
        All lines.
    running : Running
        How many are made and fail.
    cost : Cost
        Of one good piece.
    """

    look: CostLook
    entries: tuple[Entry, ...]
    running: Running
    cost: Cost

    def again(self, wanted: Callable[[Entry], bool], run: Run | None = None, *more: Line) -> Cost:
        """The cost of some lines only, of another run, or of more lines."""
        lines = [entry.line for entry in self.entries if wanted(entry)]
        return cost_of([*lines, *more], run or self.running.run, self.look.quotes.currency)

    @property
    def mold(self) -> Decimal:
        """Money of one mold, all of it."""
        moneys = (entry.line.money for entry in self.entries if entry.stage == "mold")
        return sum((money for money in moneys if money is not None), Decimal(0))

    @property
    def gaps(self) -> dict[str, list[str]]:
        """What is in no sum, in words, by what to write for it."""
        none_known = all(entry.told_gap for entry in self.entries if entry.kind == "work")
        found: dict[str, list[str]] = {}
        for entry in self.entries:
            if entry.told_gap:
                name = entry.kind if entry.kind == "overhead" else entry.words
                name = "all hours" if entry.kind == "work" and none_known else name
                found.setdefault(entry.told_gap, []).append(name)
        return {gap: list(dict.fromkeys(names)) for gap, names in found.items()}

    @property
    def missing(self) -> list[str]:
        """What is in no sum, in words."""
        return [name for names in self.gaps.values() for name in names]

    @property
    def hours(self) -> Decimal:
        """Worked for one good piece, the mold's share and lost castings in it."""
        run = self.running.run
        totals = {stage: self._worked(stage) for stage in ORDER}
        cast = totals["mold"] / run.casts + totals["casting"] * practised("casting", run)
        finishing = totals["piece"] * practised("piece", run)
        return cast * run.starts + finishing * (run.starts if run.found_finished else ONE)

    def _worked(self, stage: str) -> Decimal:
        of = (entry.amount for entry in self.entries if entry.stage == stage and entry.kind == "work")
        return sum((amount for amount in of if amount is not None), Decimal(0))


def sums_of(look: CostLook) -> Sums:
    """Put all lines together and add them up."""
    work = list(hours(look))
    entries = [*things(look), *work, *overheads(look, work)]
    ordered = tuple(sorted(entries, key=lambda entry: ORDER[entry.stage]))
    how = running(look)
    cost = cost_of([entry.line for entry in ordered], how.run, look.quotes.currency)
    return Sums(look, ordered, how, cost)


def line_parts(sums: Sums) -> Iterator[CostLine]:
    """Every line of the document, sums of practice and scrap among them."""
    by_key = {entry.key: entry for entry in sums.entries}
    for share in sums.cost.shares:
        entry = by_key.get(share.key)
        if entry is None:
            yield CostLine(
                key=share.key, stage=share.stage, words=_made_words(share.key, sums), amount=None, unit="",
                exact=share.exact, money=share.money,
            )  # fmt: skip
            continue
        yield CostLine(
            key=entry.key,
            stage=entry.stage,
            words=entry.words,
            amount=None if entry.amount is None else float(entry.amount),
            unit=entry.unit,
            shared=float(sums.running.run.casts) if entry.stage == "mold" else 1.0,
            made_of=list(entry.made_of),
            price=entry.price,
            exact=share.exact,
            money=share.money,
            gap=entry.told_gap,
        )


def _made_words(key: str, sums: Sums) -> str:
    run = sums.running.run
    if key == SCRAP:
        lost = format_share(float(run.scrap), digits=0 if run.scrap * 100 % 1 == 0 else 1)
        return f"{float(run.starts):.3f} castings begun for a good piece: {lost} fail"
    of = "casting" if key == f"{PRACTICE}-casting" else "finishing"
    less = ONE - practised("casting" if of == "casting" else "piece", run)
    return (
        f"practice at {of}: hours fall by {format_share(float(less))} on average over a run of {run.pieces}"
    )
