"""What the picture shows: arrays in, records out; never paths, jobs, entries or findings."""
