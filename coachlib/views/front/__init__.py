"""The front page and the list of lessons: where a person who has never seen code begins."""
