"""What we say: findings put into words and order."""
