"""Planning a small job: the same twice, foreign meshes, folders, errors."""

import json
from pathlib import Path

import pytest

from pourwright.app import check_job, describe_shape, new_job
from pourwright.foundation.errors import UserError
from tests.app.conftest import NOW, SMALL
from tests.app.making import only_planned, plan_quickly

pytestmark = pytest.mark.xdist_group("small jobs")


def contents(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def foreign_mesh() -> Path:
    """A nut that nobody here made: pyvista 0.4x, MIT licence, from PyPI."""
    import importlib.util

    package = importlib.util.find_spec("pyvista")
    return Path(package.origin).parent / "examples" / "nut.ply"


def test_the_same_job_gives_the_same_bytes(small, tmp_path):
    for name in ("one", "two"):
        plan_quickly(small, out=tmp_path / name, now=NOW)
    one, two = contents(tmp_path / "one"), contents(tmp_path / "two")
    assert set(one) == set(two)
    assert [name for name in one if one[name] != two[name]] == []


def test_a_mesh_nobody_here_made_is_described():
    # G08: volume 32171.322 and area 8977.6491 in file units
    report = describe_shape(foreign_mesh(), "mm").to_json()
    assert report["piece"]["volume_m3"] == pytest.approx(32171.322e-9, rel=1e-5)
    assert report["piece"]["area_m2"] == pytest.approx(8977.6491e-6, rel=1e-5)
    # neat resin weighs its volume times 1090 kg/m3
    assert report["piece"]["mass_kg"] == pytest.approx(32171.322e-9 * 1090, rel=1e-5)
    assert report["faults"] == []


def test_a_mesh_nobody_here_made_is_planned(tmp_path):
    job = new_job(
        str(foreign_mesh()),
        "mm",
        {"material": "epoxy-slow-deep", "glass": [], "shop_temperature": "20 degC"},
        tmp_path / "nut",
    )
    text = job.read_text("utf8").replace('up = "+z"', 'up = "+y"')
    job.write_text(text, "utf8")
    plan = only_planned(job)
    assert plan.piece.volume_m3 == pytest.approx(32171.322e-9, rel=1e-5)
    assert len(plan.pours) == 1
    assert plan.pours[0].peak_temperature_degC < 30
    assert plan.demold.after_h > 24


def test_new_then_check_then_plan_as_a_maker_would(tmp_path):
    answers = {
        "material": "epoxy-slow-deep",
        "glass": [("medium", "green")],
        "shop_temperature": "68 degF",
        "size": ["4 in", "3 in", "2 in"],
    }
    job = new_job("box", None, answers, tmp_path / "block")
    report = check_job(job).to_json()
    assert [found for found in report["findings"] if found["level"] == "stop"] == []
    assert report["job"]["units"] == "us"
    made = plan_quickly(job, now=NOW)
    assert made.plans[0].piece.volume_m3 == pytest.approx(24 * 0.0254**3, rel=1e-9)
    assert (tmp_path / "block" / "plan" / "plan.json").is_file()


def test_variants_each_get_a_plan_and_a_folder(small):
    small.write_text(
        SMALL
        + '[[variant]]\nname = "thin rubber"\nmold.wall = "15 mm"\n'
        + '[[variant]]\nname = "thick"\nmold.wall = "25 mm"\n',
        "utf8",
    )
    made = plan_quickly(small, now=NOW)
    assert [plan.job.variant for plan in made.plans] == ["thin rubber", "thick"]
    thin, thick = (plan.mold.rubber.mass_kg for plan in made.plans)
    assert thin < thick
    assert {path.parent.name for path in made.files if path.name == "plan.json"} == {"thin-rubber", "thick"}
    with pytest.raises(UserError, match="no variant called 'fat'"):
        plan_quickly(small, variant="fat", now=NOW)


def test_a_folder_with_other_things_is_left_alone(small, tmp_path):
    mine = tmp_path / "photos"
    mine.mkdir()
    (mine / "stool.jpg").write_bytes(b"mine")
    with pytest.raises(UserError, match="holds other things"):
        plan_quickly(small, out=mine, now=NOW)
    assert contents(mine) == {"stool.jpg": b"mine"}


def test_a_plan_replaces_an_older_plan(small, tmp_path):
    out = tmp_path / "plan"
    plan_quickly(small, out=out, now=NOW)
    before = json.loads((out / "plan.json").read_text("utf8"))
    small.write_text(SMALL.replace("22 degC", "19 degC"), "utf8")
    plan_quickly(small, out=out, now=NOW)
    after = json.loads((out / "plan.json").read_text("utf8"))
    assert after["demold"]["after_h"] > before["demold"]["after_h"]
    assert after["pours"][0]["gel_after_h"] > before["pours"][0]["gel_after_h"]


def test_where_no_plan_keeps_the_limits_the_nearest_change_is_named(small):
    hot = SMALL.replace("epoxy-slow-deep", "epoxy-fast").replace(
        '["80 mm", "60 mm", "50 mm"]', '["0.3 m", "0.3 m", "0.1 m"]'
    )
    small.write_text(hot.replace("22 degC", "28 degC"), "utf8")
    with pytest.raises(UserError) as refused:
        plan_quickly(small, now=NOW)
    said = str(refused.value)
    assert "goes over the limit by" in said
    assert "slower resin" in said or "cooler" in said


def test_twice_the_resin_twice_the_price(small):
    prices = '[prices]\ncurrency = "EUR"\nresin = "15 EUR/kg"\n'
    costs = []
    for height in ("30 mm", "60 mm"):
        neat = SMALL.replace("50 mm", height).replace(
            'to = "30 mm"\ngrade = "medium"\ncolour = "green"\n[[band]]\n', ""
        )
        small.write_text(neat + prices, "utf8")
        plan = only_planned(small)
        costs.append(sum(need.price for need in plan.shopping if "epoxy" in need.item.lower()))
    # film and rounding to 1 g keep it from being exactly two
    assert costs[1] == pytest.approx(2 * costs[0], rel=0.02)


def test_a_scale_too_coarse_for_the_ratio_is_told(small):
    fine = only_planned(small)
    small.write_text(SMALL + 'scale_step = "50 g"\n', "utf8")
    coarse = only_planned(small)
    # 100 : 40 in steps of 50 g: 150 g of A want 60 g of B, which the scale shows as 50 g
    assert any("scale's step is too coarse" in text for text in coarse.warnings)
    assert not any("scale's step is too coarse" in text for text in fine.warnings)
