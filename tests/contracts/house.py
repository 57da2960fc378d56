"""The house as its contracts see it: modules, syntax trees, tracked text."""

import ast
import importlib
import pkgutil
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType

import pourwright

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "pourwright"
SOURCES = sorted(PACKAGE.rglob("*.py"))
Function = ast.FunctionDef | ast.AsyncFunctionDef
_NOT_OURS = {"__pycache__", "node_modules", "build", "dist", "plan"}


def name_of(path: Path) -> str:
    """Path as the repository writes it."""
    return path.relative_to(ROOT).as_posix()


def modules() -> Iterator[ModuleType]:
    """Import every module of the package, in order of its name."""
    for found in sorted(
        pkgutil.walk_packages(pourwright.__path__, "pourwright."), key=lambda each: each.name
    ):
        if not found.name.endswith("__main__"):
            yield importlib.import_module(found.name)


def ranged_functions() -> dict[str, Callable[..., object]]:
    """Every function that declares ranges, by its dotted name."""
    return {
        f"{module.__name__}.{name}": value
        for module in modules()
        for name, value in sorted(vars(module).items())
        if hasattr(value, "__ranges__") and value.__module__ == module.__name__
    }


def functions(tree: ast.AST) -> Iterator[tuple[Function, ast.ClassDef | None]]:
    """Functions and methods of a module, each with its class; not those inside functions."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, Function):
            yield node, None
        elif isinstance(node, ast.ClassDef):
            yield from ((each, node) for each in node.body if isinstance(each, Function))


def text_files() -> Iterator[tuple[str, str]]:
    """Every file of ours that is text, by its name."""
    for path in sorted(ROOT.rglob("*")):
        parts = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") for part in parts[:-1]) and parts[0] != ".ci"
        if hidden or _NOT_OURS & set(parts) or not path.is_file():
            continue
        try:
            yield name_of(path), path.read_text("utf8")
        except UnicodeDecodeError:
            continue
