"""What the log tells about a bowler's own numbers."""
