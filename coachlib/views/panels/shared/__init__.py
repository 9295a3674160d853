"""What several panels share: the lane picture, typed fields, scripts and styles."""
