"""What there is: the lane, the two hands, lines and moves, shots, pins, bowlers and balls."""
