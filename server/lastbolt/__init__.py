"""Lastbolt: a fastener-tracking photo log with a reassembly verifier."""

__version__ = "0.1.0"
