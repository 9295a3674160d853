"""The rules of thumb: their vocabulary, the facts of a shot and a session, and what they say."""
