"""The kinds of number an equation accepts: one float, or a float64 array of any shape."""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Real = TypeVar("Real", float, Array)
