"""Faulty meshes: what is mended without a guess, and surfaces made anew."""
