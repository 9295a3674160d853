"""A score sheet by taps."""
