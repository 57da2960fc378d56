"""One key changed in a text: whatever way tables are written, the rest stays letter by letter."""

import tomllib

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.jobs.band_edits import with_bands
from pourwright.jobs.edits import at, literal, with_value, without_empty

LAYOUTS = {
    "headed": """# top
format = 1 # one

[mold] # rubber
wall = "20 mm" # thin

# shop
[shop]
pail = "10 l"
""",
    "dotted": """format = 1 # one
mold.wall = "20 mm" # thin
shop.pail = "10 l"
""",
    "inline": """format = 1 # one
mold = { wall = "20 mm" } # thin
shop = {pail="10 l", scale_step = "1 g"}
""",
    "nothing yet": "format = 1 # one\n",
    "no line end": 'format = 1 # one\n[mold]\nwall = "20 mm" # thin',
    "quoted and indented": """format = 1
["mold"]
  "wall" = '20 mm' # thin
  # mine
[ shop ]
  pail = "10 l"
""",
    "many lines": '''format = 1
[mold]
board_sheet = [
  "2 m", # long
  "1 m",
]
base = """
# no comment
"""
''',
    "variants": """format = 1
[[variant]]
name = "a" # first

[[variant]]
name = "b"
[variant.mold]
wall = "1 mm"
""",
}
COMMENTS = ("# top", "# one", "# rubber", "# thin", "# shop", "# mine", "# long", "# first")
PATHS = [("mold", "wall"), ("mold", "base"), ("shop", "pail"), ("shop", "scale_step"), ("title",)]
VALUES = st.one_of(
    st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=20),
    st.booleans(),
    st.integers(-(10**9), 10**9),
    st.floats(allow_nan=False, allow_infinity=False),
    st.lists(st.text(st.sampled_from("ab\"\\'\n#="), max_size=4), max_size=3),
)


def comments(text: str) -> list[str]:
    return sorted(
        word for word in ("# top", "# one", "# rubber", "# thin", "# shop", "# mine") if word in text
    )


@pytest.mark.parametrize("layout", LAYOUTS)
@settings(max_examples=40, deadline=None)
@given(path=st.sampled_from(PATHS), value=VALUES)
def test_a_key_reads_back_and_nothing_else_has_changed(layout: str, path: tuple[str, ...], value) -> None:
    text = LAYOUTS[layout]
    new = with_value(text, path, value)
    # read by the library, not by what has written it
    assert at(tomllib.loads(new), path) == value
    assert comments(new) == comments(text)
    back = with_value(new, path, at(tomllib.loads(text), path))
    before, after = tomllib.loads(text), tomllib.loads(back)
    assert {name: table for name, table in after.items() if table} == before
    assert comments(back) == comments(text)


def test_a_line_of_a_variant_goes_to_its_own_block() -> None:
    text = LAYOUTS["variants"]
    one = with_value(text, ("variant", 0, "mold", "wall"), "2 mm")
    assert 'name = "a" # first\nmold.wall = "2 mm"\n' in one
    two = with_value(text, ("variant", 1, "mold", "base"), "3 mm")
    assert two.endswith('[variant.mold]\nwall = "1 mm"\nbase = "3 mm"\n')


def test_an_empty_table_goes_and_a_full_one_stays() -> None:
    assert without_empty("a = 1\n\n[prices] # mine\n", ("prices",)) == "a = 1\n# mine\n"
    assert without_empty("a = 1\n\n[prices]\n\n[b]\nc = 1\n", ("prices",)) == "a = 1\n\n[b]\nc = 1\n"
    assert without_empty('[prices]\nhour = "1 EUR/h"\n', ("prices",)) == '[prices]\nhour = "1 EUR/h"\n'


def test_bands_written_as_a_list_of_inline_tables() -> None:
    text = 'format = 1\nband = [ { to = "1 m", neat = true } ] # all\n'
    new = with_bands(text, [{"to": "2 m", "neat": True}, {"to": "top", "grade": "fine"}])
    assert tomllib.loads(new)["band"] == [{"to": "2 m", "neat": True}, {"to": "top", "grade": "fine"}]
    assert "# all" in new


def test_bands_that_stand_apart_are_left_to_the_text() -> None:
    text = 'format = 1\n[[band]]\nto = "1 m"\n[fill]\nglass = "x"\n[[band]]\nto = "top"\n'
    with pytest.raises(UserError, match="apart"):
        with_bands(text, [{"to": "top"}])


def test_a_literal_with_tables_reads_back() -> None:
    value = {"mix": [{"grade": "fine", "share": 0.5}], "x y": {"a": True}, "none": {}}
    assert tomllib.loads(f"key = {literal(value)}")["key"] == value
