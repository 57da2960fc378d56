"""Air that rubber or casting catches as it rises, and how it is let out."""
