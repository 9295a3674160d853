"""The lesson panel: a question, a bet, the answer drawn over the bet."""
