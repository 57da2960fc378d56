"""The command that reckons a leak."""

from pathlib import Path
from typing import Any

import click

from pourwright.cli.options import AS_JSON, JOB, print_json


@click.command()
@JOB
@click.option("--variant", metavar="NAME", help="The variant that was poured; else the first.")
@click.option("--pour", type=click.IntRange(1), metavar="N", help="Which pour; else the last that has begun.")
@click.option("--begun", metavar="TIME", help="When it went in; else as planned.")
@click.option("--poured", multiple=True, metavar="MASS", help="A batch as it went in; once for each.")
@click.option("--mixed", multiple=True, metavar="MASS", help="A batch as weighed, before it left its pail.")
@click.option("--level", multiple=True, metavar="LENGTH", help="A level, up from the mold's floor.")
@click.option("--dip", multiple=True, metavar="LENGTH", help="A level, down from the rim.")
@click.option("--at", multiple=True, metavar="TIME", help="When each was read, in their order; else now.")
@click.option("--no-level", is_flag=True, help="At the last --at it could not be read below the glass.")
@click.option("--caught", metavar="MASS", help="What was found beside the mold, in all.")
@click.option("--hole", metavar="LENGTH", help="Where it runs out, up from the mold's floor.")
@click.option("--drips/--dry", default=None, help="What you see: it runs, or it does not.")
@click.option("--gelled", metavar="TIME", help="When it was seen to have gelled; else as planned.")
@click.option("--now", metavar="TIME", help="In the place of the clock.")
@click.option("--heat", is_flag=True, help="Run the heat of the top-up too; a minute.")
@click.option("--go-on", is_flag=True, help="Plan the pours that are left, from the state as told.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Where --go-on writes; else plan-goes-on.",
)
@AS_JSON
def leak(
    job: Path,
    *,
    variant: str | None,
    heat: bool,
    go_on: bool,
    out: Path | None,
    as_json: bool,
    **told: Any,
) -> None:
    """Say what is left in the mold, whether it still runs, and what saves the piece.

    Reads the plan beside JOB. Times are HH:MM for the last time the clock showed it, or YYYY-MM-DD HH:MM.

    \b
    Examples:
      pourwright leak stool/job.toml --poured "4.2 kg" --poured "2 kg" --level "212 mm" --at 07:05
      pourwright leak stool/job.toml --dip "9 in" --at 06:10 --dip "9 1/8 in" --at 07:05 --caught "1.3 lb"
      pourwright leak stool/job.toml --no-level --caught "1.3 kg" --drips
    """
    from pourwright import app
    from pourwright.cli.leak_lines import leak_lines
    from pourwright.cli.meter import meter
    from pourwright.cli.tables import plan_lines, show

    said = app.LeakTold(**told)
    answer = app.leak_told(job, said, variant=variant, heat=heat).to_json()
    if not as_json:
        show(leak_lines(answer))
    made = None
    if go_on:
        with meter() as progress:
            made = app.leak_goes_on(job, said, variant=variant, out=out, progress=progress)
    if as_json:
        print_json(answer if made is None else {"leak": answer, "plan": made.to_json()})
    elif made is not None:
        show(plan_lines(made.to_json()))
        for path in made.files:
            click.echo(f"  {path}")
