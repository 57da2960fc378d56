"""A room that hands its names out on first use says the same to the reader of its types."""

import ast
from pathlib import Path

import pytest

from tests.contracts.house import PACKAGE

LATE = [path for path in sorted(PACKAGE.glob("*/__init__.py")) if "__getattr__" in path.read_text("utf8")]


def handed_out(tree: ast.Module) -> dict[str, str]:
    """Module of each name, as it is looked up on first use."""
    tables = [
        node.value
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "_PUBLIC"
    ]
    return dict(ast.literal_eval(tables[0]))


def typed(tree: ast.Module) -> dict[str, str]:
    """Module of each name, as the reader of types sees it."""
    blocks = [
        node for node in tree.body if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
    ]
    imports = [node for block in blocks for node in block.body if isinstance(node, ast.ImportFrom)]
    return {
        alias.asname or "": (node.module or "").split(".", 2)[2] for node in imports for alias in node.names
    }


@pytest.mark.parametrize("path", LATE, ids=lambda path: path.parent.name)
def test_names_handed_out_late_are_typed(path: Path) -> None:
    tree = ast.parse(path.read_text("utf8"))
    assert typed(tree) == handed_out(tree)
