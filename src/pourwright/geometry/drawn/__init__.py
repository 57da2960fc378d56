"""Bodies that are written down: outlines, profiles, roundings, joined parts."""
