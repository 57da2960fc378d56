"""How numeric kernels are compiled: once per machine, on first use, then read from the cache on disk.

The package itself tells numba where the cache lives, before numba is loaded.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

import numba

RATE_SIGNATURE = numba.types.float64(
    numba.types.float64, numba.types.float64, numba.types.Array(numba.types.float64, 1, "C")
)
RATE_TYPE = numba.types.FunctionType(RATE_SIGNATURE)
FEW = 10_000
_UNCOUNTED: dict[str, Any] = {"nogil": True, "error_model": "numpy", "_nrt": False}
"""Nothing is allocated and no array's users are counted: counting takes longer than a rate law."""


def _compiled(function: Callable[..., Any], *signature: Any, **options: Any) -> Any:
    """Compile with a cache on disk where there is a place for one."""
    compiler: Any = numba.njit
    try:
        return compiler(*signature, cache=True, **options)(function)
    except RuntimeError:  # a function typed in at a prompt, or no folder that can be written
        return compiler(*signature, **options)(function)


def kernel(function: Callable[..., Any]) -> Any:
    """Compile a numeric kernel on first use; the interpreter is free while it runs; nothing may be allocated.

    Parameters
    ----------
    function : callable
        Written for numba.

    Returns
    -------
    callable
        The kernel.
    """
    return _compiled(function, **_UNCOUNTED, fastmath={"contract"})


def inlined(function: Callable[..., Any]) -> Any:
    """Compile a part of a kernel, to be copied into every kernel of the same file that calls it.

    Nothing may be allocated.

    Parameters
    ----------
    function : callable
        Written for numba.

    Returns
    -------
    callable
        The part.
    """
    return _compiled(function, forceinline=True, **_UNCOUNTED, fastmath={"contract"})


def exact_kernel(*signature: Any) -> Callable[[Callable[..., Any]], Any]:
    """Compile at once for one signature, as kernels that call a rate law must be; nothing may be allocated.

    Parameters
    ----------
    *signature
        One numba signature.

    Returns
    -------
    callable
        A decorator.
    """
    return lambda function: _compiled(function, *signature, **_UNCOUNTED)


def rate_law(function: Callable[[float, float, Any], float]) -> Any:
    """Compile a rate law so that the solver can call it.

    Parameters
    ----------
    function : callable
        ``rate(temperature [K], conversion [-], parameters (n,)) -> rate [1/s]``, written
        for numba: scalars, ``math`` and other compiled functions only.

    Returns
    -------
    callable
        The compiled law; it may also be called from Python.

    Examples
    --------
    >>> import math, numpy as np
    >>> law = rate_law(lambda kelvin, cured, p: p[0] * math.exp(-p[1] / kelvin) * (1 - cured))
    >>> law(300.0, 0.5, np.array([1000.0, 3000.0]))
    0.0226999
    """
    return _compiled(function, RATE_SIGNATURE, error_model="numpy")


class _Found:
    """A rate law whose place in memory is known, as numba lets functions be passed to kernels."""

    _numba_type_ = RATE_TYPE

    def __init__(self, law: Any) -> None:
        self._law = law  # what lies there lives as long as this
        compiled = law.get_compile_result(RATE_SIGNATURE)
        self._address = compiled.library.get_pointer_to_function(compiled.fndesc.llvm_cfunc_wrapper_name)

    def __wrapper_address__(self) -> int:
        return int(self._address)


def passed_on(law: Any, cells: int) -> Any:
    """Choose how a rate law is passed to a kernel: the same law, faster for this many cells.

    A compiled law is looked for anew at every call of a kernel, which takes as long as a thousand cells;
    one whose place is known costs a few per cent more in each cell.

    Parameters
    ----------
    law : callable
        From `rate_law`.
    cells : int
        How many a kernel gets at a time.

    Returns
    -------
    callable
        For a kernel.
    """
    return _found(law) if cells < FEW and hasattr(law, "get_compile_result") else law


@lru_cache(maxsize=8)
def _found(law: Any) -> _Found:
    return _Found(law)
