"""Trying it oneself: hidden lanes, ways of playing them, and seasons that compare these."""
