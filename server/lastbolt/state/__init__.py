"""What is true now: a fold over the journal."""
