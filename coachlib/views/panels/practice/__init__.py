"""The practice panel: a game on a hidden lane."""
