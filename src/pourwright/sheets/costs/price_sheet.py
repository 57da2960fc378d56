"""The price sheet: for the maker alone, every line of the cost with its source, and the prices."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from pourwright.foundation.notation import format_amount
from pourwright.jobs.cost_line import CostLine, Trace
from pourwright.jobs.cost_price import Prices
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.costs.givens import SCRAP
from pourwright.sheets.document import PAPERS
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.parts_document import mark_of, set_pages
from pourwright.sheets.sharing import shared
from pourwright.sheets.wording import Wording

GAP = "?"
LONG = 60
PLACES = {
    "plan": "plan.json, ",
    "fill": "fill.json, ",
    "mold": "mold.json, ",
    "prices": "",
    "material": "material, ",
    "practice": "common practice without a source",
    "cost": "these lines, ",
}


def price_sheet_pdf(sheet: CostSheet, before: Sequence[str] = ()) -> bytes:
    """Set the price sheet; the same cost gives the same bytes.

    Parameters
    ----------
    sheet : CostSheet
        The cost of one variant.
    before : sequence of str
        What to mind before it is sold.

    Returns
    -------
    bytes
        A PDF file.
    """
    words, mark = Wording(sheet.job), mark_of(sheet)
    told = _Told(sheet, words)
    sold = {"title": "Before it is sold", "blocks": [{"text": text} for text in before]}
    pages = [*told.cost_pages(), *told.price_pages(), *([sold] if before else ()), *told.source_pages()]
    content: Page = {
        "paper": PAPERS[sheet.job.paper],
        "title": sheet.job.title,
        "variant": "" if sheet.job.variant == "main" else sheet.job.variant,
        "invented": sheet.job.invented or sheet.prices.invented,
        "made": f"Price sheet {mark}, made {words.dated(sheet.computed_for)}. For the shop, not for a buyer.",
        "footer": f"{sheet.job.title[:60]} · price sheet {mark}",
        "warnings": sheet.warnings,
        "cautions": [],
        "pages": shared(pages),
    }
    return set_pages(content, sheet.computed_for, {})


class _Told:
    """Fills the pages of one cost."""

    def __init__(self, sheet: CostSheet, words: Wording) -> None:
        self.sheet, self.words = sheet, words

    def money(self, amount: Decimal | None, *, code: bool = False) -> str:
        """Money as it is printed; a gap where it is not known."""
        return (
            GAP
            if amount is None
            else format_amount(amount, self.sheet.currency, self.words.system, code=code)
        )

    def signed(self, amount: Decimal) -> str:
        """Money with its sign."""
        return f"+{self.money(amount)}" if amount > 0 else self.money(amount)

    def cost_pages(self) -> Iterator[Page]:
        """What a good piece costs, line by line."""
        sheet, made = self.sheet, self.sheet.made
        late = [line for line in sheet.lines if line.stage == "piece" or line.key == SCRAP]
        cast = [line for line in sheet.lines if line not in late]
        short = "" if not sheet.totals.without else "without what has a ?"
        parts = (
            ("Into one casting", [line for line in cast if line.stage == "casting"], None),
            (
                f"The mold, its share of one casting: {round(made.casts, 1):g} share it",
                [line for line in cast if line.stage == "mold"],
                ("one casting begun", sheet.totals.casting),
            ),
            ("Once it is good", late, ("one good piece", sheet.totals.full)),
        )
        yield {
            "title": "What one good piece costs",
            "note": f"all in {sheet.currency}",
            "lead": f"{sheet.plan.words.capitalize()}; {self._list()}.",
            "facts": list(self._facts(short)),
            "blocks": [
                *(block for part in parts for block in self._part(*part)),
                {"sub": "How it is reckoned"},
                *({"text": text} for text in (sheet.rule, *sheet.notes)),
            ],
        }

    def _list(self) -> str:
        listed = self.sheet.prices
        if not listed.file:
            return "prices from the job file"
        return f"prices from {listed.file.rpartition('/')[2]}{', all invented' if listed.invented else ''}"

    def _facts(self, short: str) -> Iterator[dict[str, str]]:
        sheet = self.sheet
        yield fact("One good piece costs", self.money(sheet.totals.full), short)
        if sheet.price is not None:
            direct = sheet.price.ways[0]
            yield fact(
                "Price shown, sold directly", self.money(direct.shown), f"margin {_percent(direct.margin)}"
            )
        yield fact(
            "Work for a good piece", f"{sheet.made.hours:.1f} h", "mold's share and lost castings in it"
        )
        yield fact("One mold", self.money(sheet.totals.mold), f"gives {sheet.made.life:g} castings")

    def _part(
        self, title: str, lines: Sequence[CostLine], total: tuple[str, Decimal] | None
    ) -> Iterator[Page]:
        rows = [self._row(line) for line in lines]
        if total is not None:
            rows.append([total[0], "", "", self.money(total[1])])
        told = table(["", "amount", "price", self.sheet.currency], rows, "lrlr")
        told["marked"] = [False] * len(lines) + [True] * (total is not None)
        yield {"sub": title}
        yield {"table": told, "size": 9.2}

    def _row(self, line: CostLine) -> list[str]:
        if line.money is None:
            return [line.words, self._amount(line), "no price", GAP]
        if line.price is None:
            return [line.words, "", "", self.money(line.money)]
        old = ", old" if line.price.old else ""
        return [line.words, self._amount(line), f"{line.price.text}{old}", self.money(line.money)]

    def _amount(self, line: CostLine) -> str:
        return "" if line.amount is None else self.told(line.amount, line.unit)

    def told(self, value: float, unit: str) -> str:
        """An amount in the maker's units."""
        said = {"kg": self.words.mass, "h": self.words.duration, "m2": self.words.area}
        if unit in said:
            return said[unit](value)
        return f"{value:.6g}" if unit in {"piece", ""} else f"{value:.6g} {unit}"

    def price_pages(self) -> Iterator[Page]:
        """Prices, what moves them, and when the mold has come back."""
        price = self.sheet.price
        blocks: list[Page] = []
        if price is not None:
            blocks = [
                {"table": self._ways(price), "size": 9},
                *self._points(price),
                {"text": self._asked(price)},
                {"sub": "When the mold has come back"},
                {"text": f"{price.even.words} {price.even.month_words}"},
                {"sub": "The least for the next piece"},
                {"text": price.least.words},
            ]
        lead = "The price list wants no margin: write [sell]." if price is None else " ".join(price.words)
        yield {"title": "Price", "note": f"all in {self.sheet.currency}", "lead": lead, "blocks": blocks}
        if self.sheet.moves:
            yield {
                "title": "What moves it",
                "note": "each alone, the dearest first",
                "blocks": [{"table": self._moves(), "size": 9.6}],
            }

    def _ways(self, price: Prices) -> Page:
        heads = ["", "net", "tax", "shown", "you get", "profit", "margin", "mark-up"]
        rows = [
            [
                way.words,
                *(self.money(each) for each in (way.net, way.tax, way.shown, way.got, way.profit)),
                _percent(way.margin),
                _percent(way.markup),
            ]
            for way in price.ways
        ]
        return table(heads, rows, "lrrrrrrr")

    def _points(self, price: Prices) -> Iterator[Page]:
        rows = [
            [point.words, *map(self.money, (point.net, point.shown, point.profit)), _percent(point.margin)]
            for point in price.points
        ]
        if rows:
            yield {"sub": "Price points, sold directly"}
            yield {"table": table(["", "net", "shown", "profit", "margin"], rows, "lrrrr"), "size": 9}

    def _asked(self, price: Prices) -> str:
        if price.offered is None:
            return "The offer sheet leaves its price open: something is missing in the cost."
        return f"The offer sheet asks {self.money(price.offered.shown, code=True)}: {price.offered.words}."

    def _moves(self) -> Page:
        rows = [
            [move.words, self.signed(move.cost), "" if move.price is None else self.signed(move.price)]
            for move in self.sheet.moves
        ]
        return table(["", "cost", "price shown"], rows, "lrr")

    def source_pages(self) -> Iterator[Page]:
        """Where each amount and each price stands, and what both were made from."""
        sheet = self.sheet
        rows = list(self._places())
        yield {
            "title": "Where each number stands",
            "blocks": [{"table": table(["", "its amount", "its price"], rows, "lll"), "size": 8}],
        }
        used = [[source.citation, source.kind, source.used_for] for source in sheet.sources]
        made = [
            f"Made by version {sheet.version} for {self.words.dated(sheet.computed_for)}.",
            *(f"Made from {name}, sha256 {digest[:16]}…" for name, digest in sorted(sheet.inputs.items())),
        ]
        sources = {"table": table(["source", "kind", "used for"], used, "lll"), "size": 8.6}
        yield {"title": "From where", "blocks": [sources, *({"small": text} for text in made)]}

    def _places(self) -> Iterator[list[str]]:
        """A row for each line; what was told once is not told again."""
        told: dict[str, str] = {}
        for line in self.sheet.lines:
            if line.amount is not None or line.gap:
                place = self._amount_place(line.made_of)
                first = told.setdefault(place, line.words)
                again = first != line.words and len(place) > LONG
                yield [line.words, f"as for: {first}" if again else place, _price_place(line)]

    def _amount_place(self, made_of: Sequence[Trace]) -> str:
        if not made_of:
            return "one"
        if {trace.where for trace in made_of} == {"cost"}:
            return "all hours of this part, as they stand above"
        return "; ".join(map(self._place, made_of))

    def _place(self, trace: Trace) -> str:
        said = self.told(trace.value, trace.unit.replace("h/m2", "h")) + (
            "/m²" if trace.unit == "h/m2" else ""
        )
        path = "" if trace.where == "practice" else trace.path
        return f"{trace.words}: {said} ({PLACES[trace.where]}{path})"


def _price_place(line: CostLine) -> str:
    used = line.price
    if used is None:
        return line.gap
    more = ", ".join(filter(None, (used.date or "no date", used.note)))
    return f"{used.text} ({used.file}, line {used.line}, {more})"


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
