"""Six variants of the stool side by side: the first time, and after a price has changed; a month drawn.

Goal: under 120 s the first time on two cores, planned with the likeliest numbers, and 5 s after a change of
a price. Nothing is kept before the first time but compiled code. Prices and variants are invented.
"""

import os
import shutil
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from pourwright.app import cost_job, cost_variants

STOOL = Path(__file__).parents[1] / "examples" / "hourglass-stool"
VARIANTS = """
[[variant]]
name = "as drawn"
[[variant]]
name = "polished"
[[variant]]
name = "thicker rubber"
mold = { wall = "25 mm" }
[[variant]]
name = "medium epoxy"
casting = { material = "epoxy-medium" }
[[variant]]
name = "gypsum"
casting = { material = "gypsum-casting" }
[[variant]]
name = "concrete"
casting = { material = "concrete-fine" }
"""
PRICES = """format = 1
currency = "EUR"
date = "2026-11-02"
invented = true
[[price]]
of = "resin"
price = "{resin} EUR/kg"
[[price]]
of = "mineral"
price = "1.10 EUR/kg"
[[price]]
of = "rubber"
price = "21.50 EUR/kg"
[[price]]
of = "hour"
price = "24 EUR/h"
[finish]
of = {{ polished = "polished", concrete = "raw" }}
[run]
per_month = 2
[sell]
margin = 0.3
"""


def timed(work: Callable[[], object]) -> str:
    """Seconds on the clock, and of all processors."""
    begin, used = time.perf_counter(), os.times()
    work()
    now = os.times()
    of_processors = sum(now[:4]) - sum(used[:4])
    return f"{time.perf_counter() - begin:7.1f} s on the clock, {of_processors:7.1f} s of processors"


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["POURWRIGHT_CACHE"] = str(folder / "caches")
        shutil.copy(STOOL / "stool.stl", folder)
        job, prices = folder / "job.toml", folder / "prices.toml"
        job.write_text((STOOL / "job.toml").read_text("utf8") + VARIANTS, "utf8")
        for title, resin in (("first time", "14.80"), ("a price later", "15.80")):
            prices.write_text(PRICES.format(resin=resin), "utf8")
            print(f"six variants, {title:14s}{timed(lambda: cost_variants(job, quick=True))}")
        for title, risk in (("cost of one", False), ("and its month", True)):
            print(f"{title:28s}{timed(partial(cost_job, job, variant='as drawn', quick=True, risk=risk))}")


if __name__ == "__main__":
    main()
