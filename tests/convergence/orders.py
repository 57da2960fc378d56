"""Order of convergence from errors on spacings, or steps, that halve."""

import math
from collections.abc import Sequence


def slope(errors: Sequence[float]) -> float:
    """Order by the last two errors."""
    return math.log2(errors[-2] / errors[-1])
