"""Everything wooden that is sawn for a mold: its parts as they are pencilled, cut and put together."""
