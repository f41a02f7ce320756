"""What to do next: access map, undo path, order, time left."""
