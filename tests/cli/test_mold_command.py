"""The mold of a job on the command line: what it prints, writes, refuses, and leaves when it is stopped."""

import json
import signal
from functools import partial
from pathlib import Path

import numpy as np
import pytest

from pourwright.app.molding.folder import OF_A_MOLD
from pourwright.cli import main
from pourwright.geometry import Mesh, box, cone, joined
from pourwright.geometry.files.writers import stl_bytes
from tests.cli.asking import asked
from tests.cli.foreground import started
from tests.geometry.thin_bodies import wedge

JOB = """format = 1
[shape]
cone = { bottom_diameter = "200 mm", top_diameter = "240 mm", height = "150 mm" }
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""
PRICES = """[prices]
currency = "EUR"
rubber = "20 EUR/kg"
board = "40 EUR/piece"
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB)
    return path


told = partial(asked, "mold")


def shape_job(folder: Path, mesh: Mesh, extra: str = "") -> Path:
    """A job whose shape is a file."""
    (folder / "part.stl").write_bytes(stl_bytes(mesh))
    path = folder / "job.toml"
    table = JOB.split("\n")[2]
    path.write_text(JOB.replace(table, f'file = "part.stl"\nunit = "mm"\n{extra}'))
    return path


def lifted(mesh: Mesh, by: tuple[float, float, float]) -> Mesh:
    """A mesh somewhere else."""
    move = np.eye(4)
    move[:3, 3] = by
    return mesh.transformed(move)


def test_the_ways_come_first_with_one_to_take(job: Path) -> None:
    said = told(str(job))
    assert said.exit_code == 0, said.output
    lines = said.stdout.splitlines()
    assert "How it is made" in lines[2]
    assert sum(" * " in line for line in lines) == 1
    assert "Take one block, uncut, master hung" in said.stdout
    assert max(map(len, lines)) <= 110


def test_json_is_the_whole_answer(job: Path) -> None:
    answer = json.loads(told(str(job), "--json").stdout)
    ways = answer["ways"]["ways"]
    assert [way["id"] for way in ways if way["recommended"]] == [answer["ways"]["recommended"]]
    assert {way["way"] for way in ways} == {"block", "two-part", "skin"}
    for way in ways:
        assert way["work_low_h"] <= way["work_h"] <= way["work_high_h"]
        assert sum(step["work_h"] for step in way["steps"]) == pytest.approx(way["work_h"])
        assert way["casts_low"] <= way["casts"] <= way["casts_high"]
        # a null stands beside its reason
        assert (way["money"]["mold"] is None) == bool(way["money"]["missing"])
    assert answer["files"] == []


def test_money_stands_where_prices_are_given(job: Path) -> None:
    job.write_text(JOB + PRICES)
    block = json.loads(told(str(job), "--json").stdout)["ways"]["ways"][0]
    assert block["money"]["rubber"] == pytest.approx(20 * block["mixed_kg"], abs=0.01)
    # a sheet of 2.98 m2, and 15 % lost in saw cuts
    assert block["money"]["wood"] == pytest.approx(40 * 1.15 * block["board_m2"] / 2.98, abs=0.01)


def test_what_the_job_has_and_what_to_write_instead(job: Path) -> None:
    job.write_text(JOB + '[mold]\nway = "two-part"\n')
    said = told(str(job)).stdout
    assert 'Write [mold] way = "block", method = "hung"' in " ".join(said.split())
    assert "Two pours that part" in said


def test_few_casts_may_want_another_way(job: Path) -> None:
    """One cast of gypsum does not pay for a block; hundreds do."""
    gypsum = JOB.replace("epoxy-slow-deep", "gypsum-casting")
    taken = []
    for casts in (1, 150):
        job.write_text(f"{gypsum}[mold]\ncasts = {casts}\n")
        taken.append(json.loads(told(str(job), "--json").stdout)["ways"]["recommended"])
    assert taken == ["skin", "block-hung"]


def test_a_variant_is_chosen_by_name(job: Path) -> None:
    job.write_text(f'{JOB}[[variant]]\nname = "thin"\nmold.wall = "12 mm"\n[[variant]]\nname = "thick"\n')
    inside = []
    for name in ("thin", "thick"):
        way = json.loads(told(str(job), "--variant", name, "--json").stdout)["ways"]["ways"][0]
        inside.append(way["rubber_volume_m3"])
    assert inside[0] < inside[1]


def test_the_folder_is_written_and_a_foreign_one_is_left_alone(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "mold"
    said = told(str(job), "--out", str(out))
    assert said.exit_code == 0, said.output
    assert (out / "mold.pdf").read_bytes().startswith(b"%PDF")
    assert "<svg" in (out / "drawings" / "ways.svg").read_text()
    assert json.loads((out / "mold.json").read_text())["schema"] == "pourwright-mold/1.0"
    written = {path.relative_to(out).as_posix() for path in out.rglob("*") if path.is_file()}
    assert written <= {*OF_A_MOLD, "mold.json", "mold.pdf"}
    (out / "drawings" / "my-own.svg").write_text("<svg/>")
    assert told(str(job), "--out", str(out)).exit_code == 0
    assert (out / "drawings" / "my-own.svg").exists()
    foreign = tmp_path / "photos"
    foreign.mkdir()
    (foreign / "summer.jpg").write_bytes(b"x")
    refused(job, "--out", str(foreign))
    assert [path.name for path in foreign.iterdir()] == ["summer.jpg"]


def test_being_stopped_leaves_nothing_half_written(job: Path) -> None:
    running = started(job.parent, "mold", "job.toml", "--out", "mold")
    assert running.stderr is not None
    first = next(line for line in running.stderr if line.endswith("...\n"))
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=60)
    assert first == "reading the shape ...\n"
    assert running.returncode == 130, err
    assert out == ""
    assert [path.name for path in job.parent.iterdir()] == ["job.toml"]


def refused(job: Path, *arguments: str) -> None:
    """Refuse with exit status 2."""
    with pytest.raises(SystemExit) as left:
        main(["mold", str(job), *arguments])
    assert left.value.code == 2


BAD = {
    "a closed hollow": lambda: joined(
        [box([0.2, 0.2, 0.2]), turned_inside_out(lifted(box([0.05, 0.05, 0.05]), (0.0, 0.0, 0.07)))]
    ),
    "2 separate bodies": lambda: joined(
        [box([0.2, 0.2, 0.2]), lifted(box([0.1, 0.1, 0.1]), (0.5, 0.0, 0.0))]
    ),
    "too thin to fill": lambda: box([0.004, 0.004, 0.2]),
    "no flat face at the top": lambda: cone(0.1, 0.0, 0.2),
}


def turned_inside_out(mesh: Mesh) -> Mesh:
    """Faces that look the other way."""
    return Mesh(mesh.vertices, mesh.faces[:, ::-1])


@pytest.mark.parametrize("words", BAD)
def test_what_no_mold_can_hold_is_refused_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: str
) -> None:
    job = shape_job(tmp_path, BAD[words]())
    refused(job)
    last = capsys.readouterr().err.splitlines()[-1]
    assert words in last
    assert "job.toml:" in last
    assert "Traceback" not in last


def test_knife_edges_are_told(tmp_path: Path) -> None:
    """A wedge of 10 degrees, laid so that its flat side is the open face."""
    said = told(str(shape_job(tmp_path, wedge(10), 'up = "+x"')))
    other = told(str(shape_job(tmp_path, wedge(10), 'up = "-z"')))
    answers = [each.output for each in (said, other) if each.exit_code == 0]
    assert answers
    assert any("sharp" in answer or "edge" in answer for answer in answers)


def test_a_piece_that_stands_on_its_point_is_held_by_its_open_face(tmp_path: Path) -> None:
    answer = told(str(shape_job(tmp_path, cone(0.0, 0.1, 0.2))), "--json")
    assert json.loads(answer.stdout)["ways"]["recommended"] == "block-hung-space-blocks"


def test_a_piece_thinner_than_its_wall_has_a_mold(tmp_path: Path) -> None:
    answer = told(str(shape_job(tmp_path, box([0.2, 0.2, 0.008]))), "--json")
    block = json.loads(answer.stdout)["ways"]["ways"][0]
    # 240 x 240 mm inside, 3/4 in of rubber under 8 mm
    assert block["rubber_volume_m3"] == pytest.approx(0.24**2 * (0.008 + 0.01905) - 0.2**2 * 0.008)


def test_a_skin_is_told_and_not_planned(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job.write_text(JOB + '[mold]\nway = "skin"\n')
    assert told(str(job)).exit_code == 0
    for command in ("plan", "heat"):
        with pytest.raises(SystemExit) as left:
            main([command, str(job)])
        assert left.value.code == 2
        assert "mold.way" in capsys.readouterr().err.splitlines()[-1]
