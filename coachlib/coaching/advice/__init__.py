"""The answer after a ball, in two voices, and what each move and change is worth."""
