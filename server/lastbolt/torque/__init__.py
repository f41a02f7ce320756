"""Torque and threads: units, specifications, wrenches, plausibility, sequences."""
