"""What a result means and what to do about it: levers, reading, rulebook, advice, words."""
