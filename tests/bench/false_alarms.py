"""Counts false alarms: what the verifier says of jobs made by chance and finished cleanly. It must say nothing.

python -m tests.bench.false_alarms [jobs, 10000 unless given]
"""

from __future__ import annotations

import sys
from collections import Counter
from random import Random

from tests.replay.random_jobs import clean_job


def alarms(jobs: int) -> Counter[str]:
    """Count what is said, by severity mark, over jobs of seeds 0, 1, 2 and so on."""
    said: Counter[str] = Counter()
    for seed in range(jobs):
        for check, subject, mark in sorted(clean_job(Random(seed)).told.marks()):
            said[mark] += 1
            print(f"seed {seed}: {mark} {check} {subject}")
    return said


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    said = alarms(count)
    stops, decides, notes = said["B"] + said["B!"], said["L"], said["I"]
    print(f"{count} clean jobs: {stops} stops, {decides} decisions asked, {notes} notes (all must be 0)")
    sys.exit(1 if said else 0)
