"""A job goes out as one zip and comes back the same; an unsound zip is refused in one sentence, whole."""

import io
import json
import os
import sqlite3
import warnings
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import ExifTags, Image
from tests.actions.pictures import photo
from tests.builders import Told

from lastbolt.actions import archive, check_bundle
from lastbolt.actions.audit import audit
from lastbolt.actions.check_bundle import manifest_bytes, manifest_seal, seal
from lastbolt.actions.exchange import export_job, import_job
from lastbolt.actions.record import record
from lastbolt.actions.sample import read_stories
from lastbolt.actions.verify import replay_lines
from lastbolt.errors import BadInputError, ConflictError, NotFoundError, StoreError
from lastbolt.report.verdict import as_json
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


@pytest.fixture
def other(tmp_path):
    """Another shop, with nothing in it yet."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "other shop")}))
    yield wired
    wired.close()


@pytest.fixture
def story():
    return Told(level=1).told(("container-scanned", {"container": "T1", "by": "Ben"}))


@pytest.fixture
def zipped(shop, clock, story, tmp_path):
    """A job of four entries with two photos, as a zip."""
    for number in (1, 2):
        sha256 = shop.photos.put(photo("x" * number))
        story.say("photo-added", photo=sha256, sha256=sha256)
    record(shop.journal, clock, story.raws)
    export_job(shop, "job 1", tmp_path / "job.zip")
    return tmp_path / "job.zip"


def members(path):
    with zipfile.ZipFile(path) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def written(path, files, how=zipfile.ZIP_STORED):
    with zipfile.ZipFile(path, "w", how) as opened:
        for name, data in files.items():
            opened.writestr(name, data)
    return path


def forged(files, **said):
    """Write the manifest anew, as somebody would who knows how it is sealed."""
    manifest = json.loads(files["manifest.json"]) | said
    listed = {name: data for name, data in files.items() if name != "manifest.json"}
    manifest["members"] = {
        name: {"size": len(data), "sha256": check_bundle.sha256(data)} for name, data in listed.items()
    }
    return {**files, "manifest.json": manifest_bytes({**manifest, "sha256": manifest_seal(manifest)})}


def resealed(files, change):
    """Change the lines of the journal and seal the whole chain anew."""
    lines, prev = [json.loads(text) for text in files["journal.jsonl"].splitlines()], "0" * 64
    change(lines)
    for number, line in enumerate(lines, start=1):
        line |= {"position": number, "prev": prev}
        prev = line["hash"] = seal(line)
    journal = b"".join(json.dumps(line).encode() + b"\n" for line in lines)
    counts = json.loads(files["manifest.json"])["counts"] | {"entries": len(lines)}
    return forged({**files, "journal.jsonl": journal}, head=prev, counts=counts)


def refused(other, path):
    with pytest.raises(BadInputError) as raised:
        import_job(other.shop, other.sealed, path)
    assert other.journal.job_names() == [] and not list(other.settings.data.glob("photos/??/??/*"))
    return str(raised.value)


def test_out_and_in_and_out_gives_equal_bytes(shop, other, zipped, tmp_path):
    moved = import_job(other.shop, other.sealed, zipped)
    assert (moved.job, moved.entries, moved.photos) == ("job 1", 4, 2)
    assert other.journal.lines("job 1") == shop.journal.lines("job 1")
    assert audit(other.shop, "job 1").is_whole and other.look_up.job("job 1").entries == 4
    export_job(other.shop, "job 1", tmp_path / "again.zip")
    first, again = members(zipped), members(tmp_path / "again.zip")
    assert list(first) == list(again)
    assert {n: d for n, d in first.items() if n != "manifest.json"} == {
        n: d for n, d in again.items() if n != "manifest.json"
    }


def test_taking_it_in_twice_changes_nothing(other, zipped):
    import_job(other.shop, other.sealed, zipped)
    before = other.journal.lines("job 1")
    moved = import_job(other.shop, other.sealed, zipped)
    assert (moved.entries, moved.photos) == (0, 0) and other.journal.lines("job 1") == before


def test_a_longer_version_adds_what_is_new_and_a_shorter_one_nothing(
    shop, clock, other, story, zipped, tmp_path
):
    import_job(other.shop, other.sealed, zipped)
    story.say("container-scanned", container="T2")
    record(shop.journal, clock, story.raws)
    export_job(shop, "job 1", tmp_path / "longer.zip")
    assert import_job(other.shop, other.sealed, tmp_path / "longer.zip").entries == 1
    assert import_job(other.shop, other.sealed, zipped).entries == 0
    assert other.journal.lines("job 1") == shop.journal.lines("job 1")


def test_a_job_that_went_on_in_both_shops_is_refused(shop, clock, other, story, zipped, tmp_path):
    import_job(other.shop, other.sealed, zipped)
    for here, container in ((shop, "T2"), (other.shop, "T3")):
        own = Told(level=1, start="9 08:00").told(("container-scanned", {"container": container}))
        record(here.journal, clock, own.raws[1:])
    export_job(shop, "job 1", tmp_path / "own.zip")
    before = other.journal.lines("job 1")
    with pytest.raises(ConflictError, match="entry 5 of job 1 stands here with other content"):
        import_job(other.shop, other.sealed, tmp_path / "own.zip")
    assert other.journal.lines("job 1") == before


def test_an_id_that_another_job_has_is_refused_and_no_photo_stays(other, clock, story, zipped):
    record(other.journal, clock, [{**story.raws[1], "job": "job 2"}])
    with pytest.raises(ConflictError, match="job job 2, place 1"):
        import_job(other.shop, other.sealed, zipped)
    assert other.journal.job_names() == ["job 2"] and not list(other.settings.data.glob("photos/??/??/*"))


def test_the_whole_sample_goes_over_and_its_verdict_can_be_had_again(shop, clock, other, tmp_path):
    for told in read_stories(SAMPLES):
        for picture in told.photos.values():
            shop.photos.put(picture)
        record(shop.journal, clock, told.entries)
        path = tmp_path / f"{told.job}.zip"
        export_job(shop, told.job, path)
        import_job(other.shop, other.sealed, path)
        files = members(path)
        again = as_json(replay_lines(files["journal.jsonl"].decode().splitlines()))
        assert again == json.loads(files["verdict.json"])
        assert audit(other.shop, told.job) == audit(shop, told.job)


def test_an_entry_with_fields_and_spaces_of_its_own_goes_over(shop, clock, other, story, tmp_path):
    story.raws[0] |= {"job": " job 1 ", "later": {"ö": [1.0, 1e-7, None, "\u2028\r\n"]}}
    record(shop.journal, clock, story.raws)
    export_job(shop, "job 1", tmp_path / "job.zip")
    import_job(other.shop, other.sealed, tmp_path / "job.zip")
    assert other.journal.lines("job 1") == shop.journal.lines("job 1")


def test_photos_that_are_not_here_are_said_to_be_left_out(shop, clock, other, story, tmp_path):
    story.say("photo-added", photo="late", sha256="ab" * 32)
    damaged = shop.photos.put(photo("x"))
    story.say("photo-added", photo="hurt", sha256=damaged)
    record(shop.journal, clock, story.raws)
    (path,) = tmp_path.glob(f"shop/photos/??/??/{damaged}")
    os.chmod(path, 0o644)
    path.write_bytes(b"hurt")
    moved = export_job(shop, "job 1", tmp_path / "job.zip")
    assert [left["why"] for left in moved.left_out] == [
        "its bytes never came here",
        "its bytes were damaged on disk",
    ]
    assert import_job(other.shop, other.sealed, tmp_path / "job.zip").left_out == moved.left_out


def test_a_job_that_is_not_here_and_a_file_that_is_are_told(shop, zipped):
    with pytest.raises(NotFoundError):
        export_job(shop, "nowhere", zipped.with_name("new.zip"))
    kept = zipped.read_bytes()
    with pytest.raises(ConflictError, match="is here already"):
        export_job(shop, "job 1", zipped)
    with pytest.raises(BadInputError, match="there is no folder"):
        export_job(shop, "job 1", zipped.parent / "no" / "job.zip")
    assert zipped.read_bytes() == kept and sorted(p.name for p in zipped.parent.iterdir()) == [
        "job.zip",
        "shop",
    ]


def test_a_job_whose_own_chain_is_broken_does_not_go_out(shop, zipped, wired):
    connection = sqlite3.connect(wired.settings.data / "lastbolt.sqlite")
    connection.execute("DROP TRIGGER entries_never_change")
    connection.execute("UPDATE entries SET raw = replace(raw, '\"T1\"', '\"T2\"')")
    connection.commit()
    connection.close()
    with pytest.raises(StoreError, match="entry 2 was changed"):
        export_job(shop, "job 1", zipped.with_name("new.zip"))
    assert not zipped.with_name("new.zip").exists()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda data: b"no zip", "is no whole zip"),
        (lambda data: b"", "is no whole zip"),
        (lambda data: data[: len(data) // 2], "is no whole zip"),
        (lambda data: data[:-10], "is no whole zip"),
        (lambda data: photo("x"), "is no whole zip"),
    ],
    ids=["text", "nothing", "half", "without its end", "a photo"],
)
def test_what_is_no_whole_zip_is_refused(other, zipped, change, said):
    path = zipped.with_name("odd.zip")
    path.write_bytes(change(zipped.read_bytes()))
    assert said in refused(other, path)


def test_flips_in_the_zip_itself_never_come_in_unseen(shop, other, zipped):
    """A flip is refused, or hits bytes that say nothing (a time of day, a right): then all is as it was."""
    data, path, refusals = zipped.read_bytes(), zipped.with_name("flipped.zip"), 0
    for at in range(0, len(data), len(data) // 60):
        path.write_bytes(data[:at] + bytes([data[at] ^ 1 << at % 8]) + data[at + 1 :])
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            try:
                import_job(other.shop, other.sealed, path)
            except BadInputError:
                refusals += 1
        if other.journal.job_names():
            assert other.journal.lines("job 1") == shop.journal.lines("job 1")
            assert audit(other.shop, "job 1").is_whole
    assert refusals > 40


@pytest.mark.parametrize(
    "name",
    ["../out.txt", "/etc/out", "photos/../../out.jpg", "C:\\out", "photos\\x.jpg", "photos/", "photos/x.jpg", "more.txt"],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_refused(other, zipped, name):
    files = {**members(zipped), name: b"x"}
    said = refused(other, written(zipped.with_name("odd.zip"), forged(files)))
    assert "has no place in an exported job" in said and not (zipped.parent / "out.txt").exists()


def test_one_name_twice_is_refused(other, zipped):
    path = written(zipped.with_name("odd.zip"), members(zipped))
    with zipfile.ZipFile(path, "a") as opened, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        opened.writestr("verdict.txt", "nothing on the list")
    assert "two files of one name" in refused(other, path)


def test_what_would_unpack_to_too_much_is_refused(other, zipped, monkeypatch):
    path = zipped.with_name("odd.zip")
    files = members(zipped)
    bomb = {**files, "checks.md": bytes(8 * 2**20)}
    assert "packed too tightly" in refused(other, written(path, bomb, zipfile.ZIP_DEFLATED))
    small = replace(other.shop, limits=replace(other.shop.limits, largest_photo=1000))
    with pytest.raises(BadInputError, match="larger than"):
        import_job(small, other.sealed, zipped)
    monkeypatch.setattr(archive, "MOST_FILES", 5)
    assert "the zip holds 13 files" in refused(other, zipped)


def test_a_size_that_lies_is_refused(other, zipped):
    """The directory of the zip says 10 bytes of a text that has more: what is read stops there."""
    path = written(zipped.with_name("odd.zip"), members(zipped))
    data = bytearray(path.read_bytes())
    at = data.rindex(b"checks.md") - 46
    data[at + 24 : at + 28] = (10).to_bytes(4, "little")
    path.write_bytes(data)
    assert "checks.md" in refused(other, path)


def test_locked_zips_and_rare_packings_are_refused(other, zipped):
    path = written(zipped.with_name("odd.zip"), members(zipped), zipfile.ZIP_LZMA)
    assert "locked or packed" in refused(other, path)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (b'"T1"', b'"T2"', "entry 2 (id"),
        (b'"position":3', b'"position":5', "entry 3 (id"),
        (b'{"entry"', b'"entry"', "line 1 of journal.jsonl was changed"),
    ],
)
def test_a_broken_chain_is_refused_by_the_name_of_its_entry(other, zipped, old, new, said):
    files = members(zipped)
    files["journal.jsonl"] = files["journal.jsonl"].replace(old, new, 1)
    assert said in refused(other, written(zipped.with_name("odd.zip"), forged(files)))


def put_kind(lines):
    lines[1]["entry"]["kind"] = "container-eaten"


def put_job(lines):
    lines[2]["entry"]["job"] = "job 2"


def put_time(lines):
    lines[1]["received"] = "yesterday"


def put_twice(lines):
    lines.append(dict(lines[1]))


def put_nothing(lines):
    lines.clear()


def put_other_photo(lines):
    lines[3]["entry"]["sha256"] = "cd" * 32


def put_lost_photo(lines):
    del lines[3]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (put_kind, "entry 2: this is no entry: its kind 'container-eaten' is unknown"),
        (put_job, "entry 3 (id"),
        (put_time, "entry 2 has no time of arrival"),
        (put_twice, "two entries of one id"),
        (put_nothing, "holds no entry"),
        (put_other_photo, "the photo or sound cdcd"),
        (put_lost_photo, "no entry names photos/"),
    ],
)
def test_a_well_sealed_journal_that_is_unsound_is_refused(other, zipped, change, said):
    files = resealed(members(zipped), change)
    assert said in refused(other, written(zipped.with_name("odd.zip"), files))


def test_a_photo_with_other_bytes_is_refused_even_if_the_manifest_lists_them(other, zipped):
    files = members(zipped)
    name = next(name for name in files if name.startswith("photos/"))
    files[name] += b"x"
    said = refused(other, written(zipped.with_name("odd.zip"), forged(files)))
    assert f"{name} is not named by the hash of its bytes" in said


@pytest.mark.parametrize("text", [b"[]", b"{}", b"no json", b'{"format": "of another kind"}'])
def test_a_manifest_of_another_kind_is_refused(other, zipped, text):
    files = {**members(zipped), "manifest.json": text}
    assert "manifest.json" in refused(other, written(zipped.with_name("odd.zip"), files))


def test_a_manifest_without_what_it_should_say_is_refused(other, zipped):
    said = {"format": check_bundle.FORMAT, "format_version": 1}
    files = {**members(zipped), "manifest.json": manifest_bytes({**said, "sha256": manifest_seal(said)})}
    assert "does not say what it should" in refused(other, written(zipped.with_name("odd.zip"), files))


def test_a_file_that_the_manifest_does_not_list_is_refused(other, zipped):
    files = members(zipped)
    del files["checks.md"]
    files = {**forged(files), "checks.md": b"more"}
    assert "does not list checks.md" in refused(other, written(zipped.with_name("odd.zip"), files))


def gps_photo():
    facts = Image.Exif()
    facts.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitude] = (54.0, 32.0, 10.0)
    out = io.BytesIO()
    Image.open(io.BytesIO(photo("x"))).save(out, "JPEG", exif=facts)
    return out.getvalue()


def test_a_customers_version_has_no_names_and_no_places(shop, clock, other, story, tmp_path):
    sha256 = shop.photos.put(gps_photo())
    story.say("photo-added", photo=sha256, sha256=sha256, note="Ben took it")
    webp = io.BytesIO()
    Image.new("RGB", (9, 9)).save(webp, "WEBP")
    story.say("photo-added", photo="w", sha256=shop.photos.put(webp.getvalue()))
    record(shop.journal, clock, story.raws)
    path = tmp_path / "customer.zip"
    moved = export_job(shop, "job 1", path, customer=True)
    assert moved.photos == 1 and "cannot be cut out" in moved.left_out[0]["why"]
    files = members(path)
    everything = b" ".join(data for name, data in files.items() if name != "checks.md")
    assert b"Ana" not in everything and b"Ben" not in everything and sha256.encode() not in everything
    (picture,) = [data for name, data in files.items() if name.startswith("photos/")]
    with Image.open(io.BytesIO(picture)) as shown:
        assert not shown.getexif().get_ifd(ExifTags.IFD.GPSInfo)
    assert "cannot be re-computed" in json.loads(files["manifest.json"])["chain"]
    lines = [json.loads(text) for text in files["journal.jsonl"].splitlines()]
    assert all(set(line) == {"position", "received", "entry"} for line in lines)
    assert check_bundle.check(check_bundle.Bundle(list(files), files.__getitem__))[0].startswith(
        "All 11 files"
    )
    assert "customer's version" in refused(other, path)


def test_a_customers_version_of_the_sample_finds_the_same(shop, clock, tmp_path):
    told = read_stories(SAMPLES)[1]
    record(shop.journal, clock, told.entries)
    for customer in (False, True):
        export_job(shop, told.job, tmp_path / f"{customer}.zip", customer=customer)
    whole, plain = (json.loads(members(tmp_path / f"{c}.zip")["verdict.json"]) for c in (False, True))

    def found(said):
        return [[(f["check"], f["severity"], f["subject"]) for f in v["findings"]] for v in said["verdicts"]]

    assert found(whole) == found(plain)
