"""People become role words, the same everywhere; all else of the journal stays."""

from pathlib import Path

from tests.builders import Told

from lastbolt.actions.without_names import without_names
from lastbolt.journal import entry_from, raws_from_lines

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


def redacted(*lines):
    return without_names(Told().told(*lines).raws)[1:]


def test_a_person_has_one_word_in_every_field():
    (on, offered, note) = redacted(
        ("signed-on", {"person": "Ben Marsh", "by": "Ana"}),
        ("handover-offered", {"to": "Ben Marsh", "by": "Ana", "half_done": "Ask Ben, not Bentley; Ana knows."}),
        ("container-scanned", {"container": "Ana's box", "by": "Ben Marsh", "note": "Marsh was here", "device": "phone Ana"}),
    )  # fmt: skip
    assert (on["by"], on["person"]) == ("tech 1", "tech 2")
    assert offered["to"] == "tech 2" and offered["half_done"] == "Ask tech 2, not Bentley; tech 1 knows."
    assert note["container"] == "tech 1's box" and note["note"] == "tech 2 was here"
    assert note["device"] == "phone tech 1"


def test_the_word_is_that_of_the_role():
    described, scanned = redacted(
        ("person-described", {"person": "Ilse", "roles": ["tech", "lead"]}),
        ("container-scanned", {"container": "T1", "by": "Ilse"}),
    )
    assert described["person"] == "lead 1" and scanned["by"] == "lead 1"


def test_names_that_two_people_share_are_somebody():
    *_, told = redacted(
        ("signed-on", {"person": "Ana Marsh"}),
        ("signed-on", {"person": "Ben Marsh"}),
        ("container-scanned", {"container": "T1", "note": "ask Marsh"}),
    )
    assert told["note"] == "ask somebody"


def test_where_a_bolt_goes_is_no_person_and_role_words_stay():
    removed, duty = redacted(
        ("fasteners-removed", {"set": "LID", "n": 2, "to": "Blue bag"}),
        ("duty-set", {"duty": "again", "what": "tell the owner", "limit": "50 h", "told_to": "owner"}),
    )
    assert removed["to"] == "Blue bag" and duty["told_to"] == "owner" and duty["what"] == "tell the owner"


def test_licence_numbers_and_device_hashes_go():
    licence, scanned = redacted(
        ("licence-recorded", {"person": "Ana", "licence": "gas", "number": "GX 4711"}),
        ("container-scanned", {"container": "T1", "prev": "ab" * 32}),
    )
    assert licence["number"] == "left out" and "prev" not in scanned


def test_names_in_a_replacement_go_too():
    first, replaced = redacted(
        ("signed-on", {"person": "Ana"}),
        ("entry-replaced", {"entry": "019df16d-d400-7001-8b2a-da5b2cf8cf61", "fields": {"person": "Zoe"}, "reason": "it was Zoe"}),
    )  # fmt: skip
    assert first["person"] == "tech 1"
    assert replaced["fields"]["person"] == "person 1" and replaced["reason"] == "it was person 1"


def test_the_sample_stays_a_journal_and_no_name_is_left():
    raws = raws_from_lines((SAMPLES / "half_finished.jsonl").read_text().splitlines())
    plain = without_names(raws)
    text = " ".join(str(entry_from(raw)) for raw in plain)
    assert not [name for name in ("Ana", "Ben", "Ilse") if name in text]
    assert [raw["id"] for raw in plain] == [raw["id"] for raw in raws]
    assert [raw["kind"] for raw in plain] == [raw["kind"] for raw in raws]
