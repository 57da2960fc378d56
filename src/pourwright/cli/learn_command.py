"""The command that learns from the shop's book."""

from pathlib import Path
from typing import Any

import click

from pourwright.cli.options import AS_JSON, print_json


@click.command()
@click.option(
    "--shop", type=click.Path(path_type=Path), default=".", metavar="FOLDER", help="Else the one you are in."
)
@click.option("--set-aside", metavar="ID", help="A record that is not to be learnt from.")
@click.option("--take-back", metavar="ID", help="A record that was set aside is learnt from again.")
@click.option(
    "--undo", type=click.IntRange(1), metavar="N", help="Take back what was learnt under this number."
)
@click.option("--units", type=click.Choice(["metric", "us"]), default="metric", help="Of what is printed.")
@AS_JSON
def learn(*, as_json: bool, **given: Any) -> None:
    """Say what the shop's own records make of its numbers; the next plan is made with it.

    \b
    Examples:
      pourwright book learn --shop shop
      pourwright book learn --set-aside 12:void_fraction
      pourwright book learn --undo 3
    """
    from pourwright import app

    report = app.learn_in_shop(**given)
    if as_json:
        print_json(report)
        return
    for one in report["learnt"]:
        click.echo(f"{one['number'] or '-':>4}  {one['words']}")
    for record in report["records"]:
        click.echo(f"      {record['id']}: {record['words']}")
    if not report["learnt"]:
        click.echo("nothing is learnt yet: log what is mixed, poured and read, and when it gels")
