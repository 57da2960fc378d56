"""Both ways of filling one band of glass, for the tests of several rooms."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from pourwright.app.filling.look import FillLook, look_at_fill
from pourwright.app.filling.ways import ways_look
from pourwright.app.shaping.piece import read_piece
from pourwright.app.which import chosen_variants
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.fill_ways import BandWays, Filling

JOB = """format = 1
[shape]
box = ["200 mm", "150 mm", "{depth:g} mm"]
[casting]
material = "{resin}"
[[band]]
to = "top"
grade = "{grade}"
colour = "green"
[fill]
neat_cover = "0 mm"
[shop]
temperature = "{degrees:g} degC"
"""


@cache
def look_of(grade: str, resin: str, depth: float, degrees: float) -> FillLook:
    """A block of one grade, read from a job file."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "job.toml"
        path.write_text(JOB.format(grade=grade, resin=resin, depth=1000.0 * depth, degrees=degrees), "utf8")
        job = chosen_variants(load_job(path), None)[0]
        return look_at_fill(job, read_piece(job))


def with_viscosity(look: FillLook, thick: float) -> FillLook:
    """The same with a resin that is so thick [Pa s] at 25 degC; its cure stays."""
    setup = look.setup
    assert setup is not None
    resin = replace(setup.resin, viscosity=replace(setup.resin.viscosity, value=thick))
    choices = replace(setup.fill.choices, resin=resin)
    return replace(look, setup=replace(setup, fill=replace(setup.fill, choices=choices)))


def filling_of(
    *,
    grade: str = "medium",
    resin: str = "epoxy-medium",
    depth: float = 0.1,
    degrees: float = 20.0,
    thick: float | None = None,
) -> Filling:
    """The part of the fill's document."""
    look = look_of(grade, resin, depth, degrees)
    found = ways_look(look if thick is None else with_viscosity(look, thick), SILENT)
    assert found is not None
    return found


def both_ways(**more) -> BandWays:
    """Both ways of the one band."""
    return filling_of(**more).bands[0]
