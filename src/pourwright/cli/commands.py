"""The commands: each reads its options, calls app once, and prints."""

from datetime import datetime
from pathlib import Path
from typing import Any

import click

import pourwright as package
from pourwright.cli.book_commands import book, log
from pourwright.cli.cut_command import cut
from pourwright.cli.leak_command import leak
from pourwright.cli.learn_command import learn
from pourwright.cli.measured_command import measured
from pourwright.cli.moments import read_moment
from pourwright.cli.options import AS_JSON, JOB, list_files, print_json
from pourwright.cli.order_commands import buy, orders

BODY = click.option(
    "--body", type=click.IntRange(1), metavar="N", help="Of several bodies in a mesh file; 1 is the largest."
)
REMESH = click.option(
    "--remesh", metavar="LENGTH", help="Make the surface of a mesh file anew, so near to the old one."
)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package.__version__, message="%(prog)s %(version)s")
def pourwright() -> None:
    """From the shape of a piece to a pour plan a workshop can cast from.

    \b
    Start here:
      pourwright new stool --shape stool.stl --unit mm
      pourwright check stool/job.toml
      pourwright plan stool/job.toml
    """


@pourwright.command()
@click.argument("folder", type=click.Path(path_type=Path), metavar="NAME")
@click.option("--shape", metavar="FILE", help="A file, or: box, cylinder, sphere, turned, outline, measured.")
@click.option("--unit", metavar="UNIT", help="Unit of the numbers in the mesh file, such as mm or in.")
@BODY
@REMESH
@click.option("--size", metavar="SIZES", help="Of a shape without a file, as 200 mm x 350 mm.")
@click.option("--material", metavar="ID", help="Casting material.")
@click.option("--glass", metavar="BANDS", help="Grade and colour of each band from the floor up, or: none.")
@click.option("--shop-temperature", metavar="TEMPERATURE", help="What the thermometer in the shop shows.")
@click.option("--yes", is_flag=True, help="Ask nothing; take the default where an option is missing.")
@AS_JSON
def new(
    folder: Path, *, body: int | None, remesh: str | None, yes: bool, as_json: bool, **given: str | None
) -> None:
    """Ask five questions, write a job file NAME/job.toml.

    Each question has an option that answers it, so that this also runs with nobody at the keyboard.

    \b
    Examples:
      pourwright new stool --shape stool.stl --unit mm
      pourwright new lamp --shape box --size "8 in x 6 in x 10 in" --shop-temperature "68 degF" --yes
    """
    from pourwright import app
    from pourwright.cli.questions import Asker, five_questions

    shape, unit, answers = five_questions(Asker(given, take_defaults=yes), app.job_choices())
    handling = {name: said for name, said in (("body", body), ("remesh", remesh)) if said is not None}
    path = app.new_job(shape, unit, {**answers, **handling}, folder)
    if as_json:
        print_json({"job": str(path)})
    else:
        click.echo(f"wrote {path}: every line in it says why it is there; then\n  pourwright check {path}")


@pourwright.command()
@JOB
@click.option("--variant", metavar="NAME", help="Look at this variant of the job; else the first.")
@AS_JSON
@click.pass_context
def check(context: click.Context, job: Path, *, variant: str | None, as_json: bool) -> None:
    """Say in seconds whether the shape can be cast.

    Shows faults, what is missing, and every answer that needs no heat run. The exit status is 1
    when something stands in the way.

    \b
    Example:
      pourwright check stool/job.toml
    """
    from pourwright import app
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import check_lines, show

    with meter() as progress:
        report = app.check_job(job, progress, variant=variant).to_json()
    if as_json:
        print_json(report)
    else:
        show(check_lines(report))
    context.exit(any(finding["level"] == "stop" for finding in report["findings"]))


@pourwright.command()
@JOB
@click.option("--variant", metavar="NAME", help="Look at this variant of the job; else the first.")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Write sheet, pictures and bodies there."
)
@AS_JSON
def mold(job: Path, *, variant: str | None, out: Path | None, as_json: bool) -> None:
    """Say how the mold is made, without any heat run.

    Compares the ways to make it; rubber, box, seams, what holds the master, and how the piece
    comes out.

    \b
    Examples:
      pourwright mold stool/job.toml
      pourwright mold stool/job.toml --out stool/mold
    """
    from pourwright import app
    from pourwright.cli.meter import meter
    from pourwright.cli.mold_tables import mold_lines
    from pourwright.cli.tables import show

    with meter() as progress:
        report = app.mold_job(job, variant=variant, out=out, progress=progress).to_json()
    if as_json:
        print_json(report)
        return
    show(mold_lines(report))
    list_files(report["files"])


@pourwright.command()
@JOB
@click.option("--variant", metavar="NAME", help="Look at this variant of the job; else the first.")
@click.option(
    "--prices",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="The price list; else prices.toml beside the job or in a folder above it.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write price sheet, offer, spreadsheet and CSV there; of all variants, else of the one named.",
)
@click.option(
    "--new-list", metavar="CURRENCY", help="Write a prices.toml to fill in beside the job, in EUR, USD .."
)
@click.option("--risk", is_flag=True, help="What a month may bring in, the chance to lose money.")
@click.option("--all", "side_by_side", is_flag=True, help="All variants of the job in one table.")
@click.option("--trace", is_flag=True, help="Open each line down to where amount and price stand.")
@click.option("--quick", is_flag=True, help="Where a plan must be made for it: likeliest numbers only.")
@AS_JSON
def cost(
    job: Path, *, new_list: str | None, side_by_side: bool, trace: bool, as_json: bool, **options: Any
) -> None:
    """Say what a good piece costs, and what it is sold for.

    Kilograms and hours of the plan times the prices in prices.toml, line by line; margin, dealer,
    gallery; what moves it; when the mold has come back.

    \b
    Examples:
      pourwright cost stool/job.toml --new-list EUR
      pourwright cost stool/job.toml
      pourwright cost stool/job.toml --prices shop/prices.toml --json
      pourwright cost stool/job.toml --out stool/cost
      pourwright cost stool/job.toml --all
      pourwright cost stool/job.toml --risk
    """
    from pourwright import app
    from pourwright.cli.cost_tables import cost_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.risk_lines import risk_lines
    from pourwright.cli.tables import show

    if new_list is not None:
        _tell_new_list(app.new_prices(job, new_list), job, as_json=as_json)
        return
    if side_by_side:
        _cost_side_by_side(job, trace=trace, as_json=as_json, **options)
        return
    with meter() as progress:
        report = app.cost_job(job, progress=progress, **options).to_json()
    if as_json:
        print_json(report)
        return
    for one in report.get("costs") or [report]:
        show(cost_lines(one, trace=trace))
        if one["risk"]:
            show(risk_lines(one))
    list_files(report.get("files", []))


def _cost_side_by_side(
    job: Path,
    *,
    trace: bool,
    as_json: bool,
    variant: str | None,
    out: Path | None,
    risk: bool,
    **options: Any,
) -> None:
    from pourwright import app
    from pourwright.cli.cost_variants_tables import cost_variants_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    if variant is not None or out is not None or risk:
        raise click.UsageError("--all is a table of all variants: leave --variant, --out and --risk out")
    with meter() as progress:
        report = app.cost_variants(job, progress=progress, **options).to_json()
    if as_json:
        print_json(report)
        return
    show(cost_variants_lines(report, trace=trace))


def _tell_new_list(path: Path, job: Path, *, as_json: bool) -> None:
    if as_json:
        print_json({"prices": str(path)})
    else:
        click.echo(f"wrote {path}: fill in what you know; then\n  pourwright cost {job}")


@pourwright.command()
@JOB
@click.option("--variant", metavar="NAME", help="Look at this variant of the job; else the first.")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Write sheet and pictures there."
)
@click.option("--heat", is_flag=True, help="Run the heat of gypsum or concrete as it sets; some seconds.")
@AS_JSON
def fill(job: Path, *, variant: str | None, out: Path | None, heat: bool, as_json: bool) -> None:
    """Say what goes into the mold, without any heat run.

    Glass and resin of every band, what to have ready, where the resin goes; or powder, water and glass
    of gypsum and concrete, and with --heat how hot they get.

    \b
    Examples:
      pourwright fill stool/job.toml
      pourwright fill stool/job.toml --out stool/fill
      pourwright fill stool/job.toml --variant concrete --heat
    """
    from pourwright import app
    from pourwright.cli.fill_tables import fill_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    with meter() as progress:
        report = app.fill_job(job, variant=variant, out=out, heat=heat, progress=progress).to_json()
    if as_json:
        print_json(report)
        return
    show(fill_lines(report))
    list_files(report["files"])


@pourwright.command()
@JOB
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Where the files go; else JOB's plan."
)
@click.option(
    "--start",
    callback=lambda _, __, text: read_moment(text),
    metavar='"YYYY-MM-DD HH:MM"',
    help="Earliest first pour, on the shop's clock; else the job's, else the next working hour.",
)
@click.option("--variant", metavar="NAME", help="Plan this variant of the job only.")
@click.option("--fine", is_flag=True, help="Last heat run on a 4 mm grid: slower, smaller grid error.")
@click.option("--quick", is_flag=True, help="With the likeliest numbers only: seconds, but no chances.")
@click.option(
    "--what-if",
    "what_if",
    multiple=True,
    metavar="LINES",
    help="Look also at the job with these lines changed; may be given several times.",
)
@click.option("--processes", type=click.IntRange(min=1), metavar="N", help="At once; else one a processor.")
@click.option("--cluster", metavar="ADDRESS", help="Let a Dask cluster do the heat runs.")
@click.option("--no-cache", is_flag=True, help="Neither use nor keep heat runs.")
@AS_JSON
def plan(
    job: Path,
    *,
    out: Path | None,
    start: datetime | None,
    variant: str | None,
    fine: bool,
    quick: bool,
    what_if: tuple[str, ...],
    processes: int | None,
    cluster: str | None,
    no_cache: bool,
    as_json: bool,
) -> None:
    """Plan the pours; print the plan and write its sheets.

    \b
    Examples:
      pourwright plan stool/job.toml
      pourwright plan stool/job.toml --start "2026-12-01 09:00" --out friday --json
      pourwright plan stool/job.toml --what-if 'shop.night_temperature = "16 degC"'
    """
    from pourwright import app
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import plan_lines, show

    with meter() as progress:
        made = app.plan_job(
            job,
            out=out,
            start=start,
            variant=variant,
            fine=fine,
            quick=quick,
            what_if=what_if,
            processes=processes,
            cluster=cluster,
            no_cache=no_cache,
            progress=progress,
        )
    if as_json:
        print_json(made.to_json())
        return
    for answer in made.to_json().get("plans") or [made.to_json()]:
        show(plan_lines(answer))
    list_files(made.files)


@pourwright.command()
@JOB
@click.option("--variant", metavar="NAME", help="Run this variant of the job.")
@AS_JSON
@click.pass_context
def heat(context: click.Context, job: Path, *, variant: str | None, as_json: bool) -> None:
    """Run heat and cure with the values pinned in the job.

    A job that pins nothing is poured in one go. Nothing is written. The exit status is 1 when the
    resin runs away.

    \b
    Example:
      pourwright heat slab/job.toml --json
    """
    from time import perf_counter

    from pourwright import app
    from pourwright.cli.heat_tables import heat_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    with meter() as progress:
        begun = perf_counter()
        answer = app.heat_job(job, variant=variant, progress=progress).to_json()
        seconds = perf_counter() - begun
    if as_json:
        print_json(answer)
    else:
        show(heat_lines(answer, seconds))
    ran_away = answer["ending"]["why"] == "runaway"
    if ran_away:
        click.echo(answer["ending"]["text"], err=True)
    context.exit(ran_away)


@pourwright.command()
@click.argument("facts", type=click.Path(path_type=Path), metavar="FACTS")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Where the files go; else fit/ beside FACTS.",
)
@AS_JSON
def fit(facts: Path, *, out: Path | None, as_json: bool) -> None:
    """Fit a resin to its data sheet and its cup tests.

    Simulates the very tests that FACTS states, and says what each fact contributed, what stays
    uncertain, and which facts contradict each other. Writes a record for the shop's materials.

    \b
    Example:
      pourwright fit resin/facts.toml
    """
    from pourwright import app
    from pourwright.cli.fit_tables import fit_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    with meter() as progress:
        made = app.fit_resin(facts, out=out, progress=progress)
    if as_json:
        print_json(made.to_json())
        return
    show(fit_lines(made.to_json()))
    list_files(made.files)


@pourwright.command()
@click.argument("file", type=click.Path(path_type=Path), metavar="FILE")
@click.option("--unit", metavar="UNIT", help="Unit of the file's numbers; 3MF, GLB and STEP carry their own.")
@BODY
@REMESH
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Write its pictures and files there."
)
@AS_JSON
def shape(
    file: Path, *, unit: str | None, body: int | None, remesh: str | None, out: Path | None, as_json: bool
) -> None:
    """Say what a shape is: size, volume, weight, faults.

    FILE is a mesh file, or a job file for the shape it holds.

    \b
    Examples:
      pourwright shape part.stl --unit in
      pourwright shape scan.stl --unit mm --remesh "0.5 mm" --out scan
      pourwright shape stool/job.toml --out stool/shape
    """
    from pourwright import app
    from pourwright.cli.meter import meter
    from pourwright.cli.shape_tables import shape_lines
    from pourwright.cli.tables import show

    with meter() as progress:
        report = app.describe_shape(
            file, unit, body=body, remesh=remesh, out=out, progress=progress
        ).to_json()
    if as_json:
        print_json(report)
        return
    show(shape_lines(report))
    list_files(report["files"])


@pourwright.command("warm-up")
@AS_JSON
def warm_up(*, as_json: bool) -> None:
    """Compile once, so that the first plan need not.

    \b
    Example:
      pourwright warm-up
    """
    from pourwright import app
    from pourwright.cli.meter import meter

    with meter() as progress:
        seconds = app.warm_up(progress)
    if as_json:
        print_json({"seconds": seconds})
    else:
        click.echo(f"ready after {seconds:.0f} s")


@pourwright.command()
@click.argument("shop", type=click.Path(path_type=Path), metavar="FOLDER", default=".")
@click.option("--port", type=click.IntRange(0, 65535), metavar="N", help="Else 8420; 0 takes any free one.")
@click.option("--no-open", is_flag=True, help="Do not open the browser.")
@click.option("--lan", is_flag=True, help="Let paired phones in the network reach the bench.")
@click.option("--address", metavar="IP", help="Of this computer in its network; only with --lan.")
@click.option("--https", is_flag=True, help="Phones come by https, with a certificate made here; with --lan.")
def serve(
    shop: Path, *, port: int | None, no_open: bool, lan: bool, address: str | None, https: bool
) -> None:
    """Open the page: all jobs of a folder in the browser.

    FOLDER holds a folder for each job; it is the one you are in where left out. Only this computer can
    open the page; with --lan, phones that were paired reach bench, leak and what to saw, and nothing else.

    \b
    Examples:
      pourwright serve
      pourwright serve shop --port 9000 --no-open
      pourwright serve shop --lan
      pourwright serve shop --lan --https
    """
    import os
    from importlib import import_module

    # numba reads it once, when the first of its kernels is loaded
    os.environ["NUMBA_NUM_THREADS"] = "1"
    # the two faces do not know each other: this one hands over by name
    import_module("pourwright.web").serve(
        shop, port=port, open_browser=not no_open, lan=lan, address=address, https=https, say=click.echo
    )


pourwright.add_command(cut)
pourwright.add_command(leak)
pourwright.add_command(log)
pourwright.add_command(measured)
pourwright.add_command(orders)
pourwright.add_command(buy)
pourwright.add_command(book)
book.add_command(learn)
