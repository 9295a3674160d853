"""What makes and checks the table of racks; nothing here is needed to read it."""
