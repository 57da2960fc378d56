"""How much memory there is, and whether a grid fits into it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from itertools import pairwise
from math import ceil, floor, log10
from pathlib import Path

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.pour.layout import grid_lines
from pourwright.pour.site import Site

BYTES_PER_CELL = 500
"""What a run holds per cell at once [B]: 400 to 450 measured here, and a margin."""
BASE_BYTES = 250e6
"""What it holds besides [B]: the program and its compiled kernels, measured here."""
_SHARE = 0.9


def free_memory(root: Path = Path("/")) -> float:
    """Read how much memory can still be had.

    Parameters
    ----------
    root : Path
        Of the file system.

    Returns
    -------
    float
        [B]; the least of what the computer and the group this process runs in have left.
    """
    return min(_bounds(root), default=float("inf"))


def _bounds(root: Path) -> Iterator[float]:
    with suppress(OSError, ValueError, StopIteration):
        lines = (root / "proc/meminfo").read_text("ascii").splitlines()
        line = next(line for line in lines if line.startswith("MemAvailable:"))
        yield float(line.split()[1]) * 1024
    group = root / "sys/fs/cgroup"
    for most, used in (
        ("memory.max", "memory.current"),
        ("memory/memory.limit_in_bytes", "memory/memory.usage_in_bytes"),
    ):
        with suppress(OSError, ValueError):
            taken = float((group / used).read_text("ascii"))
            kept_files = _droppable((group / used).with_name("memory.stat"))
            yield float((group / most).read_text("ascii")) - taken + kept_files
    with suppress(ValueError, OSError, AttributeError):
        yield float(os.sysconf("SC_PAGE_SIZE")) * float(os.sysconf("SC_PHYS_PAGES"))


def _droppable(stat: Path) -> float:
    """Files that a group keeps in memory until somebody needs the room [B]; they count as taken."""
    with suppress(OSError, ValueError):
        lines = (line.partition(" ") for line in stat.read_text("ascii").splitlines())
        told = {name: float(amount) for name, _, amount in lines}
        return told.get("total_inactive_file", told.get("inactive_file", 0.0))
    return 0.0


def count_cells(site: Site, spacing: float, across: float, levels: tuple[float, ...] = ()) -> float:
    """Count the cells of a grid without making it.

    Parameters
    ----------
    site : Site
        What stands on the bench.
    spacing, across : float
        Widest cell along z, and along x and y [m].
    levels : tuple of float
        Lines of the grid [m].

    Returns
    -------
    float
        A few more where lines lie close together.
    """
    cells = 1.0
    for lines, step in zip(grid_lines(site, levels), (across, across, spacing), strict=True):
        rising = sorted(set(lines))
        cells *= sum(max(1, ceil((b - a) / step)) for a, b in pairwise(rising))
    return cells


def refuse_without_room(
    site: Site,
    spacing: float,
    across: float,
    levels: tuple[float, ...] = (),
    *,
    where: str,
    todo: str = "",
    free: float | None = None,
) -> None:
    """Refuse a grid that needs more memory than there is.

    Parameters
    ----------
    site : Site
        What stands on the bench.
    spacing, across : float
        Widest cell along z, and along x and y [m].
    levels : tuple of float
        Lines of the grid [m].
    where : str
        For the error.
    todo : str
        What to do; by default, to take the spacing that fits.
    free : float, optional
        Memory there is [B], if known.

    Raises
    ------
    UserError
        With how much is asked, how much there is, and which spacing fits.
    """
    room = free_memory() if free is None else free
    cells = count_cells(site, spacing, across, levels)
    asked = BASE_BYTES + BYTES_PER_CELL * cells
    if asked <= _SHARE * room:
        return
    fits = _fitting(site, spacing, across, levels, room)
    what = (
        f"a grid of {_amount(cells)} cells asks for {_bytes(asked)} of memory, and there are {_bytes(room)}"
    )
    if fits is None:
        raise UserError(what, where=where, todo="close other programs, or take another computer")
    length = format_length(fits, UnitSystem.METRIC, digits=_digits(fits))
    raise UserError(what, where=where, allowed=f"cells of {length} or more", todo=todo or f'write "{length}"')


def _fitting(
    site: Site, spacing: float, across: float, levels: tuple[float, ...], room: float
) -> float | None:
    """Least value of the finer of the two that fits, in steps of a tenth, written with two digits."""
    factor = 1.0
    while factor < 1e9:
        step = _two_digits(min(spacing, across) * factor)
        cells = count_cells(site, max(spacing, step), max(across, step), levels)
        if BASE_BYTES + BYTES_PER_CELL * cells <= _SHARE * room:
            return step
        factor *= 1.1
    return None


def _two_digits(value: float) -> float:
    scale = 10.0 ** (floor(log10(value)) - 1)
    return ceil(value / scale - 1e-9) * scale


def _digits(length: float) -> int:
    return max(0, 1 - floor(log10(length * 1000)))


def _amount(count: float) -> str:
    return f"{count:.0f}" if count < 1e5 else f"{count / 1e6:.1f} million" if count < 1e9 else f"{count:.0e}"


def _bytes(amount: float) -> str:
    return f"{amount / 1e9:.1f} GB" if amount < 1e12 else f"{amount / 1e12:.0f} TB"
