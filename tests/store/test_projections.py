import pytest
from tests.builders import Told

from lastbolt.store.projections import TABLES, code_of

RECEIVED = "2026-03-09T08:00:00.000Z"
SHA = "ab" * 32


def tables_of(wired):
    with wired.database.reading() as tables:
        return {name: sorted(tables.execute(f"SELECT * FROM {name}").fetchall(), key=str) for name in TABLES}


def record(wired, story):
    for raw in story.raws:
        wired.journal.append(story.job, [raw], received=RECEIVED)


def test_a_job_is_listed_with_what_it_was_opened_as(wired):
    story = Told(job="launch-7", machine="Launch", title="New pump seal", level=1)
    story.say("level-raised", level=2)
    record(wired, story)
    (job,) = wired.look_up.jobs()
    assert (job.job, job.machine, job.title, job.level, job.state) == (
        "launch-7",
        "Launch",
        "New pump seal",
        2,
        "open",
    )
    assert (job.entries, job.last) == (2, RECEIVED)


@pytest.mark.parametrize(
    ("kinds", "state"),
    [
        (["job-waiting"], "waiting"),
        (["job-waiting", "signed-on"], "open"),
        (["job-cancelled"], "cancelled"),
        (["release-signed"], "released"),
        (["release-signed", "job-reopened"], "open"),
        (["release-signed", "signed-on"], "released"),
    ],
)
def test_a_jobs_state_follows_its_entries(wired, kinds, state):
    fields = {
        "job-waiting": {"reason": "parts"},
        "job-cancelled": {"reason": "sold"},
        "job-reopened": {"reason": "drips"},
        "release-signed": {"statement": "looked at"},
    }
    story = Told()
    for kind in kinds:
        story.say(kind, **fields.get(kind, {}))
    record(wired, story)
    assert wired.look_up.job("job 1").state == state


def test_a_label_is_found_however_its_code_is_written_until_it_is_retired(wired):
    story = Told()
    story.say("label-bound", label="T0042E", container="tray 42", step="Open up")
    record(wired, story)
    for text in ("T0042E", "t-0042-e", "T-OO42-E", "HTTP://SHOP.LAN:8000/L/T0042E"):
        (row,) = wired.look_up.label(text)
        assert (row.job, row.container, row.step, row.retired) == ("job 1", "tray 42", "Open up", False)
    story.say("label-retired", label="T-0042-E")
    record(wired, story)
    assert [row.retired for row in wired.look_up.label("T0042E")] == [True]
    assert wired.look_up.label("T0043C") == []


def test_a_label_of_another_kind_is_found_by_its_whole_text(wired):
    story = Told()
    story.say("label-bound", label="green tag 7", container="bin 7", text="BIN/7 left")
    record(wired, story)
    assert [row.container for row in wired.look_up.label("BIN/7 left")] == ["bin 7"]
    assert [row.container for row in wired.look_up.label("green tag 7")] == ["bin 7"]


def test_a_binding_that_was_voided_or_replaced_counts_as_corrected(wired):
    story = Told()
    wrong = story.say("label-bound", label="T0042E", container="tray 1")
    twice = story.say("label-bound", label="B0007W", container="bag 7")
    story.say("entry-replaced", entry=wrong, fields={"container": "tray 2"}, reason="wrong tray")
    story.say("entry-voided", entry=twice, reason="twice")
    record(wired, story)
    assert [row.container for row in wired.look_up.label("T0042E")] == ["tray 2"]
    assert wired.look_up.label("B0007W") == []


def test_a_binding_that_arrives_after_the_retirement_but_happened_before_is_retired(wired):
    story = Told()
    story.say("label-bound", label="T0042E", container="tray 1")
    story.say("label-retired", label="T0042E")
    opened, bound, retired = story.raws
    for raw in (opened, retired, bound):
        wired.journal.append("job 1", [raw], received=RECEIVED)
    assert [row.retired for row in wired.look_up.label("T0042E")] == [True]


def test_a_photo_is_listed_in_each_job_that_it_is_in_once(wired):
    for day, job in ((1, "a"), (2, "b")):
        story = Told(job=job, start=f"{day} 08:00")
        story.say("photo-added", photo=SHA, sha256=SHA, container="tray 1")
        story.say("photo-added", photo=SHA, sha256=SHA, container="tray 2")
        record(wired, story)
    assert [(row.job, row.container) for row in wired.look_up.photos(SHA)] == [
        ("a", "tray 1"),
        ("b", "tray 1"),
    ]
    assert [row.sha256 for row in wired.look_up.photos_of("a")] == [SHA]


def test_a_photo_without_a_hash_is_not_listed(wired):
    story = Told()
    story.say("photo-added", photo="a drawing")
    record(wired, story)
    assert wired.look_up.photos_of("job 1") == []


def test_rebuilding_gives_what_was_kept_up_entry_by_entry(wired):
    for number in range(3):
        story = Told(job=f"job {number}", level=1, start=f"{number + 1} 08:00")
        story.say("label-bound", label=f"T000{number + 1}", container="tray 1")
        mistake = story.say("label-bound", label="T0042E", container=f"tray {number}")
        story.say("photo-added", photo=SHA, sha256=SHA, container="tray 1")
        story.say("container-scanned", container="tray 1")
        story.say("level-raised", level=3)
        story.say("entry-voided", entry=mistake, reason="twice")
        story.say("job-waiting", reason="parts")
        record(wired, story)
    kept_up = tables_of(wired)
    wired.journal.rebuild()
    assert tables_of(wired) == kept_up
    assert all(kept_up.values())


def test_rebuilding_brings_back_what_was_lost(wired):
    story = Told()
    story.say("label-bound", label="T0042E", container="tray 1")
    record(wired, story)
    before = tables_of(wired)
    with wired.database.writing() as tables:
        for name in TABLES:
            tables.execute(f"DELETE FROM {name}")
    wired.journal.rebuild()
    assert tables_of(wired) == before


def test_a_text_that_is_no_code_stands_for_itself():
    assert code_of("t-0042-e") == "T0042E"
    assert code_of("green tag") == "green tag"
