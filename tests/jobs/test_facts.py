"""Facts files: what is read, and every fault with its line."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs.facts_loading import load_facts, read_facts

GOOD = """format = 1
id = "river-resin"
name = "River resin"
family = "epoxy-slow-deep"

[[pot_life]]
time = "8 h"
mass = "2 lb"
"""


def test_a_fact_is_read_exactly():
    facts = read_facts(GOOD)
    assert facts.pot_life[0].time.si == 8 * 3600
    assert facts.pot_life[0].mass.si == pytest.approx(2 * 0.45359237, rel=1e-12)
    assert facts.where(("pot_life", 0, "mass")) == "facts.toml:8 pot_life[1].mass"


BAD = {
    "unknown key": (GOOD + 'weight = "2 kg"\n', ":9 pot_life[1].weight: unknown key 'weight'"),
    "no unit": (GOOD.replace('"8 h"', "8"), ":7 pot_life[1].time: 8 has no unit"),
    "wrong dimension": (GOOD.replace('"8 h"', '"8 kg"'), ":7 pot_life[1].time:"),
    "no facts": (GOOD[: GOOD.index("[[pot")], "there is nothing to fit"),
    "slip of the pen": (GOOD.replace("8 h", "800 days"), ":7 pot_life[1].time: 800 days is no likely time"),
    "negative": (GOOD.replace("2 lb", "-2 lb"), ":8 pot_life[1].mass: -2 lb is no likely mass"),
    "id": (GOOD.replace("river-resin", "River Resin!"), ":2 id: 'River Resin!' is no id"),
    "newer": (GOOD.replace("format = 1", "format = 2"), ":1 format"),
    "not TOML": (GOOD + "[[", "not TOML"),
    "parts": (GOOD + "[mix]\nparts_by_weight = [100]\n", ":10 mix.parts_by_weight: a list of 1"),
    "nothing of B": (GOOD + "[mix]\nparts_by_weight = [100, 0]\n", ":10 mix.parts_by_weight"),
    "by volume, densities unknown": (
        GOOD + "[mix]\nparts_by_volume = [100, 50]\n",
        ":9 mix: parts by volume alone: what they weigh is not known",
    ),
    "light": (GOOD + '[mix]\ndensity = "1.1 kg/m3"\n', ":10 mix.density: 1.1 kg/m3 is no likely density"),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_facts_are_refused_in_one_line(name):
    text, message = BAD[name]
    with pytest.raises(UserError) as refused:
        read_facts(text)
    assert message in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_logger_file_given_in_its_place_is_told_so(tmp_path):
    path = tmp_path / "cup.csv"
    path.write_bytes("Zeit;°C\n".encode("latin-1"))
    with pytest.raises(UserError, match=r"goes into its \[\[cup\]\]"):
        load_facts(path)
    with pytest.raises(UserError, match="no such facts file"):
        load_facts(tmp_path / "none.toml")
