"""Which way up: what a caster would do with shapes everybody knows, and what a check says of the way."""

import dataclasses

import numpy as np
import pytest
import trimesh

from pourwright.app import check_job, describe_shape
from pourwright.app.shaping.ways import best_ways, clearly_better, grouped, ranked, weigh
from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, cone, measure, measure_ways, revolve
from pourwright.geometry.files.writers import stl_bytes
from tests.app.conftest import SMALL
from tests.geometry.bodies import hourglass, torus

BOX = 'box = ["80 mm", "60 mm", "50 mm"]'
BOWL = revolve([[0.05, 0.0], [0.12, 0.07], [0.112, 0.07], [0.045, 0.008]], 96)
# open below, closed on top: a bell of air while rubber rises around it
BELL = (
    'profile = [["0 mm", "60 mm"], ["40 mm", "60 mm"], ["40 mm", "0 mm"], ["70 mm", "0 mm"], '
    '["70 mm", "80 mm"], ["0 mm", "80 mm"]]'
)
# a post within a lower ring: filled through the post, the ring keeps its air
CROWN = (
    'profile = [["0 mm", "0 mm"], ["60 mm", "0 mm"], ["60 mm", "50 mm"], ["50 mm", "50 mm"], '
    '["50 mm", "30 mm"], ["20 mm", "30 mm"], ["20 mm", "70 mm"], ["0 mm", "70 mm"]]'
)


def chair():
    parts = [box([0.04, 0.04, 0.41]).moved([x, y, 0]) for x in (-0.18, 0.18) for y in (-0.18, 0.18)]
    raw = trimesh.boolean.union(
        [
            trimesh.Trimesh(part.vertices, part.faces)
            for part in (
                *parts,
                box([0.4, 0.4, 0.04]).moved([0, 0, 0.4]),
                box([0.4, 0.04, 0.4]).moved([0, 0.18, 0.43]),
            )
        ],
        engine="manifold",
    )
    return Mesh(raw.vertices, raw.faces)


def best(mesh, hold=None):
    return best_ways(mesh, measure(mesh), hold)


def slanting(folder):
    turn = trimesh.transformations.rotation_matrix(np.radians(20), [1.0, 0.3, 0.0])
    body = box([0.1, 0.08, 0.06]).transformed(turn)
    (folder / "slanting.stl").write_bytes(stl_bytes(body))
    return turn[:3, :3]


def job_with(small, shape):
    small.write_text(SMALL.replace(BOX, shape), "utf8")
    return small


def findings(job):
    return [(found["level"], found["text"]) for found in check_job(job).to_json()["findings"]]


def test_a_stool_goes_upside_down_so_that_nobody_sees_the_open_face():
    order = best(hourglass())
    assert [each.way.name for each in order[:2]] == ["-z", "+z"]
    assert [each.grade for each in order] == [0, 0, 2, 2, 2, 2]


def test_a_bowl_is_poured_rim_down_from_a_master_screwed_on():
    first, second = best(BOWL)[:2]
    assert (first.way.name, first.hold, first.grade) == ("-z", "screwed", 0)
    assert second.plugged
    # hung, the bowl is a bell full of air
    hung = best(BOWL, "hung")[0]
    assert (hung.way.name, hung.grade, hung.vents) == ("-z", 1, 1)


def test_a_cone_stands_on_its_point():
    order = best(cone(0.1, 0.0, 0.3))
    assert (order[0].way.name, order[0].grade) == ("-z", 0)
    assert {each.grade for each in order[1:]} == {2}


def test_a_ring_has_no_open_face_any_way():
    assert {each.grade for each in best(torus())} == {2}


def test_a_chair_lies_on_its_side():
    first = best(chair())[0]
    assert first.way.name in {"+x", "-x", "+y"}
    assert first.grade == 0
    assert first.way.open_share > 0.9


def test_alike_ways_are_told_once():
    groups = grouped(best(box([0.3, 0.2, 0.1])))
    assert sorted(len(group) for group in groups) == [1, 1, 2, 2]


def test_the_rule_in_its_order():
    base = weigh(measure_ways(box([0.1, 0.1, 0.1]), [[0, 0, 1.0]])[0], 1e-3)

    def like(name, **changes):
        return dataclasses.replace(base, way=dataclasses.replace(base.way, name=name, **changes))

    pocket = measure_ways(BOWL, [[0, 0, -1.0]])[0].hung
    ways = {
        "no mouth": dataclasses.replace(like("+y"), mouthless=True),
        "vents": dataclasses.replace(like("-y"), casting=pocket),
        "undercut": like("-x", blocked=0.4),
        "deep": like("+z", size=np.array([0.1, 0.1, 0.5]), blocked=0.05),
        "shallow": like("+x", blocked=0.09),
        "underside": like("-z", size=np.array([0.1, 0.1, 0.5]), blocked=0.09),
    }
    names = {id(each): name for name, each in ways.items()}
    order = [names[id(each)] for each in ranked(tuple(ways.values()))]
    assert order == ["underside", "shallow", "deep", "undercut", "vents", "no mouth"]
    assert clearly_better(ways["vents"], ranked(tuple(ways.values()))) is ways["underside"]
    assert clearly_better(ways["undercut"], ranked(tuple(ways.values()))) is ways["underside"]
    assert clearly_better(ways["shallow"], ranked(tuple(ways.values()))) is None


def test_a_check_finds_nothing_wrong_with_a_plain_box(small):
    texts = findings(small)
    assert ("ok", "no air is caught in the casting, nor in the rubber under the master") in texts
    assert not [text for _, text in texts if "shape.up" in text or "[shape] up" in text]


def test_a_check_says_where_air_is_caught_and_which_way_is_better(small):
    texts = [text for level, text in findings(job_with(small, CROWN)) if level == "mind"]
    (air,) = [text for text in texts if "of air is caught in the casting, 50 mm up, at " in text]
    ring = np.pi * (0.06**2 - 0.05**2) * 0.02 * 1e6
    assert float(air.split()[0]) == pytest.approx(ring, abs=1)
    (better,) = [
        text for text in texts if text.startswith("poured +z up, master hung: 69 ml of air caught; ")
    ]
    assert "-z up, master screwed on, open face down: no air caught" in better
    assert 'try [shape] up = "-z" and [mold] method = "screwed"' in better


def test_hung_over_a_hollow_the_check_names_the_air_under_the_master(small):
    bell = job_with(small, f'{BELL}\nup = "+z"')
    texts = [text for level, text in findings(bell) if level == "mind"]
    (air,) = [text for text in texts if "under the master" in text]
    hollow = np.pi * 0.04**2 * 0.06 * 1e6
    assert air.startswith(f"{hollow:.0f} ml of air is caught in the rubber under the master, 60 mm up")
    assert "vent up through the master" in air
    (better,) = [text for text in texts if text.startswith("poured +z up, master hung")]
    assert 'try [mold] method = "screwed"; ' in better


def test_a_way_that_lies_askew_is_given_by_numbers(small):
    turn = slanting(small.parent)
    rough = np.round(turn[:, 2], 2).tolist()
    job = job_with(small, f'file = "slanting.stl"\nunit = "mm"\nup = {rough}')
    report = check_job(job).to_json()
    assert report["piece"]["height_m"] == pytest.approx(0.06, abs=1e-6)
    assert report["piece"]["flipped"] is False
    texts = [found["text"] for found in report["findings"]]
    assert any(text.startswith("up is turned by 0.") for text in texts)
    assert "the open face at the top is 100 % of the widest section" in texts


@pytest.mark.parametrize(
    ("up", "says"),
    [
        ('"up"', "'up' is no direction"),
        ("[0.0, 0.0, 0.0]", "points nowhere"),
        ("[0.0, 1.0]", "three numbers, not 2"),
        ('["0", "0", "1"]', "is no direction"),
        ("[0.0, nan, 1.0]", "points nowhere"),
        ("true", "is no direction"),
    ],
)
def test_a_direction_that_is_none(small, up, says):
    job_with(small, f"{BOX}\nup = {up}")
    with pytest.raises(UserError, match=r"shape\.up") as refused:
        check_job(small)
    assert says in str(refused.value)
    assert "+x, -x, +y, -y, +z, -z, or three numbers" in str(refused.value)


def test_the_shape_tells_and_draws_its_ways(tmp_path):
    path = tmp_path / "bowl.stl"
    path.write_bytes(stl_bytes(BOWL))
    report = describe_shape(path, "mm", out=tmp_path / "out")
    ways = report.to_json()["ways"]
    assert [way["up"] for way in ways["best"]] == ["-z", "+z", "+x"]
    assert ways["best"][0]["hold"] == "screwed"
    assert "screw it on, open face down" in ways["best"][0]["against"][0]
    assert "chosen" not in ways
    assert ways["parting"]["along"] == "+z"
    assert len(ways["parting"]["map"]) == 203
    names = {path.name for path in report.files}
    assert {"ways.svg", "ways.png"} <= names
    svg = (tmp_path / "out" / "ways.svg").read_text("utf8")
    assert "upside down" in svg
    assert (tmp_path / "out" / "ways.png").read_bytes()[:4] == b"\x89PNG"


def test_a_job_sees_its_own_way_beside_the_best(small):
    job_with(small, f'{BELL}\nup = "+z"')
    ways = describe_shape(small).to_json()["ways"]
    assert ways["chosen"]["up"] == "+z"
    assert ways["chosen"]["caught"][0]["liquid"] == "rubber"
    assert ways["chosen"]["caught"][0]["height_m"] == pytest.approx(0.06)
