"""What invented shops learn from their records, one in ten of them bad: coverage and held-out error.

Each of 200 shops has its own true voids, pail loss, yield, hours, cure rate and cavity, drawn from the
family's band, 3 to 12 records of each around it, and one record in ten wrong by 5 to 15 of its
usual scatters. The band of four in five is to hold the truth in 70 to 90 % of the shops. A fresh good
record is predicted by what was learnt, by the family, and by the plain mean of the records: the baseline
at its best, as it knows nothing of bad records.
"""

from __future__ import annotations

import numpy as np

from pourwright.calibration.learning.conjugate import beta_of_band
from pourwright.calibration.learning.learn import learn
from pourwright.calibration.learning.quantities import QUANTITIES
from pourwright.calibration.learning.record import BAND, Family, Record

SHOPS = 200
FAMILIES = {
    "void_fraction": Family(0.45, 0.42, 0.50),
    "bucket_loss": Family(0.02, 0.01, 0.05),
    "crush_yield": Family(0.40, 0.30, 0.50),
    "shrinkage": Family(0.025, 0.015, 0.04),
    "hours": Family(1.0, 0.6, 1.65),
    "cavity": Family(1.0, 0.98, 1.02),
    "cure_rate": Family(1.0, 0.75, 1.33),
    "heat_film": Family(1.0, 0.7, 1.4),
}
SCRAP = Family(0.10, 0.03, 0.25)


def shop(name: str, family: Family, rng: np.random.Generator) -> tuple[float, float, list[Record]]:
    """A shop's truth, a fresh good record of it, and its records, on the quantity's scale."""
    quantity = QUANTITIES[name]
    scale, scatter = quantity.on, quantity.scatter
    assert scatter is not None
    usual = scatter.value
    middle = scale.there(family.value)
    spread = (scale.there(family.high) - scale.there(family.low)) / BAND
    truth = rng.normal(middle, spread)
    own = usual * np.exp(0.3 * rng.normal())
    values = rng.normal(truth, own, rng.integers(3, 13))
    bad = rng.uniform(size=values.size) < 0.1
    values = values + bad * rng.choice([-1.0, 1.0], values.size) * rng.uniform(5.0, 15.0, values.size) * usual
    records = [
        Record(id=str(number), quantity=name, subject="x", value=scale.back(value))
        for number, value in enumerate(values)
    ]
    return truth, rng.normal(truth, own), records


def tried(name: str, family: Family, rng: np.random.Generator) -> dict[str, float]:
    """Learn in every shop."""
    scale = QUANTITIES[name].on
    rows = []
    for _ in range(SHOPS):
        truth, fresh, records = shop(name, family, rng)
        found = learn(records, family)
        guess = scale.there(found.value)
        plain = float(np.mean([scale.there(record.value) for record in records]))
        inside = scale.there(found.low) <= truth <= scale.there(found.high)
        rows.append(
            (
                inside,
                abs(fresh - guess),
                abs(fresh - scale.there(family.value)),
                abs(fresh - plain),
                found.kept_family,
            )
        )
    held, learnt, families, means, kept = np.array(rows, dtype=float).mean(axis=0)
    return {"held": held, "learnt": learnt / families, "mean": means / families, "kept": kept}


def scrap(rng: np.random.Generator) -> dict[str, float]:
    """The same of a scrap rate, drawn from the family's own belief."""
    belief = beta_of_band(SCRAP.value, SCRAP.low, SCRAP.high)
    rows = []
    for _ in range(SHOPS):
        truth = rng.beta(belief.failed, belief.went_well)
        records = [
            Record(
                id=str(n), quantity="scrap_rate", subject="x", value=float(rng.binomial(5, truth)), trials=5
            )
            for n in range(rng.integers(3, 13))
        ]
        found = learn(records, SCRAP)
        rows.append(
            (
                found.low <= truth <= found.high,
                abs(found.value - truth),
                abs(SCRAP.value - truth),
                found.kept_family,
            )
        )
    held, learnt, families, kept = np.array(rows, dtype=float).mean(axis=0)
    return {"held": held, "learnt": learnt / families, "mean": float("nan"), "kept": kept}


def main() -> None:
    """Print the table."""
    rng = np.random.default_rng(0)
    print(f"{SHOPS} shops each; errors over that of the family's value")
    print("| number | band holds the truth | error, learnt | error, plain mean | family kept |")
    print("|---|---|---|---|---|")
    for name, family in [*FAMILIES.items(), ("scrap_rate", SCRAP)]:
        row = scrap(rng) if name == "scrap_rate" else tried(name, family, rng)
        print(f"| {name} | {row['held']:.0%} | {row['learnt']:.2f} | {row['mean']:.2f} | {row['kept']:.0%} |")


if __name__ == "__main__":
    main()
