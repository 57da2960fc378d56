"""What a careless maker asks for: refused early, in one line, with nothing lost or half-written."""

import json
from pathlib import Path

import pytest

from pourwright.app import check_job
from pourwright.app.plan_folder import PLAN_FOLDER, write_plan
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, joined
from tests.app.conftest import NOW, SMALL
from tests.app.making import plan_quickly

POT = (
    'profile = [["0 mm", "0 mm"], ["60 mm", "0 mm"], ["60 mm", "100 mm"], ["45 mm", "100 mm"], '
    '["45 mm", "15 mm"], ["0 mm", "15 mm"]]'
)
BOX = 'box = ["80 mm", "60 mm", "50 mm"]'
NEAT = SMALL.replace('to = "30 mm"\ngrade = "medium"\ncolour = "green"\n[[band]]\n', "")


def written(path: Path, text: str) -> Path:
    path.write_text(text, "utf8")
    return path


def stl(mesh: Mesh, path: Path) -> Path:
    """Write a mesh in millimetres as text."""
    lines = ["solid body"]
    for triangle in mesh.triangles * 1000:
        corners = "".join(f"vertex {x:.6f} {y:.6f} {z:.6f}\n" for x, y, z in triangle)
        lines.append(f"facet normal 0 0 0\nouter loop\n{corners}endloop\nendfacet")
    return written(path, "\n".join([*lines, "endsolid body\n"]))


def refused(job: Path, **options: object) -> str:
    with pytest.raises(UserError) as caught:
        plan_quickly(job, now=NOW, **options)
    assert sorted(path.name for path in job.parent.iterdir() if path.is_dir()) == []
    return str(caught.value)


def stops(job: Path) -> list[str]:
    findings = check_job(job).to_json()["findings"]
    return [found["text"] for found in findings if found["level"] == "stop"]


def test_a_pot_with_its_mouth_up_cannot_be_cast_in_one_block(small):
    written(small, NEAT.replace(BOX, POT))
    (text,) = stops(small)
    assert "only opens at the top: the rubber in it would hang on nothing" in text
    assert "turn the piece with shape.up" in text
    assert "job.toml:5 shape: a hollow of 541 ml" in refused(small)


def test_the_same_pot_turned_over_can(small):
    written(small, NEAT.replace(BOX, POT + '\nup = "-z"'))
    assert stops(small) == []


def test_a_closed_hollow_is_refused(small):
    hollow = joined([box([0.1, 0.1, 0.1]), box([0.04, 0.04, 0.04]).moved([0, 0, 0.03]).reversed()])
    stl(hollow, small.parent / "hollow.stl")
    written(small, NEAT.replace(BOX, 'file = "hollow.stl"\nunit = "mm"'))
    assert "a closed hollow of 64 ml, 50 mm above the mold's floor" in stops(small)[0]
    assert "make the shape solid there" in refused(small)


def test_a_piece_without_a_mouth_is_refused_before_the_heat_run(small):
    cone = 'cone = { bottom_diameter = "100 mm", top_diameter = "0 mm", height = "60 mm" }'
    written(small, NEAT.replace(BOX, cone))
    assert "no flat face at the top as poured" in refused(small)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (BOX, 'box = ["100 m", "80 mm", "60 mm"]', "shape.box[1]: '100 m' is too much; allowed: up to"),
        (BOX, 'box = ["100 mm", "80 mm", "0.1 mm"]', "this box makes no solid: the shape is only 0.1 mm"),
        ("[shop]", "[bottles]\nyield = { boulder = 0.5 }\n[shop]", "no grade called 'boulder'; allowed: fi"),
        ("[shop]", '[master]\nmass = "900 kg"\n[shop]', "a master of 900 kg would have a density of"),
    ],
)  # fmt: skip
def test_slips_are_told_with_their_line(small, old, new, says):
    written(small, SMALL.replace(old, new))
    assert says in refused(small)


def test_faults_of_a_file_are_told_with_the_line_that_names_it(small):
    whole = box([0.1, 0.1, 0.1])
    stl(Mesh(whole.vertices, whole.faces[2:]), small.parent / "open.stl")
    written(small, SMALL.replace(BOX, 'file = "open.stl"\nunit = "mm"'))
    assert "job.toml:6 shape.file: open.stl: the surface is open: a hole" in refused(small)


def test_what_is_mended_is_refused_where_the_job_says_so(small):
    stl(box([0.1, 0.1, 0.1]).reversed(), small.parent / "inside.stl")
    written(small, SMALL.replace(BOX, 'file = "inside.stl"\nunit = "mm"\nrepair = false'))
    assert "job.toml:6 shape.file: inside.stl: it would have to be mended: 1 body" in refused(small)


def test_a_shop_that_is_closed_all_year_is_refused(small):
    days = ", ".join(f'"{year}-{month:02}-{day:02}"' for year in (2027, 2028) for month in range(1, 13)
                     for day in range(1, 32) if day <= 28 or month not in {2, 4, 6, 9, 11})  # fmt: skip
    rest = ", ".join(f'"{year}-{month:02}-{day}"' for year in (2027, 2028) for month in (4, 6, 9, 11)
                     for day in (29, 30))  # fmt: skip
    written(small, f'{SMALL}days_off = [{days}, {rest}, "2028-02-29"]\n')
    assert "nobody is in the shop within a year of the start" in refused(small)


def test_places_for_a_plan_are_looked_at_before_the_long_work(small, tmp_path, monkeypatch):
    monkeypatch.setattr("pourwright.app.planning.plan_variant", lambda *_: pytest.fail("it planned"))
    assert "this is a file" in refused(small, out=small)
    monkeypatch.chdir(tmp_path)
    assert "this is the folder you are in" in refused(small, out=Path())
    assert "nothing can be written into" in refused(small, out=small / "below" / "a" / "file")


def test_another_programs_plan_json_is_not_replaced(tmp_path):
    written(tmp_path / "plan.json", json.dumps({"schema": "something-else/1.0"}))
    with pytest.raises(UserError, match="holds other things"):
        PLAN_FOLDER.refuse_foreign(tmp_path)


@pytest.mark.xdist_group("example")
def test_what_the_maker_put_beside_an_older_plan_is_kept(lamp, tmp_path):
    folder = tmp_path / "plan"
    write_plan(lamp.plans[0], folder)
    (folder / "photos").mkdir()
    written(folder / "photos" / "first.txt", "mine")
    written(folder / "plan.pdf", "an older one")
    write_plan(lamp.plans[0], folder)
    assert (folder / "photos" / "first.txt").read_text("utf8") == "mine"
    assert (folder / "plan.pdf").read_bytes().startswith(b"%PDF")
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


def test_a_needle_is_refused_before_the_heat_run(small):
    written(small, NEAT.replace(BOX, 'box = ["2 mm", "2 mm", "300 mm"]'))
    assert "only 2.0 mm wide as poured, too thin to fill; 6.0 mm is the least" in refused(small)


@pytest.mark.xdist_group("example")
def test_a_plan_in_inches_says_nothing_in_kelvin(lamp):
    assert "hard 9 °F above the shop's warmest hour" in lamp.plans[0].demold.rule


def test_check_says_which_variants_it_did_not_look_at(small):
    written(
        small,
        SMALL
        + '[[variant]]\nname = "block"\n[[variant]]\nname = "hot"\n[variant.shop]\n'
        + 'temperature = "31 degC"\n',
    )
    told = [found.line for found in check_job(small).findings]
    assert "not looked at: variant hot; check each with --variant NAME" in told
    hot = [found.line for found in check_job(small, variant="hot").findings]
    assert any("is warm: shorter pot life" in line for line in hot)
    assert not any("not looked at" in line for line in hot)
    with pytest.raises(UserError, match="no variant called 'cold'"):
        check_job(small, variant="cold")
