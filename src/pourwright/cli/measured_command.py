"""The command that tells what loggers saw of a piece."""

from pathlib import Path
from typing import Any

import click

from pourwright.cli.options import AS_JSON, JOB, print_json


@click.command()
@JOB
@click.option("--variant", metavar="NAME", help="Of this variant; needed where several are planned.")
@click.option("--casting", type=click.IntRange(1), metavar="N", help="Which piece; else the last.")
@click.option(
    "--take-back", type=click.IntRange(1), metavar="N", help="This series watched another pour; it is kept."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write a drawing (SVG) and a table (CSV) of each series there.",
)
@AS_JSON
def measured(job: Path, *, as_json: bool, **given: Any) -> None:
    """Say what the loggers of a piece saw, against what its plan said, and what to do.

    A logger is attached with pourwright log JOB --logger FILE.

    \b
    Examples:
      pourwright measured stool
      pourwright measured stool --out stool/measured
      pourwright measured stool --take-back 3
    """
    from pourwright import app

    tell_measured(app.measured_job(job, **given), as_json=as_json)


def tell_measured(report: dict[str, Any], *, as_json: bool) -> None:
    """Print what loggers saw.

    Parameters
    ----------
    report : dict
        As ``pourwright-measured/1.0``.
    as_json : bool
        For programs.
    """
    if as_json:
        print_json(report)
        return
    several = [pour for pour in report["pours"] if pour["series"]]
    if not several:
        click.echo("no logger is attached yet: pourwright log JOB --pour N --logger FILE")
    for pour in several:
        click.echo(f"pour {pour['pour']}, went in {pour['when']}")
        for one in pour["series"]:
            _tell(one)
    for file in report.get("files", ()):
        click.echo(f"  {file}")


def _tell(one: dict[str, Any]) -> None:
    place = f" ({one['place']})" if one["place"] else ""
    if one["taken_back"]:
        click.echo(f"  {one['id']}: {one['name']}{place}, taken back")
        return
    click.echo(f"  {one['id']}: {one['name']}{place}, against {one['compared_with']}")
    for line in one["words"]:
        click.echo(f"     {line}")
