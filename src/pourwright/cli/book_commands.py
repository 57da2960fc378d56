"""Commands of the shop's book: enter what happened, look, count, take out and in."""

import re
from pathlib import Path
from typing import Any

import click

from pourwright.cli.options import AS_JSON, JOB, print_json

VARIANT = click.option("--variant", metavar="NAME", help="Of this variant; needed where several are planned.")


class _WithAmounts(click.Command):
    """A command after which amounts may stand that begin with a minus, and are no options then."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the arguments."""
        return super().parse_args(ctx, [re.sub(r"^-(?=[\d.])", "−", each) for each in args])


@click.command(cls=_WithAmounts)
@JOB
@click.argument("words", nargs=-1, metavar="[WHAT [VALUE]]")
@VARIANT
@click.option("--pour", type=click.IntRange(0), metavar="N", help="Else the pour that is under way.")
@click.option("--casting", type=click.IntRange(1), metavar="N", help="Else the piece that is under way.")
@click.option("--at", metavar='"YYYY-MM-DD HH:MM"', help="When it was, on the shop's clock; else now.")
@click.option("--dip", metavar="LENGTH", help="A level, as from the rim down to it.")
@click.option("--standing", metavar="LENGTH", help="A level, as from the floor of the piece as it stands.")
@click.option("--again", is_flag=True, help="Not the same as what somebody else has entered.")
@click.option(
    "--logger",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="What a temperature logger wrote, as CSV; attached to the pour and compared with the plan.",
)
@click.option(
    "--probe", multiple=True, metavar="NAME=PLACE", help="Where a sensor of it was, as core=middle."
)
@click.option("--unit", metavar="UNIT", help="Of the logger: degC or degF, where its titles do not say it.")
@click.option("--dates", metavar="ORDER", help='Of the logger: "day first" or "month first".')
@AS_JSON
def log(
    job: Path,
    words: tuple[str, ...],
    *,
    logger: Path | None,
    probe: tuple[str, ...],
    unit: str | None,
    dates: str | None,
    as_json: bool,
    **told: Any,
) -> None:
    """Enter what was weighed, poured, measured; show the log.

    WHAT is weigh, mixed, poured, caught, topped-up, clung, level, temperature, gel, bubbles, note, photo,
    step, demolded; rubber, mold-made; water, crushed, sieved or size, from which the shop learns; or correct,
    take-back. Without it the log is shown.

    \b
    Examples:
      pourwright log stool
      pourwright log stool weigh A "412 g"
      pourwright log stool poured "2.4 kg" --pour 2
      pourwright log stool level "85 mm"
      pourwright log stool level --dip "1 1/2 in"
      pourwright log stool level cannot-read
      pourwright log stool mold-made
      pourwright log stool water "3 L" --dip "85 mm"
      pourwright log stool correct 1a2b3c4d "2.3 kg"
      pourwright log stool take-back 1a2b3c4d
      pourwright log stool --pour 1 --logger core.csv --probe core=middle
    """
    from pourwright import app
    from pourwright.cli.book_tables import log_lines
    from pourwright.cli.measured_command import tell_measured
    from pourwright.cli.tables import show

    if logger is not None:
        _refuse_both(words, told)
        given = {key: told[key] for key in ("variant", "pour", "casting", "at")}
        tell_measured(app.log_logger(job, logger, probe, unit=unit, dates=dates, **given), as_json=as_json)
        return
    if probe or unit or dates:
        raise click.UsageError("--probe, --unit and --dates go with --logger")
    report = app.log_job(job, words, **told).to_json()
    if as_json:
        print_json(report)
        return
    show(log_lines(report))


def _refuse_both(words: tuple[str, ...], told: dict[str, Any]) -> None:
    if words or told["dip"] or told["standing"] or told["again"]:
        raise click.UsageError("--logger stands alone: enter the rest by itself")


SHOP = click.option(
    "--shop",
    type=click.Path(path_type=Path),
    default=".",
    metavar="FOLDER",
    help="The shop's folder; else the one you are in.",
)
OPENED = click.option("--opened", metavar="DAY", help="When it was opened, as 2026-12-01.")
EXPIRES = click.option("--expires", metavar="DAY", help="How long it keeps.")
NOTE = click.option("--note", metavar="TEXT", help="A few words; of a mold, its condition.")


@click.group()
def book() -> None:
    """Look into the shop's book; stock, molds, finished pieces; out and in.

    \b
    Examples:
      pourwright book show
      pourwright book stock
    """


def _tell(report: Any, lines: str, *, as_json: bool) -> None:
    from pourwright.cli import book_tables
    from pourwright.cli.tables import show

    if as_json:
        print_json(report)
    else:
        show(getattr(book_tables, lines)(report))


@book.command("show")
@SHOP
@AS_JSON
def show_command(*, shop: Path, as_json: bool) -> None:
    """Say what the book holds; what the jobs' journals hold besides is taken in first.

    \b
    Example:
      pourwright book show --shop shop
    """
    from pourwright import app

    _tell(app.show_book(shop), "book_lines", as_json=as_json)


@book.command()
@SHOP
@AS_JSON
def stock(*, shop: Path, as_json: bool) -> None:
    """Say what is on stock, what plans keep of it, what runs short and when.

    \b
    Example:
      pourwright book stock --shop shop
    """
    from pourwright import app

    _tell(app.tell_stock(shop), "stock_lines", as_json=as_json)


@book.command()
@click.argument("kind", metavar="KIND")
@click.argument("material", metavar="MATERIAL")
@click.argument("amount", metavar="[AMOUNT]", default="")
@SHOP
@click.option("--name", metavar="TEXT", help="What stands on the tub.")
@click.option("--colour", default="", metavar="NAME", help="Of glass.")
@click.option("--grade", default="", metavar="NAME", help="Of glass; of a kit its part, A or B.")
@click.option("--bought", metavar="DAY", help="Or made.")
@OPENED
@EXPIRES
@NOTE
@AS_JSON
def add(kind: str, material: str, amount: str, *, shop: Path, as_json: bool, **told: Any) -> None:
    """Put a new lot on stock.

    KIND is resin, rubber, glass, powder, board, consumable or mold; MATERIAL its id, of a mold its job.

    \b
    Examples:
      pourwright book add resin epoxy-slow-deep "10 kg" --grade A --bought 2026-11-02 --expires 2027-11-02
      pourwright book add glass soda-lime-crushed "12 kg" --colour green --grade coarse
      pourwright book add board plywood-18 "2440 mm x 1220 mm"
    """
    from pourwright import app

    given = {name: value for name, value in told.items() if value is not None}
    _tell(app.add_lot(shop, kind, material, amount, **given), "stock_lines", as_json=as_json)


@book.command()
@click.argument("lot", type=click.IntRange(1), metavar="LOT")
@click.argument("left", metavar="[LEFT]", required=False)
@SHOP
@click.option("--used", metavar="AMOUNT", help="What was taken out of it, for something that is in no log.")
@OPENED
@EXPIRES
@NOTE
@AS_JSON
def take(lot: int, left: str | None, *, shop: Path, as_json: bool, **told: Any) -> None:
    """Take stock: LEFT is what was counted or weighed of a LOT.

    \b
    Examples:
      pourwright book take 3 "4.2 kg"
      pourwright book take 3 --used "300 g"
      pourwright book take 3 --opened 2026-11-20 --expires 2027-02-20
      pourwright book take 7 --note "a tear at the rim, mended"
    """
    from pourwright import app

    _tell(app.take_lot(shop, lot, left, **told), "lot_lines", as_json=as_json)


@book.command()
@JOB
@VARIANT
@click.option("--casting", type=click.IntRange(1), metavar="N", help="Else the piece that comes next.")
@click.option("--free", "no_more", is_flag=True, help="Keep nothing for it any more.")
@AS_JSON
def reserve(job: Path, *, as_json: bool, **told: Any) -> None:
    """Keep on stock what the plan of a job needs.

    \b
    Example:
      pourwright book reserve stool
    """
    from pourwright import app

    _tell(app.reserve_job(job, **told), "stock_lines", as_json=as_json)


@book.command()
@JOB
@VARIANT
@click.option("--casting", type=click.IntRange(1), metavar="N", help="Else the last piece.")
@click.option("--mass", metavar="MASS", help="As weighed.")
@click.option("--at", metavar='"YYYY-MM-DD HH:MM"', help="When it was finished; else now.")
@click.option("--photo", type=click.Path(path_type=Path), metavar="FILE", help="Of the piece.")
@NOTE
@AS_JSON
def piece(job: Path, *, note: str | None, as_json: bool, **told: Any) -> None:
    """Give a finished piece its lasting number, and show its card.

    \b
    Example:
      pourwright book piece stool --mass "31.4 kg" --photo stool.jpg
    """
    from pourwright import app

    _tell(app.finish_piece(job, note=note or "", **told), "piece_lines", as_json=as_json)


OUT = click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="Where the PDF is written.")


@book.command()
@click.argument("number", type=click.IntRange(1), metavar="NUMBER")
@SHOP
@OUT
@AS_JSON
def card(number: int, *, shop: Path, out: Path | None, as_json: bool) -> None:
    """Write the card of a finished piece as a PDF, half a sheet.

    \b
    Example:
      pourwright book card 7 --out stool.pdf
    """
    from pourwright import app

    place = app.write_card(shop, number, out or Path(f"piece-{number}.pdf"))
    _tell({"written": str(place)}, "written_lines", as_json=as_json)


@book.command()
@click.argument("lots", type=click.IntRange(1), nargs=-1, metavar="[LOT ...]")
@SHOP
@OUT
@AS_JSON
def labels(lots: tuple[int, ...], *, shop: Path, out: Path | None, as_json: bool) -> None:
    """Write labels for tubs as a PDF, ten to a page: for each LOT, else for all that hold something.

    \b
    Examples:
      pourwright book labels
      pourwright book labels 3 7 12 --out labels.pdf
    """
    from pourwright import app

    place = app.write_labels(shop, lots, out or Path("labels.pdf"))
    _tell({"written": str(place)}, "written_lines", as_json=as_json)


@book.command()
@click.argument("target", type=click.Path(path_type=Path), metavar="TARGET")
@SHOP
@AS_JSON
def export(target: Path, *, shop: Path, as_json: bool) -> None:
    """Write everything: one JSON where TARGET ends in .json, else a folder of CSV tables and photos.

    \b
    Examples:
      pourwright book export book-2026.json
      pourwright book export tables
    """
    from pourwright import app

    _tell({"rows": app.export_book(shop, target), "to": str(target)}, "carried_lines", as_json=as_json)


@book.command("import")
@click.argument("source", type=click.Path(path_type=Path), metavar="SOURCE")
@SHOP
@click.option("--edited", is_flag=True, help="It was changed on purpose since it was written.")
@AS_JSON
def import_command(source: Path, *, shop: Path, edited: bool, as_json: bool) -> None:
    """Take everything back into an empty book, or nothing of it.

    \b
    Example:
      pourwright book import book-2026.json --shop new-shop
    """
    from pourwright import app

    rows = app.import_book(shop, source, edited=edited)
    _tell({"rows": rows, "from": str(source)}, "carried_lines", as_json=as_json)
