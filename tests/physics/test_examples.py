"""The worked examples of every equation run, and every equation says where it comes from."""

import ast
import doctest
import importlib
import inspect
import pkgutil
import re

import pytest

from pourwright import physics
from pourwright.foundation.sources import load_sources

MODULES = [info.name for info in pkgutil.iter_modules(physics.__path__)]


def public_functions(name):
    module = importlib.import_module(f"pourwright.physics.{name}")
    tree = ast.parse(inspect.getsource(module))
    names = [node.name for node in tree.body if isinstance(node, ast.FunctionDef)]
    return [getattr(module, each) for each in names if not each.startswith("_")]


EQUATIONS = [
    pytest.param(function, id=f"{name}.{function.__name__}")
    for name in MODULES
    for function in public_functions(name)
]


@pytest.mark.parametrize("name", MODULES)
def test_worked_examples_give_what_they_print(name):
    result = doctest.testmod(importlib.import_module(f"pourwright.physics.{name}"))
    assert result.failed == 0


@pytest.mark.parametrize("function", EQUATIONS)
def test_docstring_is_a_data_sheet(function):
    text = inspect.getdoc(function) or ""
    headings = ("Parameters", "Returns", "Notes", "References", "Examples")
    assert [each for each in headings if f"{each}\n---" not in text] == []
    assert ">>>" in text
    assert re.search(r"\[[^\]\n]{1,25}\]", text), "no unit in brackets"


@pytest.mark.parametrize("function", EQUATIONS)
def test_every_source_named_is_in_the_list_of_sources(function):
    text = (inspect.getdoc(function) or "").split("References\n")[1].split("Examples\n")[0]
    keys = re.findall(r"\[([a-z][a-z0-9]*(?:-[a-z0-9]+)+|archimedes)\]", text)
    assert keys, "no source named"
    assert [key for key in keys if key not in load_sources()] == []
