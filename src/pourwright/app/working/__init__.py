"""Long work behind the page: what can be begun, how far it is, whether its answer is of today's choices."""
