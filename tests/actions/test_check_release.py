"""One flipped bit anywhere in journal, photo, record or signature is named, also when the manifest was mended."""

from __future__ import annotations

import hashlib
import json
import random

import pytest
from tests.actions.releases import JOB, released, sample_shop

from lastbolt.actions import check_bundle
from lastbolt.actions.archive import open_archive
from lastbolt.actions.audit import audit
from lastbolt.actions.audit_release import audit_releases
from lastbolt.actions.check_bundle import Bundle, MisfitError, check
from lastbolt.actions.exchange import export_job, import_job
from lastbolt.actions.release_members import release_members
from lastbolt.keys.signing import is_signed
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

SAMPLED = 40
"""So many places of each file are flipped, at random from a fixed seed, and its first and last byte."""


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    wired = sample_shop(tmp_path_factory.mktemp("signed"))
    room = released(wired)
    yield wired, room
    wired.close()


@pytest.fixture(scope="module")
def zipped(shop, tmp_path_factory):
    wired, room = shop
    path = tmp_path_factory.mktemp("zip") / "job.zip"
    export_job(room.shop, JOB, path, more=release_members(room.shop, wired.bench, wired.releases, JOB))
    return path


@pytest.fixture(scope="module")
def members(zipped):
    with open_archive(zipped, largest_photo=2**26) as archive:
        return {name: archive.read(name) for name in archive.names}


def misfit(members, key=None):
    with pytest.raises(MisfitError) as raised:
        check(Bundle(list(members), members.__getitem__), key)
    return str(raised.value)


def places(data, seed):
    """Give the bits to flip of a file."""
    chosen = random.Random(seed).sample(range(len(data)), min(SAMPLED, len(data)))
    return [(at, random.Random(at).randrange(8)) for at in {0, len(data) - 1, *chosen}]


def flipped(members, name, at, bit):
    data = bytearray(members[name])
    data[at] ^= 1 << bit
    return {**members, name: bytes(data)}


def mended(members, name):
    """Write the manifest anew over changed members, as whoever changed them would."""
    manifest = json.loads(members["manifest.json"])
    data = members[name]
    manifest["members"][name] = {"size": len(data), "sha256": hashlib.sha256(data).hexdigest()}
    manifest["sha256"] = check_bundle.manifest_seal(manifest)
    return {**members, "manifest.json": check_bundle.manifest_bytes(manifest)}


def test_an_untouched_release_fits_and_says_who_signed(members, shop):
    said = check(Bundle(list(members), members.__getitem__), shop[0].signer.public)
    assert any("was signed by Ilse" in line and shop[0].signer.public in line for line in said)
    assert not any("no signature" in line for line in said)


@pytest.mark.parametrize("ending", [".json", "-record-a4.pdf", "-record-letter.pdf"])
def test_a_flipped_bit_in_what_was_signed_is_named_though_the_manifest_was_mended(members, ending):
    (name,) = [name for name in members if name.startswith("releases/") and name.endswith(ending)]
    for at, bit in places(members[name], ending):
        said = misfit(mended(flipped(members, name, at, bit), name))
        assert said.startswith("releases/"), (at, bit, said)


def test_a_flipped_bit_in_the_journal_names_its_entry_though_the_manifest_was_mended(members):
    journal = members["journal.jsonl"]
    for at, bit in places(journal, "journal"):
        number = journal[:at].count(b"\n") + 1
        said = misfit(mended(flipped(members, "journal.jsonl", at, bit), "journal.jsonl"))
        assert said.startswith((f"entry {number} ", f"line {number} of journal.jsonl ")), (at, said)


def test_a_flipped_bit_in_a_photo_is_named_though_the_manifest_was_mended(members):
    photos = [name for name in members if name.startswith("photos/")]
    lines = [json.loads(line)["entry"] for line in members["journal.jsonl"].splitlines()]
    assert len(photos) == len({entry["sha256"] for entry in lines if entry["kind"] == "photo-added"}) > 40
    for name in photos:
        ((at, bit), *_) = places(members[name], name)
        assert misfit(mended(flipped(members, name, at, bit), name)).startswith(name)


@pytest.fixture(scope="module")
def place(shop):
    """The line of the journal that the sample's release was signed over."""
    wired, _ = shop
    (kept,) = wired.releases.of(JOB)
    assert kept.position > 470
    return kept.position


def resealed(members, change):
    """Change an entry and seal the whole chain anew, as whoever knows the format could."""
    lines = [json.loads(line) for line in members["journal.jsonl"].splitlines()]
    change(lines)
    prev = check_bundle.GENESIS
    for line in lines:
        line["prev"] = prev
        prev = line["hash"] = check_bundle.seal(line)
    text = "".join(check_bundle.canonical(line) + "\n" for line in lines).encode()
    manifest = json.loads(members["manifest.json"])
    manifest["head"] = prev
    own = {**members, "journal.jsonl": text, "manifest.json": check_bundle.manifest_bytes(manifest)}
    return mended(own, "journal.jsonl")


def test_a_journal_sealed_anew_from_end_to_end_does_not_fit_the_signature(members, place):
    def slacker(lines):
        pulled = next(line for line in lines if line["entry"]["kind"] == "fasteners-tightened")
        pulled["entry"]["value_nm"] = 99.0

    assert f"the head that was signed is not that of entry {place}" in misfit(resealed(members, slacker))


def test_another_shops_key_is_told_from_the_one_expected(members):
    assert "signed with the key" in misfit(members, "00" * 32)


def test_a_release_whose_signature_was_taken_out_is_said_to_have_none(members, place):
    left = {name: data for name, data in members.items() if not name.startswith("releases/")}
    manifest = json.loads(left["manifest.json"])
    manifest["members"] = {n: m for n, m in manifest["members"].items() if not n.startswith("releases/")}
    manifest["sha256"] = check_bundle.manifest_seal(manifest)
    left["manifest.json"] = check_bundle.manifest_bytes(manifest)
    said = check(Bundle(list(left), left.__getitem__))
    assert f"The release at place {place} has no signature." in said


def test_the_verdict_of_a_changed_file_is_not_that_of_the_journal(members, tmp_path, capsys):
    verdict = json.loads(members["verdict.json"])
    verdict["verdicts"][-1]["not_checked"] = ["hole-empty"]
    changed = mended({**members, "verdict.json": json.dumps(verdict).encode()}, "verdict.json")
    for name, data in changed.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    assert check_bundle.main([str(tmp_path)]) == 1
    assert "verdict.json is not what the check set that came along says" in capsys.readouterr().out


def test_a_release_comes_in_with_its_job_and_is_known_to_be_another_shops(shop, zipped, tmp_path):
    other = wire(settings_from({"LASTBOLT_DATA": str(tmp_path)}))
    import_job(other.shop, other.sealed, zipped, releases=other.releases)
    own = audit_releases(other.journal, other.releases, is_signed, JOB)
    assert own.faults == () and "was signed by Ilse" in own.said[0]
    theirs = audit_releases(other.journal, other.releases, is_signed, JOB, own_key=other.signer.public)
    assert "another key than this shop's" in theirs.faults[0]
    assert other.releases.of(JOB) == shop[0].releases.of(JOB)
    other.close()


COLUMNS = ("record", "document", "signature", "papers", "papers_signature")


def flip_in_store(wired, column, at, bit):
    """Change one bit of what is kept, past the triggers, as a disk or a hand could."""
    with wired.database.writing() as tables:
        tables.execute("DROP TRIGGER releases_never_change")
        text = tables.execute(f"SELECT {column} FROM releases WHERE job = ?", [JOB]).fetchone()[0]
        data = bytearray(text.encode())
        data[at % len(data)] ^= 1 << bit
        changed = data.decode("utf-8", "replace")
        tables.execute(f"UPDATE releases SET {column} = ? WHERE job = ?", [changed, JOB])
        return text


def restore(wired, column, text):
    with wired.database.writing() as tables:
        tables.execute(f"UPDATE releases SET {column} = ? WHERE job = ?", [text, JOB])
        tables.execute(
            "CREATE TRIGGER releases_never_change BEFORE UPDATE ON releases BEGIN "
            "SELECT RAISE(ABORT, 'a signed release is never changed; withdraw it with an entry'); END"
        )


@pytest.mark.parametrize("column", COLUMNS)
def test_a_flipped_bit_in_the_shops_own_records_is_told(shop, place, column):
    wired, _ = shop
    kept = wired.releases.of(JOB)[0]
    for at, bit in places(getattr(kept, column).encode(), column)[:12]:
        text = flip_in_store(wired, column, at, bit % 5)
        try:
            found = audit_releases(wired.journal, wired.releases, is_signed, JOB, own_key=wired.signer.public)
            assert any(f"The release at place {place}" in fault for fault in found.faults), (at, bit)
        finally:
            restore(wired, column, text)
    again = audit_releases(wired.journal, wired.releases, is_signed, JOB, own_key=wired.signer.public)
    assert again.faults == () and audit(wired.shop, JOB).is_whole


def test_a_paper_changed_on_disk_is_told_and_not_given_out(shop):
    wired, _ = shop
    sha256 = wired.releases.of(JOB)[0].files["record-a4.pdf"]
    paper = wired.releases.paper(sha256)
    with wired.database.writing() as tables:
        tables.execute("UPDATE release_papers SET data = ? WHERE sha256 = ?", [paper[:-9] + b"x" * 9, sha256])
    found = audit_releases(wired.journal, wired.releases, is_signed, JOB)
    assert any("record-a4.pdf is missing or was changed" in fault for fault in found.faults)
    with wired.database.writing() as tables:
        tables.execute("UPDATE release_papers SET data = ? WHERE sha256 = ?", [paper, sha256])
