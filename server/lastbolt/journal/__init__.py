"""What happened: the entries, their canonical bytes and their hash chain."""
