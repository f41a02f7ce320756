"""What the picture shows: labels, parts, counts, measures."""
