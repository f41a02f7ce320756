import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

from lastbolt.label_code import make, shown
from lastbolt.settings import settings_from
from lastbolt.wiring import wire
from tests.actions.pictures import bomb, photo
from tests.builders import Told

TRAY = make("T", 42)


@pytest.fixture
def job_file(tmp_path):
    """A job with tray 42 in it, as JSON Lines."""
    story = Told(level=1).told(("label-bound", {"label": TRAY, "container": "tray 42"}))
    path = tmp_path / "job.jsonl"
    path.write_text("\n".join(json.dumps(raw) for raw in story.raws))
    return path


@pytest.fixture
def card(tmp_path):
    """A camera card: a good photo, a second one without a label, and a file that is no photo."""
    folder = tmp_path / "card"
    folder.mkdir()
    (folder / "1.jpg").write_bytes(photo(shown(TRAY)))
    (folder / "2.jpg").write_bytes(photo())
    (folder / "3.png").write_bytes(bomb())
    return folder


def one_line(error):
    return error.startswith("lastbolt: ") and error.count("\n") == 1 and "Traceback" not in error


def test_entries_from_a_file_go_in_once(run, job_file):
    for _ in range(2):
        status, out, _ = run("enter", "job 1", job_file)
        assert status == 0 and out == "2 entries of job 1 stand in the record, up to place 2.\n"
    assert "job 1\topen\tlevel 1\t2 entries" in run("jobs")[1]


def test_entries_come_from_the_input_too(run, job_file, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(job_file.read_bytes())))
    assert run("enter", "job 1", "-")[0] == 0


def test_one_entry_is_stated_in_words(run, job_file):
    run("enter", "job 1", job_file)
    status, out, _ = run(
        "enter", "job 1", "fasteners-removed", "set=COVER", "n=6", f"to={TRAY}", "--by", "Ana"
    )
    assert (status, out) == (0, "Recorded as entry 3 of job 1.\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("enter", "job 2", "FILE"), "not job 2"),
        (("enter", "job 1", "dance", "n=6"), "no file and no kind"),
        (("enter", "job 1", "nowhere.jsonl"), "no file and no kind"),
        (("enter", "job 1", "container-scanned", "container=T1"), "--by NAME"),
        (("enter", "job 1", "container-scanned", "container", "--by", "Ana"), "FIELD=VALUE"),
        (("enter", "job 1", "container-counted", "container=T1", "n=-3", "--by", "Ana"), "n:"),
        (("verify", "nowhere"), "nowhere"),
        (("audit", "nowhere"), "nowhere"),
        (("intake", "nowhere", "FILE"), "nowhere"),
        (("intake", "job 1", "no-such.jpg"), "no-such.jpg"),
        (("replay", "no-such.jsonl"), "no-such.jsonl"),
        (("labels", "--sheet", "a9", "-o", "x.pdf"), "a4-3x8"),
        (("labels", "--count", "many", "-o", "x.pdf"), "many"),
        (("frobnicate",), "frobnicate"),
        (("labels",), "-o"),
    ],
)
def test_what_cannot_be_done_is_told_in_one_line_with_status_2(run, job_file, words, said):
    run("enter", "job 1", job_file) if words[0] == "labels" else None
    status, _, error = run(*(job_file if word == "FILE" else word for word in words))
    assert status == 2
    assert one_line(error) and said in error


def test_wrong_settings_are_told_in_one_line(run, monkeypatch):
    monkeypatch.setenv("LASTBOLT_ADDRESS", "somewhere")
    status, _, error = run("jobs")
    assert status == 2 and one_line(error) and "LASTBOLT_ADDRESS" in error


def test_a_data_folder_that_is_a_file_is_told_in_one_line(run, job_file):
    status, _, error = run("--data", job_file, "jobs")
    assert status == 2 and one_line(error)


def test_a_card_goes_in_photo_by_photo_and_the_last_line_counts(run, job_file, card):
    run("enter", "job 1", job_file)
    status, out, _ = run("intake", "job 1", card, "--by", "Ana")
    lines = out.splitlines()
    assert status == 1
    assert lines[0].endswith("1.jpg: Kept, on tray 42.")
    assert "no label could be read" in lines[1] and "3.png" in lines[2]
    assert lines[-1] == "2 kept, 0 here already, 1 refused"
    (card / "3.png").unlink()
    status, out, _ = run("intake", "job 1", card)
    assert (status, out.splitlines()[-1]) == (0, "0 kept, 2 here already, 0 refused")


def test_a_card_without_any_photo_ends_with_2(run, job_file, card):
    run("enter", "job 1", job_file)
    assert run("intake", "job 1", card / "3.png")[0] == 2


def test_look_needs_no_data_and_prints_one_object_a_line(run, card, tmp_path):
    status, out, error = run("look", card, "--json")
    seen = [json.loads(line) for line in out.splitlines()]
    assert status == 1 and "3.png" in error
    assert [one["size"] for one in seen] == [[900, 500], [900, 500]]
    (label,) = seen[0]["labels"]
    assert (label["text"], label["code"]) == (shown(TRAY), TRAY)
    assert set(seen[0]) == {"file", "size", "labels", "parts", "count", "unsure"}
    assert not (tmp_path / "shop").exists()


def test_look_says_it_in_words_too(run, card):
    status, out, _ = run("look", card / "1.jpg")
    assert status == 0 and f"labels: {TRAY}" in out


def test_look_writes_a_count_mat_from_above_and_says_where_there_is_none(run, card, tmp_path):
    mat = Path(__file__).parent / "vision" / "photos" / "mat_001.jpg"
    status, out, error = run("look", mat, card / "1.jpg", "--from-above", tmp_path / "flat")
    assert status == 0 and "about 9 parts" in out
    assert [path.name for path in (tmp_path / "flat").iterdir()] == ["mat_001-from-above.png"]
    assert "1.jpg: No count mat is seen" in error
    (tmp_path / "file").write_text("")
    assert run("look", mat, "--from-above", tmp_path / "file" / "x")[0] == 2


def test_labels_are_printed_under_new_numbers(run, tmp_path):
    for first in ("T-0001-W", "T-0004-Q"):
        status, out, error = run("labels", "--count", "3", "-o", tmp_path / "labels.pdf")
        assert status == 0 and out == ""
        assert (tmp_path / "labels.pdf").read_bytes().startswith(b"%PDF")
        assert f"3 labels, {first} to T-000" in error
    assert "mat" in run("labels", "--sheet", "mat-a5", "-o", tmp_path / "mat.pdf")[2]


def test_verify_says_what_stands_in_the_way_by_its_status(run, job_file):
    run("enter", "job 1", job_file)
    run("enter", "job 1", "container-emptied", "container=tray 42", "--by", "Ana")
    status, out, _ = run("verify", "job 1", "--json")
    (verdict,) = json.loads(out)["verdicts"]
    assert verdict["at"] == "end"
    assert status == int(any(f["severity"] != "note" for f in verdict["findings"]))
    run("enter", "job 1", "fasteners-removed", "set=COVER", "n=6", "to=tray 42", "--by", "Ana")
    status, out, _ = run("verify", "job 1")
    assert status == 1 and "COVER" in out


def test_replay_needs_no_store(run, job_file, tmp_path):
    status, out, _ = run("replay", job_file, "--json")
    assert status in (0, 1) and json.loads(out)["verdicts"][-1]["at"] == "end"
    assert not (tmp_path / "shop").exists()


@pytest.mark.parametrize("text", ["", "[1]", "{", '{"kind": "dance"}', "\x00"])
def test_a_file_that_is_no_journal_is_told_in_one_line(run, tmp_path, text):
    (tmp_path / "odd.jsonl").write_text(text)
    status, _, error = run("replay", tmp_path / "odd.jsonl")
    assert status == 2 and one_line(error)


def test_a_file_that_is_no_text_is_told_in_one_line(run, tmp_path):
    (tmp_path / "odd.jsonl").write_bytes(b"\xff\xfe\xfd")
    status, _, error = run("replay", tmp_path / "odd.jsonl")
    assert status == 2 and one_line(error) and "UTF-8" in error


def test_audit_names_what_does_not_fit(run, job_file, card, tmp_path):
    run("enter", "job 1", job_file)
    run("intake", "job 1", card / "1.jpg")
    status, out, _ = run("audit", "job 1")
    assert status == 0 and "3 entries and 1 photos are as they were recorded" in out
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "shop")}))
    (kept,) = wired.look_up.photos_of("job 1")
    wired.close()
    (tmp_path / "shop" / "photos" / kept.sha256[:2] / kept.sha256[2:4] / kept.sha256).unlink()
    status, out, _ = run("audit", "job 1")
    assert status == 1 and kept.sha256 in out


def test_rebuild_says_what_it_did(run, job_file):
    run("enter", "job 1", job_file)
    assert run("rebuild")[:2] == (0, "The look-up tables of 1 jobs were computed anew.\n")


def test_schema_is_a_json_schema_of_all_kinds(run):
    schema = json.loads(run("schema")[1])
    assert "job-opened" in schema["discriminator"]["mapping"]


def test_checks_print_their_manual(run):
    pages = json.loads(run("checks", "--json")[1])
    assert len(pages) > 40
    assert "tray-not-empty" in run("checks")[1]


def test_it_runs_as_a_module(tmp_path):
    done = subprocess.run(
        [sys.executable, "-m", "lastbolt", "--data", str(tmp_path), "verify", "nowhere"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert one_line(done.stderr)
