"""The size ledger: from the piece wanted back to the master, through the doors a maker uses."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pourwright.app import check_job, describe_shape
from pourwright.app.document.sizes import sizes_of
from pourwright.app.shaping.ledger import master_files, master_of_shape
from pourwright.app.shaping.looks import FILES
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.errors import UserError
from pourwright.geometry import measure, read_mesh
from pourwright.jobs import load_job
from pourwright.materials import load_materials
from tests.app.making import plan_quickly

SHOP = '[shop]\ntemperature = "20 degC"\n'
RESIN = '[casting]\nmaterial = "epoxy-slow-deep"\n'
PIECE = 'shape_is = "piece"\n'
STEPS = ("piece_m", "sanded_m", "casting_m", "warm_rubber_m", "rubber_m")


def written(folder: Path, shape: str, sizes: str, casting: str = RESIN, more: str = "") -> Path:
    job = folder / "job.toml"
    job.write_text(f"format = 1\n[shape]\n{shape}\n[sizes]\n{sizes}\n{casting}{SHOP}{more}", "utf8")
    return job


def box_of(*sides: float) -> str:
    return "box = [{}]".format(", ".join(f'"{1000 * side!r} mm"' for side in sides))


def ledger(job: Path) -> dict[str, Any]:
    read = load_job(job)
    told = sizes_of(read_piece(read), read)
    assert told is not None
    return told.model_dump(mode="json")


def sizes(told: dict[str, Any], key: str) -> list[float]:
    return [one[key] for one in told["directions"]]


def test_every_line_adds_up_to_the_master(tmp_path: Path) -> None:
    told = ledger(written(tmp_path, box_of(0.3, 0.28, 0.44), PIECE + 'sand_sides = "0.5 mm"'))
    for one in told["directions"]:
        assert sum(one[key] for key in STEPS) == pytest.approx(one["master_m"], abs=1e-12)
        assert one["master_low_m"] < one["master_m"] < one["master_high_m"]
        assert one["piece_low_m"] < one["piece_m"] < one["piece_high_m"]


def test_neat_resin_by_hand(tmp_path: Path) -> None:
    sized = PIECE + 'gels_at = "40 degC"\nin_box = false\nsand_open_face = "1.5 mm"\nsand_floor = "0.5 mm"'
    told = ledger(written(tmp_path, box_of(0.3, 0.28, 0.44), sized))
    resin, rubber = (
        load_materials().resin["epoxy-slow-deep"],
        load_materials().rubber["silicone-platinum-a25"],
    )
    cured = resin.cure_shrinkage.value * (0.92 - resin.cure.gel_conversion.value)
    casting = 1 - (1 - cured) ** (1 / 3) + resin.solid.expansion_glass.value * 20.0
    grown = rubber.expansion.value * 0.75 * 20.0
    wanted = (0.442 / (1 - casting)) / ((1 + grown) * (1 - rubber.linear_shrinkage.value))
    assert sizes(told, "master_m")[2] == pytest.approx(wanted, rel=1e-9)
    # a stool is off by some millimetres: no more than half a per cent, and not by nothing
    assert 0.0005 < casting < 0.006


def test_twice_the_height_twice_the_difference(tmp_path: Path) -> None:
    cold = PIECE + 'gels_at = "20 degC"'
    differences = []
    for height in (0.44, 0.88):
        one = ledger(written(tmp_path, box_of(0.3, 0.28, height), cold))["directions"][2]
        differences.append(one["master_m"] - one["piece_m"])
    assert differences[1] == pytest.approx(2 * differences[0], rel=1e-9)
    # 0.1 % of the rubber alone is 0.44 mm of 440 mm
    assert differences[0] > 0.00044


def test_the_master_of_a_piece_becomes_that_piece(tmp_path: Path) -> None:
    sand = 'sand_open_face = "1.5 mm"\nsand_sides = "0.5 mm"'
    back = ledger(written(tmp_path, box_of(0.3, 0.28, 0.44), PIECE + sand))
    there = ledger(written(tmp_path, box_of(*sizes(back, "master_m")), sand))
    assert sizes(there, "piece_m") == pytest.approx([0.3, 0.28, 0.44], abs=1e-9)
    assert there["piece_volume_m3"] == pytest.approx(0.3 * 0.28 * 0.44, rel=1e-6)


def test_measured_shrinkages_take_the_place_of_ours(tmp_path: Path) -> None:
    own = PIECE + 'casting_shrinkage = "0.5 %"\nrubber_shrinkage = "0 %"'
    told = ledger(written(tmp_path, box_of(0.1, 0.1, 0.1), own))
    assert sizes(told, "master_m") == pytest.approx([0.1 / 0.995] * 3, rel=1e-12)
    assert sizes(told, "warm_rubber_m") == pytest.approx([0.0] * 3, abs=1e-15)


def test_glass_keeps_it_from_shrinking(tmp_path: Path) -> None:
    bands = '[[band]]\nto = "top"\ngrade = "medium"\ncolour = "green"\n[fill]\nneat_cover = "0 mm"\n'
    neat = ledger(written(tmp_path, box_of(0.3, 0.3, 0.4), PIECE))["directions"][0]["casting_m"]
    full = ledger(written(tmp_path, box_of(0.3, 0.3, 0.4), PIECE, more=bands))["directions"][0]["casting_m"]
    # between grains that are one body and grains apart
    assert 0.11 * neat < full < 0.40 * neat


def test_gypsum_grows_and_concrete_shrinks(tmp_path: Path) -> None:
    lines = {}
    for name in ("gypsum-casting", "concrete-fine"):
        job = written(tmp_path, box_of(0.2, 0.2, 0.2), PIECE, f'[casting]\nmaterial = "{name}"\n')
        lines[name] = ledger(job)["directions"][0]["casting_m"]
        assert check_job(job).sizes is not None
    assert lines["gypsum-casting"] < 0 < lines["concrete-fine"]
    # 0.15 % and 0.06 % of 200 mm
    assert lines["gypsum-casting"] == pytest.approx(-0.0015 * 0.2, rel=0.01)
    assert lines["concrete-fine"] == pytest.approx(0.0006 * 0.2, rel=0.01)


def test_the_mesh_of_the_master_is_as_large_as_the_ledger_says(tmp_path: Path) -> None:
    shape = 'cone = { bottom_diameter = "200 mm", top_diameter = "120 mm", height = "300 mm" }\nup = "-z"'
    job = written(tmp_path, shape, PIECE + 'sand_open_face = "2 mm"\nsand_sides = "1 mm"')
    told, read = ledger(job), load_job(job)
    made = read_piece(read).sizes
    assert made is not None
    for name, content in master_files(made, read):
        (tmp_path / name).write_bytes(content)
    # shape --out writes them through this list
    assert master_of_shape in FILES
    for mesh in (read_mesh(tmp_path / "master.stl", "mm"), read_mesh(tmp_path / "master.3mf", None)):
        lower, upper = mesh.bounds
        # poured upside down, the open face is at z = 0 of the file and grows downward
        assert lower[2] < -0.002
        assert upper - lower == pytest.approx(sizes(told, "master_m"), abs=1e-6)
        assert measure(mesh).volume == pytest.approx(told["master_volume_m3"], rel=1e-5)


def test_mold_and_heat_take_the_cold_cavity(tmp_path: Path) -> None:
    job = written(tmp_path, box_of(0.1, 0.08, 0.06) + '\nup = "+x"', PIECE + 'sand_sides = "1 mm"')
    told, piece = ledger(job), read_piece(load_job(job))
    by_pour = {one["poured"]: one for one in told["directions"]}
    assert piece.size == pytest.approx([by_pour[axis]["cavity_m"] for axis in "xyz"], rel=1e-12)
    assert by_pour["z"]["axis"] == "x"
    assert by_pour["z"]["cavity_m"] == pytest.approx(by_pour["z"]["master_m"] * 0.999, rel=1e-12)
    part = check_job(job).piece
    assert part.size_m == pytest.approx(piece.size)
    assert part.finished_size_m == pytest.approx([by_pour[axis]["piece_m"] for axis in "xyz"])
    assert part.finished_volume_m3 == pytest.approx(0.1 * 0.08 * 0.06, rel=1e-9)


def test_without_a_word_on_sizes_nothing_changes(tmp_path: Path) -> None:
    job = written(tmp_path, box_of(0.1, 0.08, 0.06), "")
    piece = read_piece(load_job(job))
    assert piece.size == pytest.approx([0.1, 0.08, 0.06], rel=1e-12)
    assert piece.told == ()
    told = ledger(job)
    assert not told["cut"]
    assert all(small < 0.1 for small in sizes(told, "piece_m"))
    made = piece.sizes
    assert made is not None
    assert list(master_files(made, load_job(job))) == []


def test_faces_are_named_as_poured_and_as_it_stands(tmp_path: Path) -> None:
    sand = 'sand_floor = "1 mm"\nsand_toward = { "+x" = "3 mm" }'
    told = ledger(written(tmp_path, box_of(0.1, 0.08, 0.06) + '\nup = "-z"', PIECE + sand))
    faces = {face["name"]: face for face in told["faces"]}
    assert faces["open face"]["words"] == "open face (underside as it stands)"
    assert faces["floor"]["words"] == "floor of the mold (top as it stands)"
    assert faces["+x"]["sanded_m"] == 0.003
    assert faces["+x"]["area_m2"] == pytest.approx(0.08 * 0.06)
    assert faces["sides"]["area_m2"] == pytest.approx(2 * 0.1 * 0.06 + 0.08 * 0.06)
    assert sizes(told, "sanded_m") == pytest.approx([0.003, 0.0, 0.001])
    # the face itself stands out by what is sanded, and by half of what shrinks along x
    shrinks = told["directions"][0]["master_m"] - told["directions"][0]["cast_m"]
    assert faces["+x"]["stands_out_m"] == pytest.approx(0.003 + shrinks / 2, abs=1e-9)


@pytest.mark.parametrize(("depth", "through"), [("0.3 mm", False), ("1.2 mm", True)])
def test_sanding_through_the_skin_is_minded(tmp_path: Path, depth: str, through: bool) -> None:
    band = '[[band]]\nto = "top"\ngrade = "medium"\ncolour = "green"\n'
    sand = f'sand_sides = "{depth}"\nsand_open_face = "1 mm"'
    job = written(tmp_path, box_of(0.1, 0.08, 0.06), sand, more=band)
    sides = next(face for face in ledger(job)["faces"] if face["name"] == "sides")
    # medium: 3.15 to 6.3 mm, a mean grain of 4.4 mm
    assert sides["skin_m"] == pytest.approx(0.0044 / 6, rel=0.05)
    assert sides["through"] is through
    minded = [one.text for one in check_job(job).findings if one.level == "mind" and "sanding" in one.text]
    assert len(minded) == 1
    assert ("diamond" in minded[0]) is through
    # the open face lies under a neat cover of one largest grain: nothing to mind there
    cover = next(face for face in ledger(job)["faces"] if face["name"] == "open face")
    assert cover["skin_m"] == pytest.approx(0.0063)
    assert "stays in the neat layer" in cover["text"]


def test_a_recess_that_sanding_closes_is_refused_with_its_place(tmp_path: Path) -> None:
    points = [(0, 0), (50, 0), (50, 20), (30, 20), (30, 10), (26, 10), (26, 20), (0, 20)]
    profile = "profile = [{}]".format(", ".join(f'["{r} mm", "{z} mm"]' for r, z in points))
    job = written(tmp_path, profile + '\nup = "-z"', PIECE + 'sand_sides = "2.5 mm"')
    with pytest.raises(UserError) as refused:
        read_piece(load_job(job))
    assert "no room for what is sanded off" in refused.value.what
    assert "z = 10 mm" in refused.value.what
    assert refused.value.where.endswith("sizes")


def test_a_master_without_casting_material_is_refused(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(f"format = 1\n[shape]\n{box_of(0.1, 0.1, 0.1)}\n[sizes]\n{PIECE}", "utf8")
    with pytest.raises(UserError, match=r"\[casting\] and \[shop\]"):
        describe_shape(job)
    job.write_text(f"format = 1\n[shape]\n{box_of(0.1, 0.1, 0.1)}\n", "utf8")
    assert describe_shape(job).to_json()["ledger"] is None


def test_a_plan_says_both_sizes_and_writes_the_master(tmp_path: Path) -> None:
    band = '[[band]]\nto = "30 mm"\ngrade = "medium"\ncolour = "green"\n[[band]]\nto = "top"\nneat = true\n'
    job = written(tmp_path, box_of(0.08, 0.06, 0.05), PIECE + 'sand_sides = "1 mm"', more=band)
    answer = plan_quickly(job, out=tmp_path / "plan")
    plan = answer.plans[0]
    assert plan.sizes is not None
    assert plan.sizes.run is not None
    assert {"master.stl", "master.3mf"} <= {path.name for path in answer.files}
    told = json.loads((tmp_path / "plan" / "plan.json").read_text("utf8"))
    assert told["piece"]["finished_size_m"] == pytest.approx([0.08, 0.06, 0.05])
    assert told["piece"]["size_m"] == pytest.approx(sizes(told["sizes"], "cavity_m"))
    assert any("diamond abrasives" in text for text in plan.warnings)
    # so small a piece gels as warm as the shop, and its run says so
    assert 20.0 <= plan.sizes.run.gels_at_degC <= 24.0
    runs = np.array(plan.sizes.run.master_m)
    assert (runs < np.array(sizes(told["sizes"], "master_m"))).all()
    assert {"levin-1967", "polymer-data-handbook-1999"} <= {source.id for source in plan.sources}
