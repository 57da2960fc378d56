"""Cost against error of our solver, FiPy, a scipy finite-volume scheme and scikit-fem on one problem.

Problem (`rival_block`): a quarter of a block of casting in rubber on board, poured at once and followed
over five hours; films at the bare faces; it peaks near 95 degC. Error: the largest of three peaks at
points inside the casting against the limit of two other codes, each extrapolated in the spacing; once
as it is, and once with its parts by space and by time added in size, as on single meshes they cancel by
luck. Cost: processor seconds from mesh to peaks, imports and compilation apart, all in one process and
on one thread each, so that seconds are those of a quiet machine.

Why the others are at their best: all three step by the same second-order scheme (trapezoidal rule after
four steps of backward Euler, rate of cure in the middle of the step forecast), with fixed steps and with
steps that follow a tolerance; preconditioners, tolerances and matrix formats are swept before each curve
and the best is taken. Algebraic multigrid is not tried: steps are so short that a dozen iterations after
Jacobi do. FiPy (`rival_fipy`) is written as its manual says, with scipy's solvers, as no compiled
add-ons of its are on the package index. It takes some minutes.
"""

import os
import subprocess
import sys

SINGLE = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "NUMBA_NUM_THREADS")


def main() -> None:
    """Start the worker in a process of its own: thread counts are read when numpy is loaded."""
    around = os.environ | dict.fromkeys(SINGLE, "1")
    sys.stdout.flush()
    subprocess.run([sys.executable, "-m", "benchmarks.rivals"], check=True, env=around)


if __name__ == "__main__":
    main()
