"""The book as it is read in the terminal."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.app.booking.words import shown_amount
from pourwright.cli.tables import headline, remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def log_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out the log of a job.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    yield headline(report["job"])
    if report["entered"]:
        yield Text(
            f"entered, in the journal and in the book: {', '.join(one[:8] for one in report['entered'])}"
        )
    if not report["pours"]:
        yield Text("nothing is entered yet")
    for pour in report["pours"]:
        yield from _pour(report, pour, words)
    yield from remark_lines("Mind this", report["told"], "yellow")


def _pour(report: Part, pour: Part, words: Words) -> Iterator[RenderableType]:
    piece = f"piece {report['casting']}, " if len(report["castings"]) > 1 else ""
    title = "the piece as a whole" if pour["pour"] == 0 else f"pour {pour['pour']}"
    total = f": {_in_mold(pour, words)} in the mold" if pour["poured_kg"] else ""
    yield Text(f"\n{piece}{title}{total}", style="bold")
    table = Table(box=None, pad_edge=False)
    for column in ("when", "what", "", "from", "id"):
        table.add_column(column)
    for entry in pour["entries"]:
        table.add_row(*_cells(entry), style="dim strike" if entry["corrected_by"] else None)
    yield table


def _in_mold(pour: Part, words: Words) -> str:
    mass = words.mass(pour["poured_kg"])
    return mass if pour["weighed"] else f"about {mass} (give or take {words.mass(pour['poured_sd_kg'])})"


def _cells(entry: Part) -> tuple[str, ...]:
    said = "; ".join(part for part in (entry["value"], entry["text"]) if part)
    if entry["corrected_by"]:
        said += f" (corrected by {entry['corrected_by'][:8]})"
    return entry["when"], entry["what"], said, entry["source"], entry["id"][:8]


def book_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out what a book holds.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words, rows = Words(report["units"], report["time_zone"]), report["rows"]
    yield Text(f"{report['book']}, version {report['version']}", style="bold")
    yield Text(
        f"{rows['pours']} pours, {rows['entries']} entries, {rows['photos']} photos, {rows['lots']} lots"
    )
    if report["taken"]:
        yield Text(f"taken in from the journals: {report['taken']}")
    jobs = (
        (one["job"], one["variant"], str(one["castings"]), _when(one["last"], words))
        for one in report["jobs"]
    )
    yield from _listed("Jobs", ("job", "variant", "pieces", "last pour"), jobs)
    pieces = (
        (str(one["number"]), one["title"], _mass(one["mass_kg"], words), _when(one["finished"], words))
        for one in report["pieces"]
    )
    yield from _listed("Finished pieces", ("number", "title", "mass", "finished"), pieces)
    yield from _molds(report["molds"])
    yield from remark_lines("Mind this", report["told"], "yellow")


def stock_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out the stock.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words(report.get("units", "metric"), report.get("time_zone", "UTC"))
    if not report["lots"]:
        yield Text("nothing is on stock yet; put it there: pourwright book add")
    lots = (_lot(one, words) for one in report["lots"])
    columns = ("lot", "kind", "name", "left", "opened", "keeps until", "note")
    yield from _listed("Lots, the first to be used first", columns, lots)
    things = (
        (_thing(one), *(_amount(one[name], one["unit"], words) for name in ("left", "reserved", "free")))
        for one in report["things"]
    )
    yield from _listed("In all", ("what", "left", "kept for plans", "free"), things)
    short = [_short(one, words) for one in report["short"]]
    yield from _molds(report["molds"])
    yield from remark_lines("Runs short", short, "yellow")


def _short(one: Part, words: Words) -> str:
    missing = _amount(one["missing"], one["unit"], words)
    return f"{_thing(one)}: {missing} are missing from {_when(one['at'], words)}, first for {one['job']}"


def lot_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out one lot with its moves.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words(report.get("units", "metric"), report.get("time_zone", "UTC"))
    unit = next((one["unit"] for one in report["lots"] if one["lot"] == report["lot"]), "casts")
    moves = (
        (
            _when(one["at"], words),
            one["why"],
            _amount(one["change"], unit, words),
            _amount(one["left"], unit, words),
        )
        for one in report["history"]
    )
    yield from _listed(f"Lot {report['lot']}", ("when", "why", "change", "left"), moves)


def piece_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out the card of a finished piece.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words(report["units"], report["time_zone"])
    yield Text(f"Piece {report['number']}: {report['title']}", style="bold")
    said = {
        "begun": _when(report["begun"], words),
        "out of the mold": _when(report["demolded"], words),
        "finished": _when(report["finished"], words),
        "mass": _mass(report["mass_kg"], words),
        "resin poured": _mass(report["poured_kg"] or None, words),
        "photos": str(len(report["photos"])),
        "note": report["note"],
    }
    yield from _listed("", ("", ""), ((name, value) for name, value in said.items() if value))
    lots = (
        (str(one["lot"]), one["name"], _amount(one["amount"], one["unit"], words)) for one in report["lots"]
    )
    yield from _listed("Cast from", ("lot", "name", "amount"), lots)


def written_lines(report: Part) -> Iterator[RenderableType]:
    """Say where something was written.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    yield Text(f"written to {report['written']}")


def carried_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out what was written or taken in.

    Parameters
    ----------
    report : mapping
        The answer as JSON.

    Yields
    ------
    RenderableType
    """
    place = f"written to {report['to']}" if "to" in report else f"taken in from {report['from']}"
    yield Text(place)
    yield from _listed("", ("table", "rows"), ((name, str(count)) for name, count in report["rows"].items()))


def _listed(title: str, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[RenderableType]:
    table = Table(box=None, pad_edge=False, show_header=any(columns))
    for column in columns:
        table.add_column(column)
    for row in rows:
        table.add_row(*row)
    if table.row_count:
        yield Text(f"\n{title}" if title else "", style="bold")
        yield table


def _molds(molds: Iterable[Part]) -> Iterator[RenderableType]:
    rows = ((str(one["lot"]), one["name"], str(one["casts"]), one["condition"]) for one in molds)
    yield from _listed("Molds", ("lot", "name", "casts", "condition"), rows)


def _lot(lot: Part, words: Words) -> tuple[str, ...]:
    keeps = _day(lot["expires"], words) + (" GONE OFF" if lot["gone_off"] else "")
    left = _amount(lot["left"], lot["unit"], words)
    return str(lot["lot"]), lot["kind"], lot["name"], left, _day(lot["opened"], words), keeps, lot["note"]


def _thing(thing: Part) -> str:
    return " ".join(
        part for part in (thing["kind"], thing["material"], thing["colour"], thing["grade"]) if part
    )


def _amount(amount: float, unit: str, words: Words) -> str:
    return shown_amount(amount, unit, words.system)


def _mass(kilograms: float | None, words: Words) -> str:
    return "" if kilograms is None else words.mass(kilograms)


def _when(iso: str | None, words: Words) -> str:
    return "" if iso is None else words.moment(iso)


def _day(iso: str | None, words: Words) -> str:
    return "" if iso is None else words.day(iso)
