"""Seasons on hidden lanes: ways of playing, who judges them, and what they are worth."""
