"""Look-up tables of jobs, labels and photos, computed from the journal; thrown away and rebuilt at will."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from sqlite_utils import Database as Tables

from .. import label_code
from ..journal import Happened, Line, effective, entry_from, in_order
from ..journal.checking import JobReopened, ReleaseSigned, ReleaseWithdrawn
from ..journal.evidence import LabelBound, LabelRetired, PhotoAdded
from ..journal.people import JobCancelled, JobOpened, JobWaiting, LevelRaised, SignedOn
from . import search_index
from .desk_schema import SUMMARIES

TABLES = {
    "jobs": """CREATE TABLE jobs (job TEXT PRIMARY KEY, machine TEXT NOT NULL, title TEXT NOT NULL,
        level INTEGER NOT NULL, state TEXT NOT NULL, opened TEXT, last TEXT NOT NULL,
        entries INTEGER NOT NULL)""",
    "labels": """CREATE TABLE labels (label TEXT NOT NULL, text TEXT, job TEXT NOT NULL,
        container TEXT NOT NULL, container_kind TEXT NOT NULL, step TEXT, retired INTEGER NOT NULL,
        entry TEXT NOT NULL REFERENCES entries (id), PRIMARY KEY (label, job, container))""",
    "photos": """CREATE TABLE photos (sha256 TEXT NOT NULL, job TEXT NOT NULL, photo TEXT NOT NULL,
        container TEXT, step TEXT, received TEXT NOT NULL, entry TEXT NOT NULL REFERENCES entries (id),
        PRIMARY KEY (sha256, job))""",
}
TURNING = (
    "job-opened", "job-waiting", "job-cancelled", "job-reopened", "level-raised", "release-signed",
    "release-withdrawn", "signed-on", "label-bound", "label-retired", "entry-voided", "entry-replaced",
    "clock-marked",
)  # fmt: skip
"""Kinds after which the rows of a job and of its labels are computed anew."""
LEVEL = 2
"""What an entry about opening a job stands for when it names no level."""


def create(tables: Tables) -> None:
    """Make the tables, empty."""
    for statement in TABLES.values():
        tables.execute(f"{statement} STRICT")
    tables.execute("CREATE INDEX labels_by_text ON labels (text) WHERE text IS NOT NULL")
    tables.execute("CREATE INDEX photos_by_job ON photos (job)")


def rebuild(tables: Tables) -> None:
    """Throw the tables away and compute them from the journal, inside the caller's transaction."""
    for name in TABLES:
        tables.execute(f"DROP TABLE IF EXISTS {name}")
    create(tables)
    search_index.rebuild(tables)
    tables.execute("DROP TABLE IF EXISTS summaries")
    tables.execute(SUMMARIES)
    for (job,) in tables.execute("SELECT DISTINCT job FROM entries").fetchall():
        rows = tables.query(
            "SELECT id, kind, received, raw FROM entries WHERE job = ? ORDER BY position", [job]
        )
        for row in rows:
            if row["kind"] == "photo-added":
                _add_photo(tables, job, received=row["received"], raw=json.loads(row["raw"]), entry=row["id"])
        _recompute(tables, job)


def keep_up(tables: Tables, job: str, lines: Sequence[tuple[str, Line]]) -> None:
    """Bring the tables up to date after an append; each line comes with its entry's plain id."""
    if not lines:
        return
    for entry, line in lines:
        if line.entry["kind"] == "photo-added":
            _add_photo(tables, job, received=line.received, raw=line.entry, entry=entry)
    search_index.keep_up(tables, job, lines)
    last = lines[-1][1]
    if last.position == len(lines) or any(line.entry["kind"] in TURNING for _, line in lines):
        _recompute(tables, job)
    else:
        tables.execute(
            "UPDATE jobs SET last = ?, entries = ? WHERE job = ?", [last.received, last.position, job]
        )


def _add_photo(tables: Tables, job: str, *, received: str, raw: dict[str, Any], entry: str) -> None:
    e = entry_from(raw)
    if isinstance(e, PhotoAdded) and e.sha256:
        tables.execute(
            "INSERT OR IGNORE INTO photos VALUES (?, ?, ?, ?, ?, ?, ?)",
            [e.sha256, job, e.photo, e.container, e.step, received, entry],
        )


def _recompute(tables: Tables, job: str) -> None:
    """Write the rows of one job and its labels from its turning entries, in the order of what happened."""
    marks = ", ".join("?" * len(TURNING))
    raws = tables.execute(f"SELECT raw FROM entries WHERE job = ? AND kind IN ({marks})", [job, *TURNING])
    story = effective(in_order(entry_from(json.loads(raw)) for (raw,) in raws.fetchall()))
    last, count = tables.execute(
        "SELECT received, position FROM entries WHERE job = ? ORDER BY position DESC LIMIT 1", [job]
    ).fetchone()
    tables.execute("DELETE FROM jobs WHERE job = ?", [job])
    tables.execute("INSERT INTO jobs VALUES (?, ?, ?, ?, ?, ?, ?, ?)", [job, *_job_row(story), last, count])
    tables.execute("DELETE FROM labels WHERE job = ?", [job])
    for row in _label_rows(story):
        tables.execute("INSERT INTO labels VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)


def _job_row(story: Iterable[Happened]) -> list[Any]:
    """Give machine, title, level, state and time of opening."""
    machine, title, level, state, opened = "", "", LEVEL, "open", None
    for h in story:
        match h.entry:
            case JobOpened() as e:
                machine, title, level, opened = e.machine, e.title, e.level, e.at.isoformat()
            case LevelRaised() as e:
                level = max(level, e.level)
            case JobWaiting():
                state = "waiting"
            case SignedOn():
                state = "open" if state == "waiting" else state
            case JobCancelled():
                state = "cancelled"
            case ReleaseSigned():
                state = "released"
            case ReleaseWithdrawn() | JobReopened():
                state = "open"
            case _:
                pass
    return [machine, title, level, state, opened]


def _label_rows(story: Iterable[Happened]) -> list[list[Any]]:
    """Give a row for each label and thing that ever bore it; a label that was retired is marked so."""
    found: dict[tuple[str, str], list[Any]] = {}
    for h in story:
        e = h.entry
        if isinstance(e, LabelBound):
            key = (code_of(e.label), e.container)
            if key not in found or found[key][6]:
                found[key] = [key[0], e.text, e.job, e.container, e.container_kind, e.step, 0, str(e.id)]
        elif isinstance(e, LabelRetired):
            for key, row in found.items():
                row[6] = row[6] or int(key[0] == code_of(e.label))
    return list(found.values())


def code_of(text: str) -> str:
    """Give the compact code that a label's text stands for, or the text itself when it is none of ours.

    >>> code_of("t-0042-e"), code_of("green tag 7")
    ('T0042E', 'green tag 7')
    """
    read = label_code.read(text)
    return read.code if read else text
