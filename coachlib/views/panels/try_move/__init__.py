"""Try a move of feet and eyes."""
