"""Who: names, roles and secrets."""
