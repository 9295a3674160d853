"""Balls beside each other: two on a line, a bag, a surface, a test on the lane."""
