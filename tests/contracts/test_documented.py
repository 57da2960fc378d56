import ast
import importlib
import re
from functools import cache
from pathlib import Path

import pytest

from tests.contracts.house import PACKAGE, SOURCES, Function, functions, name_of

# click shows a command's docstring to the maker, so it is written for reading in the terminal
_COMMAND = re.compile(r"command|group|option|argument")
_VALIDATOR = re.compile(r"validator|serializer|overload|setter")


def decorators(node: Function) -> list[str]:
    return [ast.unparse(each) for each in node.decorator_list]


def arguments(node: Function) -> list[str]:
    spec = node.args
    plain = [*spec.posonlyargs, *spec.args, *spec.kwonlyargs, spec.vararg, spec.kwarg]
    return [each.arg for each in plain if each and each.arg not in {"self", "cls"} and each.arg[0] != "_"]


def returns_something(node: Function) -> bool:
    return node.returns is not None and ast.unparse(node.returns) not in {"None", "Never", "NoReturn"}


def section(text: str, title: str) -> str:
    """Body of one section of a numpy docstring, empty where there is none."""
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n-{{3,}}$|\Z)", text, re.MULTILINE | re.DOTALL)
    return found[1] if found else ""


@cache
def shown_outside(room: str) -> frozenset[str] | None:
    """The names a room hands out; None where every module of it is open to all."""
    names = getattr(importlib.import_module(f"pourwright.{room}"), "__all__", None)
    return None if names is None or room == "physics" else frozenset(names)


def needs_sheet(node: Function, owner: ast.ClassDef | None, path: Path) -> bool:
    """Whether a function has a data sheet; what stays inside its room needs its sentence only."""
    if owner is not None or any(_COMMAND.search(each) for each in decorators(node)):
        return False
    names = None if path.parent == PACKAGE else shown_outside(path.relative_to(PACKAGE).parts[0])
    return names is None or node.name in names


def gaps(node: Function, *, sheet: bool) -> list[str]:
    """What the docstring lacks."""
    text = ast.get_docstring(node) or ""
    if not text:
        return ["has no docstring"]
    if not sheet:
        return []
    told = section(text, "Parameters")
    missing = [f"does not document {each}" for each in arguments(node) if not re.search(rf"\b{each}\b", told)]
    silent = returns_something(node) and not (section(text, "Returns") or section(text, "Yields"))
    return missing + ["does not say what it returns"] * silent


def public(node: Function, owner: ast.ClassDef | None) -> bool:
    hidden = node.name.startswith("_") or (owner is not None and owner.name.startswith("_"))
    return not hidden and not any(_VALIDATOR.search(each) for each in decorators(node))


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_everything_public_is_documented(path: Path) -> None:
    tree = ast.parse(path.read_text("utf8"))
    found = [] if ast.get_docstring(tree) else [f"{name_of(path)} has no docstring"]
    classes = [node for node in tree.body if isinstance(node, ast.ClassDef) and node.name[0] != "_"]
    found += [f"{node.name} has no docstring" for node in classes if not ast.get_docstring(node)]
    for node, owner in functions(tree):
        if public(node, owner):
            found += [f"{node.name} {gap}" for gap in gaps(node, sheet=needs_sheet(node, owner, path))]
    assert not found


@pytest.mark.parametrize("path", sorted((PACKAGE / "physics").rglob("*.py")), ids=name_of)
def test_physics_is_a_data_sheet(path: Path) -> None:
    found = []
    for node, owner in functions(ast.parse(path.read_text("utf8"))):
        text = ast.get_docstring(node) or ""
        if owner is None and public(node, owner):
            found += [f"{node.name} has no worked example"] * (">>> " not in text)
            found += [f"{node.name} names no source"] * (not re.search(r"\bSource|References", text))
            found += [f"{node.name} gives no unit"] * (not re.search(r"\[[^\]\n]{1,25}\]", text))
    assert not found
