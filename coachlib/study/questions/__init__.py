"""Questions for the learner: drills and worksheets."""
