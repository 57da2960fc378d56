"""A piece cast hollow around a core: how much that saves, and what keeps the core down."""
