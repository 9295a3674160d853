"""A practice game on a hidden lane, and how it ended."""
