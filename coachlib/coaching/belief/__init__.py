"""What we think of lane and bowler: many possible pairs of both, weighed by the balls that were seen."""
