"""What was once found out about a mesh stays beside it for as long as the mesh is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from threading import Lock
from typing import ParamSpec, TypeAlias, TypeVar
from weakref import WeakKeyDictionary

from pourwright.geometry.mesh import Mesh

P = ParamSpec("P")
R = TypeVar("R")
Question: TypeAlias = tuple[object, ...]
"""Name of a function, and what it was asked beside the mesh."""
MOST = 128
"""Answers about one mesh; beyond it the oldest go."""

_BESIDE: WeakKeyDictionary[Mesh, dict[Question, object]] = WeakKeyDictionary()
_LOCK = Lock()


def kept(function: Callable[P, R]) -> Callable[P, R]:
    """Let a function answer a question about a mesh only once.

    Parameters
    ----------
    function : callable
        Of a mesh, first, and of values that can be hashed; its answer is not to be changed, and does not
        hold the mesh itself.

    Returns
    -------
    callable
        The same, which looks beside the mesh first.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> asked = []
    >>> count = kept(lambda mesh: asked.append(1) or len(mesh.faces))
    >>> cube = box([1.0, 1.0, 1.0])
    >>> count(cube), count(cube), len(asked)
    (12, 12, 1)
    """
    name = _name(function)

    @wraps(function)
    def once(*args: P.args, **options: P.kwargs) -> R:
        mesh, *rest = args or (options["mesh"],)
        assert isinstance(mesh, Mesh)
        facts = _beside(mesh)
        question = (name, *rest, *sorted(each for each in options.items() if each[0] != "mesh"))
        if question not in facts:
            _put(facts, question, function(*args, **options))
        answer: R = facts[question]  # type: ignore[assignment]
        return answer

    return once


def known(function: Callable[..., object], mesh: Mesh, *args: object) -> bool:
    """Say whether a question was answered before.

    Parameters
    ----------
    function : callable
        Made by `kept`.
    mesh : Mesh
        Asked about.
    *args : object
        What else was asked.

    Returns
    -------
    bool
    """
    return (_name(function), *args) in _beside(mesh)


def beside(mesh: Mesh) -> Mapping[Question, object]:
    """Take all that is known of a mesh, to be kept elsewhere.

    Parameters
    ----------
    mesh : Mesh
        Asked about.

    Returns
    -------
    mapping
        Answers by question.
    """
    return dict(_beside(mesh))


def lay_beside(mesh: Mesh, answers: Mapping[Question, object]) -> None:
    """Put back what `beside` took from an equal mesh.

    Parameters
    ----------
    mesh : Mesh
        The same triangles.
    answers : mapping
        By question.
    """
    facts = _beside(mesh)
    for question, answer in answers.items():
        _put(facts, question, answer)


def _name(function: Callable[..., object]) -> str:
    return f"{function.__module__}.{function.__qualname__}"


def _beside(mesh: Mesh) -> dict[Question, object]:
    with _LOCK:
        return _BESIDE.setdefault(mesh, {})


def _put(facts: dict[Question, object], question: Question, answer: object) -> None:
    with _LOCK:
        facts[question] = answer
        while len(facts) > MOST:
            facts.pop(next(iter(facts)))
