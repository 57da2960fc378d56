"""What is bought when: stock first, then the cheapest whole kits that come in time and keep."""
