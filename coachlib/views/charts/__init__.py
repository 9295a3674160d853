"""Charts of lessons and figures, and the tables beside them."""
