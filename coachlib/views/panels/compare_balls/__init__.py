"""Two balls on one line."""
