"""What an arrival leaves: the shipped table of simulated racks, and how it is read."""
