"""A fitted record in the shop's folder: a job casts from it, and keeps its doubts."""

import numpy as np
import pytest

from pourwright.app.document.credits import sources
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.calibration.doubts import doubts_of, member, origin_of
from pourwright.calibration.fitting import Question, fit
from pourwright.calibration.parameters import NAMES, load_priors
from pourwright.calibration.record import Told, record_text
from pourwright.jobs.loading import load_job
from pourwright.materials import load_materials
from tests.app.conftest import SMALL
from tests.calibration.invented import DENSITY, invented_resin, sheet_of


@pytest.fixture(scope="module")
def setup(tmp_path_factory: pytest.TempPathFactory) -> Setup:
    folder = tmp_path_factory.mktemp("shop")
    sheet = sheet_of(invented_resin(speed=0.8), ("gel time", "pot life"))
    found = fit(Question(load_priors()["epoxy-slow-deep"], sheet, DENSITY))
    base = load_materials().resin["epoxy-slow-deep"]
    (folder / "materials").mkdir()
    text = record_text(found, Told("river-resin", "River resin", base, "invented sheet"))
    (folder / "materials" / "resin.toml").write_text(text, "utf8")
    job = folder / "job.toml"
    job.write_text(SMALL.replace("epoxy-slow-deep", "river-resin"), "utf8")
    (loaded,) = load_job(job).variants()
    return set_up(loaded, read_piece(loaded))


def test_the_job_s_resin_has_the_doubts_of_its_fit(setup: Setup) -> None:
    assert origin_of(setup.resin) == "fit"
    own, family = (np.diag(np.array(doubts_of(record).covariance)) for record in (
        setup.resin, load_materials().resin["epoxy-slow-deep"],
    ))  # fmt: skip
    assert own[0] < 0.2 * family[0]
    assert np.all(own <= family * (1.0 + 1e-7))
    assert member(setup.resin, np.zeros(len(NAMES))).resin == setup.resin


def test_the_plan_credits_its_numbers(setup: Setup) -> None:
    credited = {(each.id, each.kind): each.used_for for each in sources(setup)}
    assert "data-sheet" in {source for source, _ in credited}
