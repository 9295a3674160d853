"""The log: every event on disk before it counts, and a session walked through again."""
