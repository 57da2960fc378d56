"""The contact table: whole, sourced, and loud about what it does not know."""

from importlib.resources import files

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Kind, load_sources
from pourwright.materials import load_materials
from pourwright.materials.contact import VERDICTS, hint_for, load_contact, read_contact

TEXT = files("pourwright").joinpath("data", "contact.toml").read_text("utf8")
TABLE = load_contact()


def test_every_entry_says_where_it_is_known_from() -> None:
    shelves = (TABLE.factor, TABLE.surface, TABLE.sealer, TABLE.release, TABLE.cast)
    entries = [entry for shelf in shelves for entry in shelf.values()]
    assert len(entries) > 50
    assert {entry.kind for entry in entries} <= {str(kind) for kind in Kind}
    assert {entry.source for entry in entries} <= set(load_sources())


def test_every_board_and_every_casting_family_has_an_entry() -> None:
    materials = load_materials()
    assert set(materials.board) <= set(TABLE.surface)
    assert {"epoxy", "gypsum", "concrete"} <= set(TABLE.cast)


def test_a_cure_that_nobody_described_is_tested_first() -> None:
    for entry in (*TABLE.factor.values(), *TABLE.cast.values()):
        assert entry.verdict("moonlight") == "test first"
        assert entry.verdict("platinum") in VERDICTS


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('platinum = "no"', 'platinum = "maybe"', "verdict 'maybe'.*allowed: fine, test first, no"),
        ('factors = ["sulfur", "oils"]', 'factors = ["brimstone"]', "no factor called 'brimstone'"),
        ('spoils = ["polystyrene-foam"]', 'spoils = ["foam"]', "no surface called 'foam'"),
        ('release = "petroleum-jelly"', 'release = "butter"', "no release called 'butter'"),
        ('unit = "day"', 'unit = "mm"', "unit 'mm' does not fit"),
        ("coats = 3\n", "layers = 3\n", "unknown key 'layers'"),
    ],
)
def test_a_slip_in_the_table_is_told(old: str, new: str, told: str) -> None:
    assert old in TEXT
    with pytest.raises(UserError, match=told):
        read_contact(TEXT.replace(old, new, 1))


def test_hints_name_the_nearest_and_nothing_far_off() -> None:
    assert hint_for("Sulphur Clay", TABLE.surface) == "did you mean 'sulfur-clay'?"
    assert hint_for("xyzzy", TABLE.release).startswith("known are none, petroleum-jelly")
