"""Opening the notebooks live: lay a copy of them, start a server on it, run one, stop it all again."""
