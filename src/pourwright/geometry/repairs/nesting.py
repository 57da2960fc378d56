"""Which closed surface lies in which, and what of it encloses material."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from pourwright.geometry.faults import Fault
from pourwright.geometry.mesh import Integers
from pourwright.geometry.repairs.mending import Mending, counted
from pourwright.geometry.repairs.shells import Shell
from pourwright.geometry.repairs.union import Relation, manifold_of, relation


@dataclass(frozen=True, slots=True, eq=False)
class Nested:
    """Shells that count, with who lies in whom and who overlaps whom.

    Parameters
    ----------
    shells : tuple of Shell
        Each faces as it has to.
    hosts : tuple of frozenset of int
        Shells that each one lies in.
    overlaps : tuple of pairs of int
        Shells that overlap or touch in a face.
    mendings : tuple of Mending
        What was turned or left out.
    faults : tuple of Fault
        What has no clear meaning.
    """

    shells: tuple[Shell, ...]
    hosts: tuple[frozenset[int], ...]
    overlaps: tuple[tuple[int, int], ...]
    mendings: tuple[Mending, ...] = ()
    faults: tuple[Fault, ...] = ()


def nested(shells: Sequence[Shell]) -> Nested:
    """Sort shells into bodies, cavities and what is swallowed.

    Parameters
    ----------
    shells : sequence of Shell
        Each closed and not crossing itself.

    Returns
    -------
    Nested

    Notes
    -----
    Space is material where the winding number is above zero. An outermost shell that faces inward is inside
    out and is turned with all that lies in it. A shell inside another that faces as it does changes nothing
    and is left out; one that faces the other way is a cavity and stays.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> from pourwright.geometry.repairs.shells import shells_of
    >>> room = joined([box([2, 2, 2]), box([1, 1, 1]).moved([0, 0, 0.5]).reversed()])
    >>> [shell.inward for shell in nested(shells_of(room)).shells]
    [False, True]
    """
    hosts, overlaps = _relations(shells)
    found = Nested(tuple(shells), hosts, overlaps)
    found = _turned(found)
    if found.faults:
        return found
    return _without_swallowed(found)


def _relations(shells: Sequence[Shell]) -> tuple[tuple[frozenset[int], ...], tuple[tuple[int, int], ...]]:
    solids: dict[int, Any] = {}

    def solid(n: int) -> Any:
        if n not in solids:
            solids[n] = manifold_of(shells[n].mesh)
        return solids[n]

    hosts: list[set[int]] = [set() for _ in shells]
    overlaps = []
    bounds = np.array([shell.mesh.bounds for shell in shells])
    for one in range(len(shells)):
        near = (bounds[one + 1 :, 0] <= bounds[one, 1]) & (bounds[one + 1 :, 1] >= bounds[one, 0])
        for other in (np.flatnonzero(near.all(axis=1)) + one + 1).tolist():
            how = relation(solid(one), solid(other))
            if how is Relation.WITHIN:
                hosts[one].add(other)
            elif how is Relation.AROUND:
                hosts[other].add(one)
            elif how is not Relation.APART:
                overlaps.append((one, other))
    return tuple(frozenset(names) for names in hosts), tuple(overlaps)


def _turned(found: Nested) -> Nested:
    """Turn outermost shells that face inward, with all that lies in them."""
    shells = list(found.shells)
    outermost = [n for n, hosts in enumerate(found.hosts) if not hosts and shells[n].inward]
    turned = []
    all_inward = all(shells[n].inward for n, hosts in enumerate(found.hosts) if not hosts)
    crossed = {n for pair in found.overlaps for n in pair}
    for root in outermost:
        if root in crossed and not all_inward:
            message = "a surface that faces inward breaks through another: a cavity, or a body inside out"
            return replace(found, faults=(_untold(message, shells[root]),))
        inside = [n for n, hosts in enumerate(found.hosts) if root in hosts]
        doubtful = [n for n in inside if shells[n].inward and len(found.hosts[n]) == 1]
        if doubtful:
            message = "a surface and the one around it both face inward: a cavity, or a second body"
            return replace(found, faults=(_untold(message, shells[doubtful[0]]),))
        for n in (root, *inside):
            shells[n] = replace(shells[n], inward=not shells[n].inward)
        turned.append(root)
    if not turned:
        return found
    said = counted(len(turned), "body was", "bodies were")
    places = np.array([shells[n].middle for n in turned])
    told = Mending("inverted", f"{said} inside out and turned", places, volume=0.0)
    return replace(found, shells=tuple(shells), mendings=(told,))


def _untold(message: str, shell: Shell) -> Fault:
    """Refuse what has two meanings."""
    todo = "turn it the way it is meant in the program that made it"
    return Fault("inverted", f"{message}, which it is cannot be told,", shell.middle, todo=todo)


def _without_swallowed(found: Nested) -> Nested:
    shells, hosts = found.shells, found.hosts
    signs = np.array([-1 if shell.inward else 1 for shell in shells])
    outside = np.array([signs[list(names)].sum() if names else 0 for names in hosts])
    within = outside + signs
    if fault := _unclear(found, outside, within):
        return replace(found, faults=(fault,))
    keep = (outside > 0) != (within > 0)
    if keep.all():
        return found
    number = np.cumsum(keep) - 1
    kept = [n for n in range(len(shells)) if keep[n]]
    return Nested(
        tuple(shells[n] for n in kept),
        tuple(frozenset(int(number[m]) for m in hosts[n] if keep[m]) for n in kept),
        tuple((int(number[a]), int(number[b])) for a, b in found.overlaps if keep[a] and keep[b]),
        (*found.mendings, *_told([shell for shell, stays in zip(shells, keep, strict=True) if not stays])),
    )


def _unclear(found: Nested, outside: Integers, within: Integers) -> Fault | None:
    """Find what lies in a cavity without hanging on anything."""
    shells = found.shells
    if (lost := np.flatnonzero(np.minimum(outside, within) < 0)).size:
        message = (
            "a surface that faces inward lies in a cavity: a loose body or a second cavity, it cannot be told"
        )
        return Fault("loose", message, shells[int(lost[0])].middle)
    held = {n for pair in found.overlaps for n in pair}
    loose = [
        n
        for n, names in enumerate(found.hosts)
        if names and not shells[n].inward and outside[n] == 0 and n not in held
    ]
    if not loose:
        return None
    first = shells[loose[0]]
    message = "a loose body lies in a cavity, {0} x {1} x {2} {u} large,"
    todo = "take it out, or join it to the wall, in the program that made it"
    return Fault("loose", message, first.middle, len(loose), True, todo, first.size)


def _told(gone: list[Shell]) -> list[Mending]:
    """Tell apart bodies that are swallowed and cavities that another body fills."""
    told = []
    bodies = np.array([shell.middle for shell in gone if not shell.inward])
    filled = np.array([shell.middle for shell in gone if shell.inward])
    if len(bodies):
        said = counted(len(bodies), "body lies", "bodies lie")
        verb = "is a part" if len(bodies) == 1 else "are parts"
        message = f"{said} wholly inside another that faces the same way, and {verb} of it"
        told.append(
            Mending("nested", message, bodies, after="were it a cavity, it would have to face inward")
        )
    if len(filled):
        said = counted(len(filled), "cavity lies", "cavities lie")
        told.append(Mending("nested", f"{said} wholly inside another body, which fills it", filled))
    return told
