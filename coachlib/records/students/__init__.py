"""The coach's students, and how one is erased."""
