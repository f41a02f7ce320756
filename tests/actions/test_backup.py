"""A backup is of one moment while others write, grows by what is new, and comes back proven."""

import fcntl
import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.actions.pictures import photo
from tests.builders import Told

from lastbolt.actions.audit import audit
from lastbolt.actions.backup import age_words, back_up, copied_words, prove
from lastbolt.actions.record import record
from lastbolt.errors import BadInputError, ConflictError, StoreError
from lastbolt.settings import settings_from
from lastbolt.store import backup_files
from lastbolt.wiring import wire, wire_restored

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def place(tmp_path):
    return tmp_path / "second disk"


@pytest.fixture
def story(shop, clock):
    """A job with one photo."""
    story = Told(level=1)
    sha256 = shop.photos.put(photo("x"))
    story.say("photo-added", photo=sha256, sha256=sha256)
    record(shop.journal, clock, story.raws)
    return story


def restored(place, into):
    wired, held = wire_restored(settings_from({"LASTBOLT_DATA": str(into)}), place)
    try:
        return prove(wired.shop, held), {job: wired.journal.lines(job) for job in wired.journal.job_names()}
    finally:
        wired.close()


def backed_photo(place):
    (path,) = [path for path in place.glob("photos/??/??/*") if len(path.name) == 64]
    return path


def spoil(path):
    os.chmod(path, 0o644)
    data = path.read_bytes()
    path.write_bytes(data[:-1] + bytes([data[-1] ^ 1]))


def test_a_backup_comes_back_whole(shop, wired, story, place, tmp_path):
    copied = back_up(shop, wired.backups, place)
    assert (copied.held.entries, copied.held.photos, copied.new_photos, copied.before) == (2, 1, 1, None)
    proof, lines = restored(place, tmp_path / "new")
    assert proof.faults == () and (proof.jobs, proof.entries) == (1, 2)
    assert lines == {"job 1": shop.journal.lines("job 1")}


def test_a_second_backup_copies_only_what_is_new_and_tells_the_age_of_the_first(
    shop, clock, wired, story, place, tmp_path
):
    back_up(shop, wired.backups, place)
    kept = backed_photo(place).stat()
    clock.move(days=3)
    sha256 = shop.photos.put(photo("y"))
    story.say("photo-added", photo=sha256, sha256=sha256)
    record(shop.journal, clock, story.raws)
    copied = back_up(shop, wired.backups, place)
    assert (copied.new_photos, copied.held.photos, copied.held.entries) == (1, 2, 3)
    assert copied_words(copied) == [
        f"1 jobs, 3 entries (1 new) and 2 photos (1 new, {copied.new_bytes / 1e6:.1f} MB) are backed up as of "
        "2026-03-12T08:00:00.000Z.",
        "The backup before was made 3 days earlier.",
    ]
    assert kept in [path.stat() for path in place.glob("photos/??/??/*")]
    assert len(list(place.glob("records-*"))) == 1 and restored(place, tmp_path / "new")[0].faults == ()


def test_what_a_backup_says_of_itself(shop, wired, story, place):
    back_up(shop, wired.backups, place)
    said = json.loads((place / "backup.json").read_text())
    assert said["made"] == "2026-03-09T08:00:00.000Z" and said["heads"] == {
        "job 1": shop.journal.head("job 1")
    }
    assert said["counts"] == {"jobs": 1, "entries": 2, "photos": 1}
    assert (place / said["records"]["file"]).is_file()


def test_backups_while_another_process_writes_hold_all_that_was_acknowledged(tmp_path, place):
    folder = tmp_path / "shop"
    command = [sys.executable, "-m", "tests.faults.writer", str(folder), "job 1"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT) as writer:
        wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
        try:
            for number in range(3):
                acknowledged = [writer.stdout.readline().split()[1] for _ in range(8)][-1]
                copied = back_up(wired.shop, wired.backups, place)
                proof, lines = restored(place, tmp_path / f"new {number}")
                assert proof.faults == () and proof.entries == copied.held.entries
                assert acknowledged in [line.hash for line in lines["job 1"]]
        finally:
            assert writer.poll() is None, "the writer wrote until the end"
            writer.kill()
            wired.close()


@pytest.mark.parametrize("name", ["something.txt", ".hidden"])
def test_restore_into_a_folder_with_anything_in_it_is_refused(shop, wired, story, place, tmp_path, name):
    back_up(shop, wired.backups, place)
    into = tmp_path / "full"
    into.mkdir()
    (into / name).write_text("mine")
    with pytest.raises(BadInputError, match="is not empty"):
        restored(place, into)
    assert [path.name for path in into.iterdir()] == [name]
    with pytest.raises(BadInputError, match="is not empty"):
        restored(place, into / name)


def test_an_empty_folder_that_is_there_will_do(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    (tmp_path / "new").mkdir()
    assert restored(place, tmp_path / "new")[0].faults == ()


def test_a_photo_spoilt_in_the_backup_is_named_and_the_rest_comes_back(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    path = backed_photo(place)
    spoil(path)
    proof, lines = restored(place, tmp_path / "new")
    (fault,) = proof.faults
    assert (
        fault.startswith(f"job 1: The original of the photo {path.name[:12]}") and "or it was lost" in fault
    )
    assert lines == {"job 1": shop.journal.lines("job 1")}


def test_a_photo_cut_short_in_the_backup_is_copied_again(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    os.chmod(backed_photo(place), 0o644)
    backed_photo(place).write_bytes(b"short")
    assert back_up(shop, wired.backups, place).new_photos == 1
    assert restored(place, tmp_path / "new")[0].faults == ()


def test_a_photo_damaged_in_the_shop_is_told_and_never_replaces_a_good_one(shop, wired, story, place):
    back_up(shop, wired.backups, place)
    good = backed_photo(place).read_bytes()
    (own,) = [p for p in (wired.settings.data / "photos").glob("??/??/*") if len(p.name) == 64]
    os.chmod(own, 0o644)
    own.write_bytes(b"hurt")
    copied = back_up(shop, wired.backups, place)
    assert copied.damaged == (own.name,) and "damaged on disk and not copied" in copied_words(copied)[-1]
    assert backed_photo(place).read_bytes() == good


@pytest.mark.parametrize("spoilt", [spoil, Path.unlink], ids=["a flipped bit", "missing"])
def test_spoilt_records_are_refused_before_anything_is_written(shop, wired, story, place, tmp_path, spoilt):
    back_up(shop, wired.backups, place)
    (records,) = place.glob("records-*")
    spoilt(records)
    with pytest.raises(BadInputError, match="missing or damaged"):
        restored(place, tmp_path / "new")
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": "lastbolt backup", "format_version": 2}'])
def test_a_backup_that_says_nothing_sound_is_refused(shop, wired, story, place, tmp_path, text):
    back_up(shop, wired.backups, place)
    (place / "backup.json").write_text(text)
    with pytest.raises(BadInputError, match="says nothing that can be read"):
        restored(place, tmp_path / "new")


def test_records_elsewhere_are_not_fetched(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    said = json.loads((place / "backup.json").read_text())
    said["records"]["file"] = "../shop/lastbolt.sqlite"
    (place / "backup.json").write_text(json.dumps(said))
    with pytest.raises(BadInputError, match="its records lie elsewhere"):
        restored(place, tmp_path / "new")


def test_heads_that_differ_are_told(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    said = json.loads((place / "backup.json").read_text())
    said["heads"] = {"job 1": "ab" * 32, "job 2": "cd" * 32}
    (place / "backup.json").write_text(json.dumps(said))
    faults = restored(place, tmp_path / "new")[0].faults
    assert faults[0] == "job 1: its head is not the one that the backup names."
    assert faults[1].startswith("job 2: there is no job 'job 2' here")


def test_a_folder_without_a_backup_is_told(tmp_path):
    (tmp_path / "empty").mkdir()
    with pytest.raises(BadInputError, match="there is no backup in"):
        restored(tmp_path / "empty", tmp_path / "new")


def test_a_shop_without_a_job_is_not_backed_up(shop, wired, place):
    with pytest.raises(BadInputError, match="there is no job"):
        back_up(shop, wired.backups, place)
    assert not place.exists()


def test_another_shop_does_not_replace_a_backup(shop, wired, story, place, tmp_path, clock):
    back_up(shop, wired.backups, place)
    kept = sorted((path.name, path.read_bytes()) for path in place.iterdir() if path.is_file())
    other = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "other")}))
    record(other.journal, clock, [{**raw, "job": "job 2"} for raw in story.raws[:1]])
    with pytest.raises(ConflictError, match="holds entries of the job 'job 1' that are not in these records"):
        back_up(other.shop, other.backups, place)
    other.close()
    assert sorted((path.name, path.read_bytes()) for path in place.iterdir() if path.is_file()) == kept


def test_a_backup_goes_neither_among_other_things_nor_into_the_shops_own_folder(shop, wired, story, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear")
    with pytest.raises(BadInputError, match=r"holds other things \(letter.txt\)"):
        back_up(shop, wired.backups, tmp_path / "mine")
    for own in (wired.settings.data, wired.settings.data / "backup"):
        with pytest.raises(BadInputError, match="the shop's own folder"):
            back_up(shop, wired.backups, own)
    with pytest.raises(BadInputError, match="cannot be written to"):
        back_up(shop, wired.backups, tmp_path / "mine" / "letter.txt")


def test_two_backups_at_once_into_one_folder_are_refused(shop, wired, story, place):
    place.mkdir()
    with (place / "backup.lock").open("a") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        with pytest.raises(StoreError, match="another backup is being written"):
            back_up(shop, wired.backups, place)


def test_what_a_power_cut_left_is_cleared_and_the_backup_before_stays(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    (place / ".arriving-x").write_text("half")
    (place / "records-0123456789abcdef.sqlite").write_text("whole, but not yet named")
    assert restored(place, tmp_path / "first")[0].faults == ()
    back_up(shop, wired.backups, place)
    assert not (place / ".arriving-x").exists() and len(list(place.glob("records-*"))) == 1


def test_a_restore_that_the_disk_refuses_leaves_the_folder_empty(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    into = tmp_path / "new"
    into.mkdir()
    command = f"ulimit -f 1; exec {sys.executable} -m lastbolt restore '{place}' --into '{into}'"
    ended = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False)
    assert ended.returncode == 2 and "it was emptied again" in ended.stderr and not ended.stdout
    assert list(into.iterdir()) == []


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "less than a minute"),
        (1, "1 minute"),
        (119, "119 minutes"),
        (120, "2 hours"),
        (47 * 60 + 59, "47 hours"),
        (48 * 60, "2 days"),
        (-5, "less than a minute"),
    ],
)
def test_ages_are_said_in_the_largest_unit_that_fits(clock, minutes, words):
    earlier = clock.now.isoformat()
    clock.move(minutes=minutes)
    assert age_words(earlier, clock.now.isoformat()) == words


def test_a_restored_shop_goes_on(shop, clock, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    shutil.rmtree(place / "photos")
    back_up(shop, wired.backups, place)
    into, _ = wire_restored(settings_from({"LASTBOLT_DATA": str(tmp_path / "new")}), place)
    story.say("container-scanned", container="T9")
    record(into.journal, clock, story.raws)
    found = audit(into.shop, "job 1")
    assert found.is_whole and found.entries == 3
    assert backup_files.read_held(place).photos == 1
    into.close()


def typed(*words, before=""):
    command = f'{before} exec "$@"'
    return ["bash", "-c", command, "bash", sys.executable, "-m", "lastbolt", *map(str, words)]


def test_a_backup_that_the_disk_refuses_leaves_the_one_before(shop, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    words = typed("--data", wired.settings.data, "backup", place, before="ulimit -f 8;")
    ended = subprocess.run(words, capture_output=True, text=True, check=False)
    assert ended.returncode == 2 and ended.stderr.startswith("lastbolt: ") and ended.stderr.count("\n") == 1
    assert restored(place, tmp_path / "new")[0].faults == ()


def test_a_backup_that_is_killed_leaves_the_one_before_or_itself(shop, clock, wired, story, place, tmp_path):
    back_up(shop, wired.backups, place)
    for number, seen in enumerate((".arriving-*", "photos/??/??/*", "records-*")):
        for more in range(6):
            sha256 = shop.photos.put(f"photo {number} {more}".encode())
            story.say("photo-added", photo=sha256, sha256=sha256)
        record(shop.journal, clock, story.raws)
        before = set(place.glob(seen))
        with subprocess.Popen(typed("--data", wired.settings.data, "backup", place)) as process:
            while process.poll() is None and set(place.glob(seen)) <= before:
                time.sleep(0.001)
            process.kill()
        assert restored(place, tmp_path / f"new {number}")[0].faults == ()
    back_up(shop, wired.backups, place)
    proof, _ = restored(place, tmp_path / "new")
    assert proof.faults == () and proof.entries == 20
