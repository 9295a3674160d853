"""A bowler's ball on some oil: paths, what if, the search for a line, and what an eye would see."""
