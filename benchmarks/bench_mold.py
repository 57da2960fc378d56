"""The mold of the example, part by part, in one process that has compiled before; and the skin by fineness.

Baseline of the skin: Steiner's formula for a box cut at its open face, which is exact, and area times
thickness, what one would write first.
"""

from datetime import UTC, datetime
from pathlib import Path
from time import perf_counter

import numpy as np

from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.looks import FILES, LOOKS
from pourwright.app.molding.molding import mold_job, mold_sheet
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.progress import SILENT
from pourwright.geometry import box
from pourwright.jobs import load_job
from pourwright.mold.ways.facts import skin_volume

EXAMPLE = Path(__file__).parents[1] / "examples" / "hourglass-stool" / "job.toml"


def timed(work, repeats: int = 3):  # type: ignore[no-untyped-def]
    """Best of a few runs, and the answer."""
    times = []
    for _ in range(repeats):
        begun = perf_counter()
        answer = work()
        times.append(perf_counter() - begun)
    return min(times), answer


def parts() -> None:
    """Each look at the mold, in the order of work."""
    job = load_job(EXAMPLE)
    mold_job(EXAMPLE)
    reading, piece = timed(lambda: read_piece(job))
    designing, look = timed(lambda: look_at_mold(job, piece))
    print(f"{'reading the shape':24s} {reading:6.2f} s\n{'designing':24s} {designing:6.2f} s")
    for name, tell in LOOKS.items():
        spent, _ = timed(lambda tell=tell: tell(look, SILENT))
        print(f"{name:24s} {spent:6.2f} s")
    sheet = mold_sheet(look, datetime(2027, 1, 1, tzinfo=UTC))
    for make in FILES:
        spent, _ = timed(lambda make=make: list(make(look, sheet)), 1)
        print(f"{make.__name__.replace('_', ' '):24s} {spent:6.2f} s")
    whole, _ = timed(lambda: mold_job(EXAMPLE))
    print(f"{'all, without files':24s} {whole:6.2f} s")


def skins() -> None:
    """A skin of 10 mm around a box and around the stool, by the size of the cubes."""
    x, y, z, t = 0.3, 0.2, 0.25, 0.01
    edges, corners = np.pi * t**2 / 4 * (4 * z + 2 * x + 2 * y), 2 * np.pi * t**3 / 3
    exact = (x * y + 2 * x * z + 2 * y * z) * t + edges + corners
    stool = read_piece(load_job(EXAMPLE)).mesh
    _, fine = timed(lambda: skin_volume(stool, t, t / 10), 1)
    print("\ncubes / skin   box off by   box      stool off by   stool")
    for share in (0.1, 0.2, 0.4, 0.8):
        spent, found = timed(lambda share=share: skin_volume(box([x, y, z]), t, share * t))
        longer, told = timed(lambda share=share: skin_volume(stool, t, share * t))
        print(
            f"{share:8.1f} {found / exact - 1:14.3%} {spent:9.2f} s {told / fine - 1:12.3%} {longer:9.2f} s"
        )
    plain = (x * y + 2 * x * z + 2 * y * z) * t
    print(f"area times thickness, box: {plain / exact - 1:.2%}")


def main() -> None:
    """Print both tables."""
    parts()
    skins()
