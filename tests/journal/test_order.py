"""The order of what happened: clocks set right, one device's entries in their order, corrections applied, each once."""

from __future__ import annotations

from typing import Any

import pytest
from tests.replay.scenario_journal import Journal, moment

from lastbolt.journal import effective, entry_from, in_order


class Phones(Journal):
    """A journal in which each line names its phone and its moment."""

    def line(self, kind: str, at: str, device: str, **fields: Any) -> str:
        return self.add(kind, moment(at), device=device, **fields)

    def order(self) -> list[str]:
        return [h.entry.device + "." + str(h.entry.seq) for h in in_order(map(entry_from, self.entries))]


def test_entries_of_several_phones_go_by_time() -> None:
    phones = Phones()
    phones.line("signed-on", "1 08:02", "B")
    phones.line("signed-on", "1 08:01", "A")

    assert phones.order() == ["A.1", "B.1"]


def test_entries_of_one_phone_never_pass_each_other() -> None:
    phones = Phones()
    phones.line("signed-on", "1 08:05", "A")
    phones.line("signed-off", "1 08:01", "A")
    phones.line("signed-on", "1 08:03", "B")

    assert phones.order() == ["B.1", "A.1", "A.2"]


def test_a_slow_clock_is_set_right() -> None:
    phones = Phones()
    phones.line("part-removed", "1 10:00", "A", part="LID")
    phones.line("part-fitted", "1 08:05", "B", part="LID")
    phones.line("clock-marked", "1 10:10", "A", marked_device="B", offset_s=-7200)

    assert phones.order() == ["A.1", "B.1", "A.2"]


def test_a_late_entry_stands_where_it_happened() -> None:
    phones = Phones()
    phones.line("part-fitted", "1 09:00", "A", part="LID")
    phones.line(
        "part-removed", "1 17:00", "A", part="LID", mode="late", happened_at=moment("1 08:00").isoformat()
    )

    assert phones.order() == ["A.2", "A.1"]


def test_what_was_sorted_from_a_photo_stands_behind_the_photo_on_any_phones_clock() -> None:
    phones = Phones()
    phones.line("photo-added", "1 08:00", "slow", photo="tray")
    phones.line("part-fitted", "1 11:00", "B", part="LID")
    phones.line("clock-marked", "1 12:00", "B", marked_device="slow", offset_s=-7200)
    phones.line(
        "fasteners-removed",
        "1 17:00",
        "B",
        set="LID",
        n=2,
        photos=["tray"],
        mode="late",
        happened_at=moment("1 08:00").isoformat(),
    )

    assert phones.order() == ["slow.1", "B.3", "B.1", "B.2"]


def test_a_proof_written_late_stands_where_it_was_written() -> None:
    phones = Phones()
    phones.line("opening-closed", "1 09:00", "A", opening="PORT")
    phones.line(
        "looked-inside",
        "1 17:00",
        "A",
        opening="PORT",
        mode="late",
        happened_at=moment("1 08:00").isoformat(),
    )

    assert phones.order() == ["A.1", "A.2"]


def test_an_entry_sent_twice_counts_once() -> None:
    phones = Phones()
    phones.line("signed-on", "1 08:00", "A")
    phones.entries *= 2

    assert phones.order() == ["A.1"]


def test_two_entries_with_one_id_give_the_same_one_whatever_came_first() -> None:
    phones = Phones()
    phones.line("part-removed", "1 08:00", "A", part="LID")
    entries = [entry_from(phones.entries[0] | {"part": name}) for name in ("LID", "PAN")]

    assert [h.entry for h in in_order(entries)] == [h.entry for h in in_order(entries[::-1])]


def test_within_one_instant_taking_apart_comes_first_and_the_question_last() -> None:
    phones = Phones()
    for kind, fields in (
        ("release-asked", {}),
        ("part-fitted", {"part": "LID"}),
        ("fasteners-removed", {"set": "LID", "n": 1}),
    ):
        phones.line(kind, "1 08:00", kind, **fields)

    assert [h.entry.kind for h in in_order(map(entry_from, phones.entries))] == [
        "fasteners-removed",
        "part-fitted",
        "release-asked",
    ]


def kept(phones: Phones) -> list[Any]:
    return [h.entry for h in effective(in_order(map(entry_from, phones.entries)))]


def test_a_voided_entry_does_not_count_and_a_voided_void_lets_it_stand() -> None:
    phones = Phones()
    wrong = phones.line("part-removed", "1 08:00", "A", part="LID")
    void = phones.line("entry-voided", "1 08:01", "A", entry=wrong, reason="undo")
    assert [e.kind for e in kept(phones)] == ["entry-voided"]

    phones.line("entry-voided", "1 08:02", "A", entry=void, reason="it was right")
    assert [e.kind for e in kept(phones)] == ["part-removed", "entry-voided"]


def test_the_newest_replacement_counts() -> None:
    phones = Phones()
    wrong = phones.line("fasteners-removed", "1 08:00", "A", set="LID", n=5, to="B1")
    phones.line("entry-replaced", "1 08:01", "A", entry=wrong, fields={"n": 6}, reason="miscounted")
    phones.line("entry-replaced", "1 08:02", "A", entry=wrong, fields={"n": 7}, reason="miscounted")

    assert kept(phones)[0].n == 7


@pytest.mark.parametrize("fields", [{"n": -1}, {"n": "many"}, {"to": 7}])
def test_a_replacement_that_gives_no_sound_entry_is_passed_over(fields: dict[str, Any]) -> None:
    phones = Phones()
    wrong = phones.line("fasteners-removed", "1 08:00", "A", set="LID", n=5, to="B1")
    phones.line("entry-replaced", "1 08:01", "A", entry=wrong, fields=fields, reason="slip")

    assert (kept(phones)[0].n, kept(phones)[0].to) == (5, "B1")


def test_a_replacement_cannot_change_who_when_and_what_kind() -> None:
    phones = Phones()
    wrong = phones.line("fasteners-removed", "1 08:00", "A", set="LID", n=5, by="Ana")
    phones.line(
        "entry-replaced",
        "1 08:01",
        "A",
        entry=wrong,
        fields={"by": "Ben", "kind": "signed-on", "n": 6},
        reason="slip",
    )

    assert (kept(phones)[0].by, kept(phones)[0].kind, kept(phones)[0].n) == ("Ana", "fasteners-removed", 6)


def test_a_voided_void_counts_though_the_clock_of_its_phone_is_slow() -> None:
    phones = Phones()
    removal = phones.line("part-removed", "1 08:00", "A", part="LID")
    void = phones.line("entry-voided", "1 08:10", "A", entry=removal, reason="undo")
    phones.line("entry-voided", "1 08:05", "slow", entry=void, reason="it was right")

    assert [e.kind for e in kept(phones)] == ["part-removed", "entry-voided"]


def test_a_replacement_can_be_replaced() -> None:
    phones = Phones()
    wrong = phones.line("fasteners-removed", "1 08:00", "A", set="LID", n=5, to="B1")
    first = phones.line("entry-replaced", "1 08:01", "A", entry=wrong, fields={"n": 6}, reason="miscounted")
    phones.line("entry-replaced", "1 08:02", "A", entry=first, fields={"fields": {"n": 7}}, reason="slip")

    assert kept(phones)[0].n == 7


def test_the_newest_replacement_counts_though_the_one_before_was_replaced_itself() -> None:
    phones = Phones()
    wrong = phones.line("fasteners-removed", "1 08:00", "A", set="LID", n=5, to="B1")
    first = phones.line("entry-replaced", "1 08:01", "A", entry=wrong, fields={"n": 6}, reason="miscounted")
    phones.line("entry-replaced", "1 08:02", "A", entry=first, fields={"fields": {"n": 7}}, reason="slip")
    phones.line("entry-replaced", "1 08:03", "A", entry=wrong, fields={"n": 8}, reason="counted again")

    assert kept(phones)[0].n == 8


def test_corrections_that_go_round_in_a_circle_settle_the_same_whatever_came_first() -> None:
    phones = Phones()
    wrong = phones.line("part-removed", "1 08:00", "A", part="LID")
    one = phones.line("entry-voided", "1 08:01", "A", entry=wrong, reason="undo")
    other = phones.line("entry-voided", "1 08:02", "B", entry=one, reason="no")
    phones.entries[1]["entry"] = other
    entries = [entry_from(raw) for raw in phones.entries]

    found = [effective(in_order(told)) for told in (entries, entries[::-1])]
    assert found[0] == found[1]
    assert [h.entry.kind for h in found[0]] == ["part-removed", "entry-voided"]


def test_a_voided_clock_mark_moves_nothing() -> None:
    phones = Phones()
    phones.line("part-removed", "1 08:00", "A", part="LID")
    phones.line("part-fitted", "1 09:00", "A", part="LID")
    phones.line("part-removed", "1 08:30", "B", part="PAN")
    wrong = phones.line("clock-marked", "1 09:05", "A", marked_device="B", offset_s=-2000)
    assert [e.part for e in kept(phones)[:3]] == ["LID", "LID", "PAN"]

    phones.line("entry-voided", "1 09:10", "A", entry=wrong, reason="of another phone")
    assert [e.part for e in kept(phones)[:3]] == ["LID", "PAN", "LID"]


def test_a_late_entry_stands_where_its_replacement_says_that_it_happened() -> None:
    phones = Phones()
    phones.line("part-fitted", "1 09:00", "A", part="LID")
    late = phones.line(
        "part-removed", "1 17:00", "A", part="LID", mode="late", happened_at=moment("1 10:00").isoformat()
    )
    right = {"happened_at": moment("1 08:00").isoformat()}
    phones.line("entry-replaced", "1 17:05", "A", entry=late, fields=right, reason="before it was fitted")

    assert [e.kind for e in kept(phones)] == ["part-removed", "part-fitted", "entry-replaced"]


def test_one_photo_from_two_phones_puts_what_was_sorted_from_it_in_one_place() -> None:
    phones = Phones()
    for device in ("B", "A"):
        phones.line("photo-added", "1 08:00", device, photo="tray")
    phones.line(
        "fasteners-removed",
        "1 17:00",
        "desk",
        set="LID",
        n=2,
        photos=["tray"],
        mode="late",
        happened_at=moment("1 08:00").isoformat(),
    )
    entries = [entry_from(raw) for raw in phones.entries]

    assert in_order(entries) == in_order(entries[::-1])


def test_a_correction_knows_what_it_is_about_and_a_late_entry_when_it_was_written() -> None:
    phones = Phones()
    wrong = phones.line("part-removed", "1 08:00", "A", part="LID")
    phones.line("entry-voided", "1 08:01", "A", entry=wrong, reason="undo")
    happened_at = moment("1 07:00").isoformat()
    phones.line("part-removed", "1 17:00", "A", part="PAN", mode="late", happened_at=happened_at)

    late, void = effective(in_order(map(entry_from, phones.entries)))
    assert (late.time, late.written) == (moment("1 07:00"), moment("1 17:00"))
    assert void.corrects is not None and str(void.corrects.id) == wrong
