"""From things to results: the ball on the oil, in SI inside and in people's units at the doors."""
