"""Where to start on a pattern, and what if it goes wrong."""
