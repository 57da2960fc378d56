"""Which liquid reaches which seam of a mold, and what gets out before it gels."""
