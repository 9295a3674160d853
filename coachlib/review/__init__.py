"""What the log means over time: trends, what to work on, what to take home."""
