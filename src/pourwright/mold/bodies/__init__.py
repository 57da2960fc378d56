"""The bodies that lie in the box and make it, each a mesh of its own."""
