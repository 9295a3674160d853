"""Every sentence of coaching: numbers come in, words go out. Left and right appear here."""
