"""Shape files: what is read, by which reader, and what is written."""
