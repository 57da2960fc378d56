"""Processes, progress, cancelling, results kept, studies that resume, and clusters; it knows no trade word.

Nothing else in the house starts a process or speaks to a cluster.
"""

from pourwright.runs.cache import Cache, result_folder
from pourwright.runs.crew import Crew, usable_cores
from pourwright.runs.fingerprint import code_digest, fingerprint

__all__ = [
    "Cache",
    "Crew",
    "code_digest",
    "fingerprint",
    "result_folder",
    "usable_cores",
]
