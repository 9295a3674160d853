"""A hidden lane: its film, friction, wear, bowler and eye, drawn by a seed."""
