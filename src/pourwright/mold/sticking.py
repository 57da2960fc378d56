"""Whether the mold rubber sets on the master and lets go of it, and whether the cast lets go of the mold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from pourwright.materials.contact import VERDICTS, Coat, ContactTable, Verdict, hint_for, load_contact

SEALED_BY, RELEASED_BY = "acrylic-lacquer", "petroleum-jelly"
OLD_RUBBER = {"platinum": "platinum-rubber", "tin": "tin-rubber"}
_NEEDS_SEALER, _NEEDS_RELEASE = {"porous", "open-edges"}, {"porous", "silica", "old-silicone"}


@dataclass(frozen=True)
class Layers:
    """What lies between the master and the rubber, by id in the contact table.

    Parameters
    ----------
    surface, sealer, release : str
        From the master outwards.
    cure_kind : str
        What the rubber cures by: platinum or tin.
    """

    surface: str
    sealer: str
    release: str
    cure_kind: str


@dataclass(frozen=True)
class Cell:
    """One factor of a contact: what it would do, what a coat does about it, what is left.

    Parameters
    ----------
    what, why : str
        In words.
    bare, left : str
        Verdict without the coats, and with them.
    coat : str
        Name of the coat that takes it away or weakens it; empty without.
    kind, source : str
        Where it is known from.
    """

    what: str
    why: str
    bare: Verdict
    left: Verdict
    coat: str
    kind: str
    source: str


@dataclass(frozen=True)
class Judgement:
    """What is to be expected of one contact.

    Parameters
    ----------
    layers : Layers
        What was looked at.
    verdict : str
        "fine", "test first" or "no": the worst that is left.
    cells : tuple of Cell
        Factor by factor.
    hints : tuple of str
        What the table does not know.
    """

    layers: Layers
    verdict: Verdict
    cells: tuple[Cell, ...]
    hints: tuple[str, ...] = ()


def worst(verdicts: Iterator[Verdict] | list[Verdict]) -> Verdict:
    """Pick the worst verdict; fine where there is none.

    Examples
    --------
    >>> worst(["fine", "no", "test first"])
    'no'
    """
    return max(verdicts, key=VERDICTS.index, default="fine")


def default_sealer(surface: str, table: ContactTable | None = None) -> str:
    """Say which sealer a surface is taken to have where the job names none.

    Parameters
    ----------
    surface : str
        Id of a surface; one unknown gets none.
    table : ContactTable, optional
        Else the package's own.

    Returns
    -------
    str
        Id of a sealer.

    Examples
    --------
    >>> default_sealer("mdf"), default_sealer("glass"), default_sealer("polystyrene-foam")
    ('acrylic-lacquer', 'none', 'pva')
    """
    table = table or load_contact()
    found = table.surface.get(surface)
    if found is None or not _NEEDS_SEALER & set(found.factors):
        return "none"
    return "pva" if surface in table.sealer[SEALED_BY].spoils else SEALED_BY


def default_release(surface: str, *, on_old_rubber: bool = False, table: ContactTable | None = None) -> str:
    """Say which release is taken where the job names none.

    Parameters
    ----------
    surface : str
        Id of a surface; one unknown gets none.
    on_old_rubber : bool
        Whether the new rubber also meets cured rubber.
    table : ContactTable, optional
        Else the package's own.

    Returns
    -------
    str
        Id of a release.

    Examples
    --------
    >>> default_release("glass"), default_release("print-pla"), default_release("wax", on_old_rubber=True)
    ('petroleum-jelly', 'none', 'petroleum-jelly')
    """
    table = table or load_contact()
    found = table.surface.get(surface)
    needs = found is not None and bool(_NEEDS_RELEASE & set(found.factors))
    if surface in table.release[RELEASED_BY].spoils:
        return "pva"
    return RELEASED_BY if needs or on_old_rubber else "none"


def judge(layers: Layers, table: ContactTable | None = None) -> Judgement:
    """Judge one contact of curing rubber with a coated surface.

    Parameters
    ----------
    layers : Layers
        By ids; what the table does not know is to be tested first, never fine.
    table : ContactTable, optional
        Else the package's own.

    Returns
    -------
    Judgement

    Examples
    --------
    >>> judge(Layers("glass", "none", "none", "platinum")).verdict
    'no'
    >>> judge(Layers("glass", "none", "petroleum-jelly", "platinum")).verdict
    'fine'
    >>> judge(Layers("unobtainium", "none", "none", "tin")).verdict
    'test first'
    """
    table = table or load_contact()
    hints = tuple(_unknown(layers, table))
    cells = tuple(_cells(layers, table))
    unknown: Verdict = "test first" if hints else "fine"
    return Judgement(layers, worst([unknown, *(cell.left for cell in cells)]), cells, hints)


def _unknown(layers: Layers, table: ContactTable) -> Iterator[str]:
    for what, name in (("surface", layers.surface), ("sealer", layers.sealer), ("release", layers.release)):
        shelf = getattr(table, what)
        if name not in shelf:
            yield f"nothing is known of the {what} '{name}': test first; {hint_for(name, shelf)}"
    if layers.cure_kind not in OLD_RUBBER:
        yield f"nothing is known of a rubber that cures by '{layers.cure_kind}': test first"


def _coats(layers: Layers, table: ContactTable) -> list[Coat]:
    found = [table.sealer.get(layers.sealer), table.release.get(layers.release)]
    return [coat for coat in found if coat is not None]


def _cells(layers: Layers, table: ContactTable) -> Iterator[Cell]:
    coats = _coats(layers, table)
    surface = table.surface.get(layers.surface)
    own = () if surface is None else surface.factors
    # a coat acts on what lies below it, and what it brings is left to the coats above
    for depth, names in enumerate([own, *(coat.brings for coat in coats)]):
        for name in names:
            yield _cell(name, coats[depth:], layers.cure_kind, table)
    for coat in coats:
        if layers.surface in coat.spoils:
            why = f"its solvent eats {table.surface[layers.surface].name}"
            yield Cell(coat.name, why, "no", "no", "", coat.kind, coat.source)


def _cell(name: str, above: list[Coat], cure_kind: str, table: ContactTable) -> Cell:
    factor = table.factor[name]
    bare = factor.verdict(cure_kind)
    left, by = bare, ""
    for coat in above:
        if bare != "fine" and name in coat.covers:
            left, by = "fine", coat.name
            break
        if left == "no" and name in coat.weakens:
            left, by = "test first", coat.name
    return Cell(factor.name, factor.why, bare, left, by, factor.kind, factor.source)


def better(layers: Layers, table: ContactTable | None = None) -> Judgement | None:
    """Find coats that make a contact better, with as little change as can be.

    Parameters
    ----------
    layers : Layers
        As chosen.
    table : ContactTable, optional
        Else the package's own.

    Returns
    -------
    Judgement or None
        None where no coat of the table makes it better.

    Examples
    --------
    >>> better(Layers("glass", "none", "none", "platinum")).layers.release
    'petroleum-jelly'
    >>> better(Layers("print-photopolymer", "none", "none", "platinum")).verdict
    'test first'
    """
    table = table or load_contact()
    now = judge(layers, table).verdict
    tried = [
        judge(replace(layers, sealer=sealer, release=release), table)
        for sealer, release in product(table.sealer, table.release)
    ]
    better_ones = [one for one in tried if VERDICTS.index(one.verdict) < VERDICTS.index(now)]
    return min(better_ones, key=lambda one: _effort(one, layers, table), default=None)


def _effort(one: Judgement, before: Layers, table: ContactTable) -> tuple[int, int, float]:
    changed = (one.layers.sealer != before.sealer) + (one.layers.release != before.release)
    coats = _coats(one.layers, table)
    return VERDICTS.index(one.verdict), changed, sum(coat.days.value for coat in coats)
