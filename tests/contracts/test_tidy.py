import ast
import re
import statistics

from tests.contracts.house import SOURCES, Function, functions, name_of, text_files

# written so that the patterns do not find themselves
_MACHINE = re.compile(r"/wor[k]/|/roo[t]/|/hom[e]/[a-z]|[A-Z]:\\User[s]|/tm[p]/[a-z]")


def code_lines(node: Function) -> int:
    """Lines of a function without its docstring."""
    body = node.body[1:] if ast.get_docstring(node) else node.body
    return 1 + (node.end_lineno or 0) - body[0].lineno + 1 if body else 1


def test_no_drawer_for_odds_and_ends() -> None:
    drawers = {"utils", "util", "helpers", "misc"}
    assert not [name_of(path) for path in SOURCES if drawers & {path.stem, path.parent.name}]


def test_files_stay_short() -> None:
    lengths = {name_of(path): len(path.read_text("utf8").splitlines()) for path in SOURCES}
    assert {name: length for name, length in lengths.items() if length > 800} == {}
    assert statistics.median(lengths.values()) < 200


def test_functions_stay_short() -> None:
    lengths = sorted(
        code_lines(node) for path in SOURCES for node, _ in functions(ast.parse(path.read_text("utf8")))
    )
    assert statistics.median(lengths) < 10
    assert lengths[round(0.9 * (len(lengths) - 1))] < 30


def test_no_path_of_one_machine() -> None:
    found = [
        f"{name}:{number}"
        for name, text in text_files()
        for number, line in enumerate(text.splitlines(), 1)
        if _MACHINE.search(line)
    ]
    assert not found
