"""Where the numbers of a test cube go: keys that exist, lines that a job takes."""

import json
import types
from pathlib import Path
from typing import Annotated, Any, Union, get_args, get_origin

import pytest
from click.testing import CliRunner
from pydantic import BaseModel

from pourwright.cli.commands import pourwright
from pourwright.jobs import load_job
from pourwright.jobs.facts import Facts
from pourwright.jobs.facts_loading import load_facts
from pourwright.jobs.job import Job
from tests.cli.test_fill_command import JOB


def told(path: Path) -> dict[str, Any]:
    said = CliRunner().invoke(pourwright, ["fill", str(path), "--json"])
    assert said.exit_code == 0, said.output
    return json.loads(said.stdout)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


def models(kind: Any) -> list[type[BaseModel]]:
    """Tables inside a type, through lists, options and annotations."""
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return [kind]
    if get_origin(kind) in (Union, types.UnionType, Annotated, list, tuple):
        return [found for each in get_args(kind) for found in models(each)]
    return []


def known(model: type[BaseModel], path: str) -> bool:
    """Whether a dotted key is one of the file's."""
    name, _, rest = path.partition(".")
    fields = {field.alias or each: field for each, field in model.model_fields.items()}
    if name not in fields:
        return False
    return not rest or any(known(inner, rest) for inner in models(fields[name].annotation))


def test_a_key_that_does_not_exist_would_be_seen() -> None:
    assert known(Job, "band.bucket_test.mass")
    assert not known(Job, "band.bucket_test.weight")
    assert not known(Job, "fill.overfil")
    assert known(Facts, "cup.diameter")


def test_every_key_on_the_sheet_exists(job: Path) -> None:
    keys = [key for each in told(job)["cube"]["measures"] for key in each["goes_to"]]
    assert {"band.bucket_test.mass", "fill.overfill", "sizes.casting_shrinkage", "cup.file"} <= {*keys}
    for key in keys:
        assert known(Facts if key.startswith("cup.") else Job, key), key


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_lines_with_their_blanks_filled_in_are_taken(job: Path, tmp_path: Path, units: str) -> None:
    job.write_text(JOB.replace("format = 1\n", f'format = 1\nunits = "{units}"\n'))
    cube = told(job)["cube"]
    lines = cube["job_lines"]
    test = next(line for line in lines if line.startswith("bucket_test"))
    mass = cube["layers"][1]["glass_kg"] / (0.001 if units == "metric" else 0.028349523125)
    over, shrinks = (next(line for line in lines if line.startswith(k)) for k in ("overfill", "casting"))
    # the second band of the job is its glass
    assert "number 2 from the floor" in lines[0]
    filled = job.read_text().replace("void_fraction = 0.45", test.replace("____", f"{mass:.4f}"))
    filled = filled.replace("[fill]", "[fill]\n" + over.replace("____", "0.1"))
    job.write_text(filled + "[sizes]\n" + shrinks.replace("____", "0.1") + "\n")
    loaded = load_job(job)
    assert loaded.sizes.casting_shrinkage == pytest.approx(0.001)
    voids = cube["layers"][1]["void_fraction"]
    measured = 1.0 - loaded.band[1].bucket_test.mass.si / loaded.band[1].bucket_test.volume.si / 2500.0
    assert measured == pytest.approx(voids, abs=0.02)
    facts = tmp_path / "facts.toml"
    head = 'format = 1\nid = "mine"\nname = "Mine"\nfamily = "epoxy-slow-deep"\nsource = "cup"\n'
    text = "\n".join(cube["facts_lines"]).replace("____.csv", "cup.csv").replace("____", "10")
    (tmp_path / "cup.csv").write_text("time;temperature\n")
    facts.write_text(head + text + "\n")
    assert load_facts(facts).cup[0].file == "cup.csv"


def test_the_recipe_is_printed_with_blanks(job: Path) -> None:
    said = CliRunner().invoke(pourwright, ["fill", str(job)]).stdout
    assert "Pour a test cube first, 125 mm each way" in said
    assert max(map(len, said.splitlines())) <= 110


def test_a_cube_of_neat_resin_that_gets_too_hot_is_told(job: Path) -> None:
    glass = JOB[JOB.index('grade = "coarse"') : JOB.index("[fill]")]
    job.write_text(JOB.replace(glass, "neat = true\n").replace("[fill]", '[fill]\ntest_cube = "150 mm"'))
    answer = told(job)
    assert "gets hotter than" in " ".join(answer["warnings"])
    # a piece without glass still has a cube: for heat, sink and edge
    assert next(each["what"] for each in answer["cube"]["measures"]) == "resin in all"


def test_gypsum_has_no_cube(job: Path) -> None:
    job.write_text(JOB.replace("epoxy-slow-deep", "gypsum-casting"))
    assert told(job)["cube"] is None
