"""The charts of a plan: heat, level, calendar, what matters, each as numbers, table, CSV and drawing."""
