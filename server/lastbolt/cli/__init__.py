"""The command `lastbolt`: options in, actions called, words out."""

from .shell import lastbolt, main

__all__ = ["lastbolt", "main"]
