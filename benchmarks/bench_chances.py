"""How long chances take: two hundred draws of the example's plan run through, or eighty and an emulator.

The plan is the example's own, fixed here, so that the figure does not hang on the search. Goals: 200
members within 75 s on two cores; or, by an emulator of at least 60 runs, within 15 s, its error on 20
held-out runs printed.
"""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from time import perf_counter

import numpy as np

from pourwright.app.hands import Work, open_hands
from pourwright.app.setup import set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import begin, request
from pourwright.jobs import load_job
from pourwright.planner.chances import gather, standard, weigh

JOB = Path(__file__).parents[1] / "examples" / "hourglass-stool" / "job.toml"
HOUR = 3600.0
PLAN = ((0.03, 0.0), (0.06, 48 * HOUR), (0.09, 102 * HOUR), (0.44, 169 * HOUR))
MEMBERS = 200


def main() -> None:
    """Print seconds and errors."""
    job = load_job(JOB)
    setup = set_up(job, read_piece(job))
    asked = request(setup, begin(setup, None, datetime(2026, 12, 1, 12, tzinfo=UTC)), 0.008)
    doubt, limit = asked.doubt, asked.peak_limit
    assert doubt is not None
    points = standard(MEMBERS, doubt.size, 0)
    with open_hands(Work(no_cache=True)) as hands:
        gather(doubt, PLAN, asked.hours, limit, points[:4], hands)
        begun = perf_counter()
        every = gather(doubt, PLAN, asked.hours, limit, points, hands)
        print(f"{MEMBERS} members run through: {perf_counter() - begun:.1f} s")
        begun = perf_counter()
        found = weigh(doubt, PLAN, asked.hours, limit, each=hands)
        share, errors = found.any_over, [answer.error for answer in found.peaks if answer is not None]
        print(f"80 runs and an emulator: {perf_counter() - begun:.1f} s")
    counted = np.mean([max(pour.peak for pour in life.pours) > limit for life in every.lived])
    print(f"over the limit: {counted:.3f} of the members run through, {share:.3f} by the emulator")
    told = ", ".join(f"{100 * error:.0f} %" for error in errors)
    print(f"nine of ten of 20 held-out runs within {told} of the rise")


if __name__ == "__main__":
    main()
