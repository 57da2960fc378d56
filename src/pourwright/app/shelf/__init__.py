"""The shelf of a shop: its jobs, each in a folder of its own."""
