"""Lessons: chains of questions, each with its bet, its answer and what it means on the lane."""
