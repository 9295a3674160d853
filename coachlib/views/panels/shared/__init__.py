"""What several panels share: the lane picture, typed fields, what panels are made of and do."""
