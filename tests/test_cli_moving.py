"""The commands export, import, backup and restore, as typed."""

import json
import subprocess
import sys
import zipfile

import pytest

from lastbolt.settings import settings_from
from lastbolt.wiring import wire
from tests.actions.pictures import photo
from tests.builders import Told


@pytest.fixture
def job(tmp_path, run):
    """A job with a photo, told by the command."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "shop")}))
    sha256 = wired.photos.put(photo("x"))
    wired.close()
    story = Told(level=1).told(("photo-added", {"photo": sha256, "sha256": sha256}))
    path = tmp_path / "job.jsonl"
    path.write_text("\n".join(json.dumps(raw) for raw in story.raws))
    run("enter", "job 1", path)
    return story


def one_line(error):
    return error.startswith("lastbolt: ") and error.count("\n") == 1 and "Traceback" not in error


def test_a_job_goes_to_another_shop(run, job, tmp_path):
    path = tmp_path / "out.zip"
    status, out, _ = run("export", "job 1", path)
    assert status == 0 and out.startswith(f"2 entries and 1 photos of job 1 are in {path}.\nHead ")
    head = out.split("Head ")[1]
    for new in ("2 new entries and 1 new photos", "0 new entries and 0 new photos"):
        status, out, _ = run("--data", tmp_path / "other", "import", path)
        assert (status, out) == (0, f"{new} of job 1. Head {head}")
    assert run("--data", tmp_path / "other", "audit", "job 1")[0] == 0


def test_the_script_and_replay_read_what_was_exported(run, job, tmp_path):
    run("export", "job 1", tmp_path / "out.zip")
    with zipfile.ZipFile(tmp_path / "out.zip") as zipped:
        zipped.extractall(tmp_path / "out")
    script = [sys.executable, "-I", str(tmp_path / "out" / "check_bundle.py")]
    told = subprocess.run(script, capture_output=True, text=True, check=False)
    assert told.returncode == 0 and told.stdout.startswith("2 entries of job 1 follow one another")
    status, out, error = run("replay", tmp_path / "out" / "journal.jsonl")
    assert (
        status == run("verify", "job 1")[0]
        and not error
        and out == (tmp_path / "out" / "verdict.txt").read_text()
    )


def test_a_customers_version_says_what_it_is(run, job, tmp_path):
    status, out, _ = run("export", "job 1", tmp_path / "out.zip", "--customer")
    assert status == 0 and "Head" not in out and "read verdict.txt before sending it" in out
    status, _, error = run("--data", tmp_path / "other", "import", tmp_path / "out.zip")
    assert status == 2 and one_line(error) and "customer's version" in error


def test_photos_left_out_are_told(run, job, tmp_path):
    run("enter", "job 1", "photo-added", "photo=late", f"sha256={'ab' * 32}", "--by", "Ana")
    status, out, _ = run("export", "job 1", tmp_path / "out.zip")
    assert status == 1 and out.endswith(f"Left out: the photo {'ab' * 32}, its bytes never came here.\n")


def test_a_backup_and_back(run, job, tmp_path):
    place, new = tmp_path / "disk", tmp_path / "new"
    status, out, _ = run("backup", place)
    assert status == 0 and out.startswith("1 jobs, 2 entries (2 new) and 1 photos (1 new, ")
    status, out, _ = run("backup", place)
    assert status == 0 and "(0 new) and 1 photos (0 new, 0.0 MB)" in out
    assert out.endswith("The backup before was made less than a minute earlier.\n")
    status, out, _ = run("restore", place, "--into", new)
    assert status == 0 and out.endswith(f"are in {new}; the audit found all as it was recorded.\n")
    assert "2 entries" in run("--data", new, "jobs")[1]
    assert (status, run("restore", place, "--into", new)[0]) == (0, 2)


def test_a_restore_that_is_not_whole_says_so(run, job, tmp_path):
    run("backup", tmp_path / "disk")
    (path,) = [p for p in (tmp_path / "disk").glob("photos/??/??/*") if len(p.name) == 64]
    path.unlink()
    status, out, _ = run("restore", tmp_path / "disk", "--into", tmp_path / "new")
    assert (
        status == 1
        and f"The original of the photo {path.name[:12]} is still on device 1 (Ana), or it was lost" in out
    )
    assert out.endswith("see above.\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("export", "job 9", "TMP/x.zip"), "there is no job 'job 9' here"),
        (("export", "job 1", "TMP/job.jsonl"), "is here already"),
        (("export", "job 1", "TMP/no/x.zip"), "there is no folder"),
        (("import", "TMP/job.jsonl"), "is no whole zip"),
        (("import", "TMP/nothing.zip"), "does not exist"),
        (("backup", "TMP/job.jsonl"), "cannot be written to"),
        (("backup", "TMP/shop/copy"), "own folder"),
        (("restore", "TMP/shop", "--into", "TMP/new"), "there is no backup in"),
        (("restore", "TMP/shop"), "--into"),
        (("--data", "TMP/none", "backup", "TMP/disk"), "there is no job in these records"),
    ],
)
def test_bad_input_is_one_sentence(run, job, tmp_path, words, said):
    words = [word.replace("TMP", str(tmp_path)) for word in words]
    status, _, error = run(*words)
    assert status == 2 and one_line(error) and said in error
