"""Pages to print: plan, handout, letter, end of a session, worksheets."""
