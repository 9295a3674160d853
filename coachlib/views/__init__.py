"""What a person sees: scenes, charts and panels. Nothing here computes what the coaching rooms decide."""
