"""Edge: HTTP."""
