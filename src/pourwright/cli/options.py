"""What many commands share: their job, and an answer as JSON."""

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import click

JOB = click.argument("job", type=click.Path(path_type=Path), metavar="JOB")
AS_JSON = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON on stdout, and nothing else there."
)


def print_json(answer: Mapping[str, Any]) -> None:
    """Print an answer for programs.

    Parameters
    ----------
    answer : mapping
        What JSON can hold.
    """
    click.echo(json.dumps(answer, sort_keys=True, indent=2, ensure_ascii=False, allow_nan=False))


def list_files(files: Iterable[object]) -> None:
    """Name what was written, if anything was.

    Parameters
    ----------
    files : iterable
        Paths.
    """
    for number, path in enumerate(files):
        if number == 0:
            click.echo("Files:")
        click.echo(f"  {path}")
