"""The jobs on the page of a thing without a file are read, and answer with the sentences it quotes."""

import re
from pathlib import Path

from pourwright.app import describe_shape
from pourwright.geometry.taped.superbody import FORMS
from pourwright.jobs.shape_measured import Displaced, Reading

PAGE = (Path(__file__).parents[2] / "docs" / "without-a-file.md").read_text("utf8")
JOBS = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)


def test_the_vase_says_what_the_page_quotes(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(JOBS[0], "utf8")
    told = " ".join(describe_shape(path).told)
    quoted = " ".join(line.removeprefix(">").strip() for line in PAGE.splitlines() if line.startswith(">"))
    assert len(quoted) > 200
    for sentence in re.split(r"(?<=\.) ", quoted):
        # told to a litre's tenth and some millilitres, so that another processor's rounding does not matter
        assert sentence in " ".join(told.split())


def test_the_stone_is_read(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("format = 1\n" + JOBS[1], "utf8")
    assert describe_shape(path).piece.volume_m3_p90 is not None


def test_every_key_and_form_is_explained() -> None:
    named = " ".join(re.findall(r"`([^`\n]+)`", PAGE)) + "".join(JOBS)
    for name in (*Reading.model_fields, *Displaced.model_fields, *FORMS):
        assert name in named or name == "water_temperature"
