"""What takes too long for a page is done beside the server, and kept."""

from pathlib import Path

import numpy as np
import pytest

from pourwright.app import check_job
from pourwright.app.answering import desk as room, keys
from pourwright.app.answering.answers import answers_of, job_of
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.reading import read_for_answers
from pourwright.app.answering.trial import trial_of
from pourwright.geometry import Mesh, revolve
from pourwright.mold.ways.facts import skin_volume
from pourwright.runs import Cache
from tests.app.answering.conftest import CYLINDER, folder_of

WAIST = [[0.08, 0.0], [0.03, 0.15], [0.1, 0.3]]


def written_stl(mesh: Mesh, path: Path) -> None:
    """A binary STL in millimetres, by the layout of the format."""
    rows = np.zeros(len(mesh.faces), dtype=[("n", "<3f4"), ("v", "<9f4"), ("a", "<u2")])
    rows["v"] = (mesh.triangles * 1000.0).reshape(-1, 9)
    path.write_bytes(b"\0" * 80 + np.uint32(len(rows)).tobytes() + rows.tobytes())


@pytest.fixture
def vase(tmp_path: Path) -> Path:
    """A job whose shape is a file with a waist."""
    text = CYLINDER.replace(
        'profile = [["60 mm", "0 mm"], ["60 mm", "400 mm"]]', 'file = "vase.stl"\nunit = "mm"'
    )
    folder = folder_of(text, tmp_path / "vase")
    written_stl(revolve(WAIST, 48), folder / "vase.stl")
    return folder


@pytest.fixture
def slow_files(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every file is large."""
    monkeypatch.setattr(keys, "MOST_TRIANGLES", 10)


@pytest.mark.usefixtures("slow_files")
def test_a_large_shape_is_never_read_while_somebody_waits(
    vase: Path, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room, "read_body", lambda _job: pytest.fail("read in the server"))
    before = answers_of(desk, vase)
    assert (before.state, before.wants, before.sections) == ("reading", ["read"], {})
    tried = trial_of(desk, vase, None, [{"to": "top", "neat": True}])
    assert tried.error is not None
    assert "still being read" in tried.error.what
    assert read_for_answers(job_of(vase, None), store=desk.store) == len(revolve(WAIST, 48).faces)
    after = answers_of(desk, vase)
    assert (after.state, after.wants) == ("ready", [])
    # another server finds it too
    assert answers_of(Desk(desk.store), vase) == after


def test_what_was_read_beside_the_server_is_what_it_would_have_read(
    vase: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here = answers_of(Desk(Cache(tmp_path / "one")), vase)
    monkeypatch.setattr(keys, "MOST_TRIANGLES", 10)
    beside = Desk(Cache(tmp_path / "other"))
    read_for_answers(job_of(vase, None), store=beside.store)
    assert answers_of(beside, vase) == here


@pytest.mark.usefixtures("slow_files")
def test_another_file_under_the_same_name_is_read_again(vase: Path, desk: Desk) -> None:
    read_for_answers(job_of(vase, None), store=desk.store)
    assert answers_of(desk, vase).state == "ready"
    written_stl(revolve([[0.05, 0.0], [0.035, 0.1], [0.06, 0.3]], 48), vase / "vase.stl")
    now = answers_of(desk, vase)
    assert now.state == "reading"
    assert now.sections
    assert now.old


def test_space_blocks_are_looked_for_beside_the_server(vase: Path, desk: Desk) -> None:
    job = vase / "job.toml"
    plain = answers_of(desk, vase)
    job.write_text(job.read_text("utf8") + '\n[mold]\nspace_blocks = true\nwall = "30 mm"\n', "utf8")
    waiting = answers_of(desk, vase)
    assert waiting.wants == ["read"]
    # what was there before stays, and says that it is old
    assert waiting.sections["mold"].numbers == plain.sections["mold"].numbers
    assert "space blocks" in waiting.sections["mold"].old
    assert waiting.sections["piece"].old == ""
    read_for_answers(job_of(vase, None), store=desk.store)
    found = answers_of(desk, vase)
    assert found.wants == []
    assert found.sections["mold"].old == ""
    rubber = next(one.value for one in found.sections["mold"].numbers if one.key == "rubber_kg")
    report = check_job(job)
    assert report.mold is not None
    assert report.mold.blocks
    assert rubber == report.mold.rubber.mass_kg


def test_a_skin_is_measured_beside_the_server_once_for_every_thickness(vase: Path, desk: Desk) -> None:
    job = vase / "job.toml"
    text = job.read_text("utf8") + '\n[mold]\nway = "skin"\nskin = "10 mm"\n'
    job.write_text(text, "utf8")
    assert answers_of(desk, vase).wants == ["read"]
    read_for_answers(job_of(vase, None), store=desk.store)
    for thickness in (0.010, 0.006):
        job.write_text(text.replace("10 mm", f"{1000 * thickness:g} mm"), "utf8")
        found = answers_of(desk, vase)
        assert found.wants == []
        skin = next(one.value for one in found.sections["mold"].numbers if one.key == "skin_volume_m3")
        # the same body offset exactly
        look = desk.look(job_of(vase, None))
        assert look is not None
        assert skin == pytest.approx(skin_volume(look.piece.mesh, thickness), rel=0.01)
