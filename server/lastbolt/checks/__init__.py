"""What is wrong: one file, one fault."""
