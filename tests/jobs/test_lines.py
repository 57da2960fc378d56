"""The tokenizer against tomllib, which knows the keys but not their lines."""

import tomllib
from textwrap import dedent

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.jobs.lines import key_lines


def paths_of(value, path=()):
    """Every key path of what tomllib read."""
    found = {path} if path else set()
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        found |= paths_of(inner, (*path, key))
    return found


def lines_of(text):
    text = dedent(text)
    found = key_lines(text)
    assert set(found) == paths_of(tomllib.loads(text))
    return found


def test_plain_keys_and_comments():
    found = lines_of("# a = 1\n\na = 1 # b = 2\n  c = 'x # y'\n")
    assert found == {("a",): 3, ("c",): 4}


def test_tables_and_the_tables_they_imply():
    found = lines_of("[a.b]\nc = 1\n[a]\nd = 2\n")
    assert found[("a", "b")] == 1
    assert found[("a",)] == 3
    assert found[("a", "b", "c")] == 2


def test_arrays_of_tables_nested():
    found = lines_of("[[k]]\nn = 1\n[[k.l]]\no = 1\n[[k.l]]\no = 2\n[k.m]\np = 1\n[[k]]\n[[k.l]]\no = 3\n")
    assert found[("k", 0, "l", 1, "o")] == 6
    assert found[("k", 0, "m", "p")] == 8
    assert found[("k", 1)] == 9
    assert found[("k", 1, "l", 0, "o")] == 11


def test_inline_tables_and_arrays_over_several_lines():
    found = lines_of(
        """\
        a = { b = 1, c.d = [ {e = 1}, {e = "}" } ] }
        f = [
          "x, ]", # a comment ]
          [ 1,
            2 ],
        ]
        g = 1
        """
    )
    assert found[("a", "c", "d", 1, "e")] == 1
    assert found[("f", 0)] == 3
    assert found[("f", 1)] == 4
    assert found[("f", 1, 1)] == 5
    assert found[("g",)] == 7


def test_dotted_and_quoted_keys():
    found = lines_of('a . "b.c" . \'d"e\' = 1\n"" = 2\n"\\u0041" = 3\n["x y".\'[z]\']\nw = 4\n')
    assert found[("a", "b.c", 'd"e')] == 1
    assert found[("",)] == 2
    assert found[("A",)] == 3
    assert found[("x y", "[z]", "w")] == 5


@pytest.mark.parametrize(
    "string",
    [
        '"""\none\ntwo = 3\n"""',
        '"""one\\"""\ntwo"""',
        '"""a""b"""""',
        "'''\n[x]\n'''",
        "'''it's''''",
        '""""""',
    ],
)
def test_multi_line_strings_hold_no_keys(string):
    text = f"a = {string}\nb = 1\n"
    found = lines_of(text)
    assert found[("b",)] == text.count("\n")


def test_windows_line_ends():
    assert lines_of("a = 1\r\n[b]\r\nc = '''x\r\ny'''\r\nd = 2\r\n")[("b", "d")] == 5


def test_dates_and_numbers_end_where_they_end():
    found = lines_of("a = 1979-05-27 07:32:00\nb = [1.5e3, -inf, 0xFF]\nc = {d = true, e = 07:32:00}\nf = 1")
    assert found[("f",)] == 4


KEYS = st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), max_size=4) | st.sampled_from(
    ["a", "b-1", "_c"]
)
LEAVES = st.sampled_from(
    ["1", "-2.5", "true", '"x # ]}"', "'y = 1'", '"""m\n[z]\nn = 1"""', "'''\n'q'\n'''", "07:32:00"]
)


class Leaf(str):
    __slots__ = ()


def values(depth):
    if depth == 0:
        return LEAVES.map(Leaf)
    inner = values(depth - 1)
    return LEAVES.map(Leaf) | st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3)


def quoted(key, draw):
    if key and all(letter.isalnum() or letter in "_-" for letter in key) and draw(st.booleans()):
        return key
    escaped = key.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def inline(value, draw):
    if isinstance(value, Leaf):
        return str(value)
    gap = draw(st.sampled_from(["", " ", "\n  ", " # c ]\n"]))
    if isinstance(value, list):
        return "[" + gap + ("," + gap).join(inline(item, draw) for item in value) + gap + "]"
    return (
        "{" + ", ".join(f"{quoted(key, draw)} = {inline(inner, draw)}" for key, inner in value.items()) + "}"
    )


def table_rows(value, prefix, draw):
    """Rows of a table in a random mixture of TOML's ways to nest."""
    rows, later = [], []
    for key, inner in value.items():
        name = quoted(key, draw)
        many = isinstance(inner, list) and inner and all(type(item) is dict for item in inner)
        if (many or type(inner) is dict) and draw(st.booleans()):
            later.append((name, inner if many else [inner], many))
        elif type(inner) is dict and inner and draw(st.booleans()):
            rows += [f"{name} . {quoted(k, draw)} = {inline(v, draw)}" for k, v in inner.items()]
        else:
            rows.append(f"{name} = {inline(inner, draw)}" + draw(st.sampled_from(["", "  # [x]", "\n\n"])))
    for name, items, many in later:
        path = f"{prefix}.{name}" if prefix else name
        for item in items:
            rows += [f"[[{path}]]" if many else f"[ {path} ]", *table_rows(item, path, draw)]
    return rows


@st.composite
def documents(draw):
    content = draw(st.dictionaries(KEYS, values(3), max_size=5))
    return "\n".join(table_rows(content, "", draw)) + "\n"


@settings(max_examples=200, deadline=None)
@given(documents())
def test_key_paths_are_those_of_tomllib(text):
    assert set(key_lines(text)) == paths_of(tomllib.loads(text))


@settings(max_examples=60, deadline=None)
@given(documents(), st.integers(0, 5))
def test_a_line_inserted_above_moves_every_line(text, count):
    before, after = key_lines(text), key_lines("\n" * count + text)
    assert after == {path: line + count for path, line in before.items()}
