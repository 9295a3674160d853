"""The pins left: where to stand and what to look at."""
