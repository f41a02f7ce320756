"""`python -m lastbolt` is the command `lastbolt`."""

from .cli import main

main()
