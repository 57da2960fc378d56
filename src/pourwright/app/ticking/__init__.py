"""What to saw, on the page: the list, what is ticked of it, and offcuts that go to the book's stock."""
