"""Edge: the disk."""
