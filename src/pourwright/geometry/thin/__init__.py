"""Where a body is thin, sharp or folded."""
