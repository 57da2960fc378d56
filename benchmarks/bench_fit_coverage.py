"""How often the 80 % bands of a fitted cup test cover the truth: invented resins, invented loggers.

Every trial draws a resin from its family's prior, pours a cup as the recipe says (half the mass,
again, while the cup gets hotter than the recipe allows), lets a cheap logger read it (noise,
tenths of a degree, gaps, a drift, an offset, a clock that starts late), fits it, and looks
whether parameters and answers lie in their 10 to 90 % bands. The truth is simulated with steps
four times finer than those of the fit.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import dataclass
from time import perf_counter

import numpy as np

from pourwright.calibration import curing
from pourwright.calibration.answers import answer, questions
from pourwright.calibration.bodies import cup
from pourwright.calibration.cup_test import CupChoices, make_cup_test
from pourwright.calibration.curing import Air, Trace, cure_body
from pourwright.calibration.defaults import DEFAULTS
from pourwright.calibration.fitting import Question, settle
from pourwright.calibration.logger import Reading
from pourwright.calibration.parameters import NAMES, NORMAL_P90, Prior, Resin, load_priors, resin_of

TRIALS = 200
DENSITY, ROOM = 1090.0, 295.65
FIRST_MASS = {"epoxy-slow-deep": 0.4, "epoxy-medium": 0.15, "epoxy-fast": 0.05}
TOO_HOT = 273.15 + 80.0
HOURS = {"epoxy-slow-deep": 72.0, "epoxy-medium": 30.0, "epoxy-fast": 12.0}
FINER = 4.0


@dataclass(frozen=True)
class Truth:
    """A resin as it was invented, and its cup test."""

    resin: Resin
    deviates: np.ndarray
    reading: Reading
    choices: CupChoices
    hottest: float


def invent(prior: Prior, rng: np.random.Generator) -> Truth:
    """Draw a resin, pour cups until one stays cool enough, and read it with a cheap logger."""
    deviates = rng.normal(size=len(NAMES))
    resin = resin_of(prior.mean + prior.deviation * deviates, DENSITY)
    known = {
        key: DEFAULTS[f"cup_{key}"].value for key in ("air_column", "offset", "drift", "delay_deviation")
    }
    late = max(DEFAULTS["cup_delay"].value + rng.normal() * known["delay_deviation"], 30.0)
    air_off, offset, drift = (rng.normal() * known[key] for key in ("air_column", "offset", "drift"))
    time = np.arange(0.0, HOURS[prior.family] * 3600.0, 60.0)
    air = ROOM + np.sin(2 * np.pi * (time / 86400.0 + rng.uniform()))
    mass, trace = FIRST_MASS[prior.family], None
    for _ in range(5):
        trace = _poured(resin, mass, time + late, air, float(time[-1] + late))
        if trace.peak < TOO_HOT:
            break
        mass /= 2
    assert trace is not None
    shown = np.interp(time + late, trace.time, trace.probe) + offset
    shown = shown + drift * (time - time.mean()) / np.ptp(time)
    read = np.round(shown + rng.normal(size=time.size) * 0.25, 1)
    for _ in range(3):
        gap = int(rng.integers(0, time.size - 60))
        read[gap : gap + int(rng.integers(3, 60))] = np.nan
    air_read = np.round(air - air_off + rng.normal(size=time.size) * 0.25, 1)
    line = np.arange(2, time.size + 2)
    return Truth(
        resin, deviates, Reading("invented.csv", time, read, air_read, line, "K"),
        CupChoices(mass, DENSITY), trace.peak,
    )  # fmt: skip


def _poured(resin: Resin, mass: float, time: np.ndarray, air: np.ndarray, end: float) -> Trace:
    body = cup(mass, DENSITY, ROOM)
    usual = curing.CURE_STEP, curing.HEAT_STEP, curing.PAUSE_SHARE
    curing.CURE_STEP, curing.HEAT_STEP, curing.PAUSE_SHARE = (step / FINER for step in usual)
    try:
        return cure_body(resin, body, Air(time, air), ROOM, end)
    finally:
        curing.CURE_STEP, curing.HEAT_STEP, curing.PAUSE_SHARE = usual


def bench(trials: int = TRIALS, seed: int = 0) -> None:
    """Print how often each band covered the truth."""
    families = list(load_priors().values())
    asked = questions(DENSITY)
    hit: Counter[str] = Counter()
    narrow: dict[str, list[float]] = {name: [] for name in NAMES}
    seconds = []
    for trial in range(trials):
        prior = families[trial % len(families)]
        truth = invent(prior, np.random.default_rng((seed, trial)))
        begun = perf_counter()
        question = Question(prior, (make_cup_test("cup", truth.reading, truth.choices),), DENSITY)
        found = settle(question)
        seconds.append(perf_counter() - begun)
        width = found.narrowing
        for i, name in enumerate(NAMES):
            hit[name] += abs(found.deviates[i] - truth.deviates[i]) <= NORMAL_P90 * width[i]
            narrow[name].append(float(width[i]))
        for key, each in asked.items():
            told = answer(found, each)
            hit[f"answer {key}"] += told.low <= each.answer(truth.resin) <= told.high
        if (trial + 1) % 20 == 0:
            print(f"  after {trial + 1} trials, {np.mean(seconds):.1f} s a fit", file=sys.stderr, flush=True)
    print(f"{trials} trials, {np.mean(seconds):.1f} s a fit")
    for name in (*NAMES, *(f"answer {key}" for key in asked)):
        share = f"{np.median(narrow[name]):.2f} of the prior's width" if name in narrow else ""
        print(f"  {name:28s} {100 * hit[name] / trials:5.1f} %  {share}")
    own = [100 * hit[name] / trials for name in hit]
    print(f"  all together {np.mean(own):.1f} %")


if __name__ == "__main__":
    bench(*(int(each) for each in sys.argv[1:3]))
