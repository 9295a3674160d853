"""The session as it is, and the one history of a lane that everybody asks."""
