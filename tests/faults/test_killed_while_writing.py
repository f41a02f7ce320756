"""Killed in the middle of writing, ten times on one folder: what was acknowledged is there, nothing is half there."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

from lastbolt.journal import first_break
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

ROOT = Path(__file__).resolve().parents[2]
KILLS = 10


def killed_writer(folder: Path, job: str, *, after_lines: int, and_s: float) -> list[tuple[str, str]]:
    """Let a writer record until it has said so many lines and a moment longer, kill it, give what it said."""
    command = [sys.executable, "-m", "tests.faults.writer", str(folder), job]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT) as writer:
        assert writer.stdout is not None
        said = [writer.stdout.readline() for _ in range(after_lines)]
        time.sleep(and_s)
        writer.kill()
        said += writer.stdout.readlines()
    whole = [line.split() for line in said if line.endswith("\n")]
    return [(entry, digest) for entry, digest in whole]


def test_what_was_acknowledged_outlives_a_kill(tmp_path):
    chance = random.Random(7)
    acknowledged: list[tuple[str, str]] = []
    for kill in range(KILLS):
        job = f"job {kill % 2}"
        said = killed_writer(tmp_path, job, after_lines=chance.randint(1, 6), and_s=chance.uniform(0, 0.05))
        assert said
        acknowledged += said

    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path)}), serving=True)
    lines = [line for job in wired.journal.job_names() for line in wired.journal.lines(job)]
    kept = {(line.entry["id"], line.hash) for line in lines}
    assert set(acknowledged) <= kept
    assert [first_break(wired.journal.lines(job)) for job in wired.journal.job_names()] == [None, None]
    named = [line.entry["sha256"] for line in lines if line.entry["kind"] == "photo-added"]
    assert {wired.photos.state(sha256) for sha256 in named} == {"here"}
    assert len(named) * 2 == len(lines), "an append of two entries went in by half"
    assert not list(tmp_path.glob("photos/??/??/.arriving-*"))

    kept_up = [list(map(str, wired.look_up.jobs())), [list(map(str, wired.look_up.photos(s))) for s in named]]
    wired.journal.rebuild()
    assert [
        list(map(str, wired.look_up.jobs())),
        [list(map(str, wired.look_up.photos(s))) for s in named],
    ] == kept_up
    wired.close()
