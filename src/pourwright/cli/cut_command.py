"""The command that lists what is sawn."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from pourwright.cli.options import AS_JSON, JOB, list_files, print_json
from pourwright.foundation.errors import UserError

if TYPE_CHECKING:
    from pourwright.app import OffcutAsked


@click.command()
@JOB
@click.option("--variant", metavar="NAME", help="Look at this variant of the job; else the first.")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Write sheets and drawings there."
)
@click.option("--offcut", metavar="SIZE", help="Only say which parts fit on it: '900 mm x 450 mm'.")
@click.option("--board", metavar="ID", help="What the offcut is of; needed where parts are of several.")
@AS_JSON
def cut(
    job: Path, *, variant: str | None, out: Path | None, offcut: str | None, board: str | None, as_json: bool
) -> None:
    """List what is sawn, and from which sheets.

    Master from boards, box, space blocks and bars; in which order the saw goes, and how it comes
    together. With --offcut: which of the parts one offcut gives, its length along the grain.

    \b
    Examples:
      pourwright cut stool/job.toml
      pourwright cut stool/job.toml --out stool/cut
      pourwright cut stool/job.toml --offcut "900 mm x 450 mm"
    """
    from pourwright import app
    from pourwright.cli.cut_tables import cut_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import show

    asked = _offcut_of(offcut, board, out)
    with meter() as progress:
        if asked is None:
            report = app.cut_job(job, variant=variant, out=out, progress=progress).to_json()
        else:
            report = app.offcut_job(job, asked, variant=variant, progress=progress).to_json()
    if as_json:
        print_json(report)
        return
    show(cut_lines(report))
    list_files(report["files"])


def _offcut_of(size: str | None, board: str | None, out: Path | None) -> OffcutAsked | None:
    from pourwright import app

    if size is None and board is None:
        return None
    if size is None or out is not None:
        missing = "--board is of an offcut" if size is None else "an offcut has no folder of its own"
        raise UserError(missing, todo="leave one of the two out" if size else "add --offcut SIZE")
    return app.OffcutAsked(size, board)
