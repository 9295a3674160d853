"""Sessions as spreadsheets, there and back, and sheets made by hand."""
