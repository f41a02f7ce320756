"""Edge: the shop's own keys, kept in a folder that only its owner may read."""
