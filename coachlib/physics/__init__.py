"""What happens: functions from things to results, in SI units inside and in people's units at the door."""
