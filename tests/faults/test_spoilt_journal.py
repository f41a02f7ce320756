"""A journal changed by hand or by a failing disk: the audit names it, other jobs are served as before."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from tests.web import shop
from tests.web.shop import JOB, NEAT, half_finished, neat

from lastbolt.actions.record import record
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

TRIGGERS = ("entries_never_change", "entries_never_go", "entries_follow_one_another")


def changed(folder: Path, statement: str) -> None:
    """Change the journal behind the server's back, as somebody with the file in hand could."""
    with closing(sqlite3.connect(folder / "lastbolt.sqlite")) as file:
        for trigger in TRIGGERS:
            file.execute(f"DROP TRIGGER {trigger}")
        file.execute(statement)
        file.commit()


def two_jobs(tmp_path: Path) -> Path:
    """Lay out a shop with two jobs."""
    folder = tmp_path / "shop"
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
    for raws in (half_finished(), neat()):
        record(wired.journal, wired.clock, raws)
    wired.close()
    return folder


SPOILT = {
    "a word in an entry": "UPDATE entries SET raw = replace(raw, '\"n\":6', '\"n\":5') WHERE job = '{job}' AND position = 5",
    "an entry that is no JSON": "UPDATE entries SET raw = '{{half' WHERE job = '{job}' AND position = 5",
    "an entry of no kind": "UPDATE entries SET raw = '{{}}' WHERE job = '{job}' AND position = 5",
    "an entry of another time": "UPDATE entries SET received = '2020-01-01T00:00:00.000Z' WHERE job = '{job}' AND position = 5",
    "an entry taken out": "DELETE FROM entries WHERE job = '{job}' AND position = 5",
    "a hash": "UPDATE entries SET hash = prev WHERE job = '{job}' AND position = 5",
}


@pytest.mark.parametrize("what", SPOILT)
def test_the_audit_names_the_entry_and_the_rest_is_served(tmp_path, what, run):
    folder = two_jobs(tmp_path)
    changed(folder, SPOILT[what].format(job=JOB))
    with shop.open_shop(folder) as (_, client):
        listed = client.get("/api/jobs")
        assert listed.status_code == 200, listed.text
        assert {job["job"] for job in listed.json()} >= {NEAT}
        for address in (f"/api/jobs/{NEAT}", f"/api/jobs/{NEAT}/entries", f"/api/jobs/{NEAT}/findings"):
            assert client.get(address).status_code == 200
        spoilt = client.get(f"/api/jobs/{JOB}/findings")
        assert spoilt.status_code in (200, 503), spoilt.text
        assert "its log says which" not in spoilt.text
    status, out, error = run("--data", folder, "audit", JOB)
    assert status in (1, 2) and "5" in out + error and "Traceback" not in out + error
    assert run("--data", folder, "audit", NEAT)[0] == 0


def test_a_job_that_cannot_be_read_stands_in_the_lists_with_that_alone(tmp_path):
    folder = two_jobs(tmp_path)
    changed(folder, SPOILT["an entry of no kind"].format(job=JOB))
    with shop.open_shop(folder) as (_, client):
        (listed,) = [job for job in client.get("/api/jobs").json() if job["job"] == JOB]
        assert listed["counts"] == {"stop": 1, "decide": 0, "note": 0}
        (row,) = [job for job in client.get("/api/board").json()["jobs"] if job["job"] == JOB]
        assert row["counts"]["stop"] == 1
        answer = client.get(f"/api/jobs/{JOB}/findings")
        assert answer.status_code == 503 and "entry 5" in answer.json()["detail"]
        more = shop.entry("container-scanned", 50, job=JOB, container="T0042E")
        assert shop.send(client, [more]).status_code in (200, 503)
        assert shop.send(client, [shop.entry("signed-on", 60, job=NEAT)]).status_code == 200


def test_pages_of_the_file_that_are_spoilt_are_answered_in_words(tmp_path):
    folder = two_jobs(tmp_path)
    path = folder / "lastbolt.sqlite"
    with closing(sqlite3.connect(path)) as file:
        file.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        first = file.execute("SELECT rootpage FROM sqlite_master WHERE name = 'entries'").fetchone()[0]
        size = file.execute("PRAGMA page_size").fetchone()[0]
    data = bytearray(path.read_bytes())
    data[(first - 1) * size : first * size] = b"\x55" * size
    path.write_bytes(data)
    with shop.open_shop(folder) as (_, client):
        for address in ("/api/jobs", f"/api/jobs/{JOB}/findings", f"/api/jobs/{NEAT}/entries"):
            answer = client.get(address)
            assert answer.status_code == 503 and "put back the last backup" in answer.json()["detail"]
        assert client.get("/api/session").status_code == 200
