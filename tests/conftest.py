"""Settings that must stand before numba is imported, and the same invented cases in every run."""

import os

from hypothesis import settings

os.environ.setdefault("NUMBA_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
settings.register_profile("house", derandomize=True)
settings.load_profile("house")
