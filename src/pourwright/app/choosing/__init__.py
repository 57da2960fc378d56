"""The choices of a job: shown, changed one by one in its file, taken back, explained."""
