"""What may be recorded by whom, and what is held."""

import json
from datetime import timedelta
from uuid import UUID

import pytest
from tests.web.shop import JOB, entry

from lastbolt.errors import BadInputError, NotAllowedError, NotFoundError, WaitError
from lastbolt.journal import entry_from
from lastbolt.people import held as holding
from lastbolt.people.rights import LEAD_KINDS
from lastbolt.people.sign_in import Asking
from lastbolt.people.taking_in import sort_out

LEAD_FIELDS = {
    "finding-decided": {"check": "hole-empty", "subject": "lid", "decision": "accept", "reason": "looked"},
    "release-signed": {"statement": "looked"},
    "release-withdrawn": {"reason": "a noise"},
    "job-reopened": {"reason": "a noise"},
    "job-cancelled": {"reason": "sold"},
    "loss-written-off": {"loss": str(UUID(int=1)), "reason": "searched all over"},
    "person-described": {"person": "Ana", "roles": ["lead"]},
    "licence-recorded": {"person": "Ana", "licence": "gas"},
}


@pytest.fixture
def phone(people):
    """A phone on which Ana and Nora are signed in, Ana holding it."""
    first = people.sign_in.sign_in("Nora", "5182", Asking())
    return people.sign_in.sign_in("Ana", "4071", Asking(first.token))


@pytest.fixture
def leads_phone(people):
    return people.sign_in.sign_in("Lee", "7306", Asking())


def told(opened, kind, number=1, by="Ana", **fields):
    return {**entry(kind, number, by=by, **fields), "device": opened.visit.device}


def sort(people, opened, raws, before=()):
    visit = people.sign_in.visit(opened.token)
    return sort_out(visit, raws, lambda: [entry_from(raw) for raw in before])


def test_whoever_is_signed_in_records_in_their_own_name(people, phone):
    raw = told(phone, "signed-on")
    assert sort(people, phone, [raw]).record == (raw,)


def test_nobody_records_as_somebody_else(people, phone):
    with pytest.raises(NotAllowedError, match="Lee has not signed in on this device"):
        sort(people, phone, [told(phone, "signed-on", by="Lee")])


@pytest.mark.parametrize("name", ["ana", "Ana.", "Аna"])
def test_a_name_that_only_looks_like_it_is_another(people, phone, name):
    with pytest.raises(NotAllowedError):
        sort(people, phone, [told(phone, "signed-on", by=name)])


def test_nobody_records_as_another_device(people, phone, leads_phone):
    raw = {**told(phone, "signed-on"), "device": leads_phone.visit.device}
    with pytest.raises(NotAllowedError, match="cannot come from it"):
        sort(people, phone, [raw])


def test_a_reader_records_nothing(people, phone):
    with pytest.raises(NotAllowedError, match="readers record nothing"):
        sort(people, phone, [told(phone, "signed-on", by="Nora")])


def test_the_table_of_a_leads_kinds_is_tried_whole():
    assert set(LEAD_FIELDS) == LEAD_KINDS


def test_a_release_is_never_sent_in_like_an_entry(people, phone, leads_phone):
    for opened, name in ((phone, "Ana"), (leads_phone, "Lee")):
        with pytest.raises(NotAllowedError, match="at the desk, with a PIN"):
            sort(people, opened, [told(opened, "release-signed", by=name, statement="looked")])


@pytest.mark.parametrize("kind", sorted(LEAD_KINDS - {"release-signed"}))
def test_what_takes_a_lead_is_refused_from_a_tech_and_taken_from_a_lead(people, phone, leads_phone, kind):
    with pytest.raises(NotAllowedError, match="needs a lead"):
        sort(people, phone, [told(phone, kind, **LEAD_FIELDS[kind])])
    assert sort(people, leads_phone, [told(leads_phone, kind, by="Lee", **LEAD_FIELDS[kind])]).record


def test_a_tech_cannot_sign_an_entry_with_a_leads_role(people, phone):
    with pytest.raises(NotAllowedError, match="no lead"):
        sort(people, phone, [told(phone, "signed-on", role="lead")])


def test_only_a_lead_calls_a_phone_lost(people, phone, leads_phone):
    fields = {"reported_device": "phone 2", "lost": True}
    with pytest.raises(NotAllowedError):
        sort(people, phone, [told(phone, "device-reported", **fields)])
    assert sort(people, phone, [told(phone, "device-reported", reported_device="phone 2", unsent=3)]).record
    assert sort(people, leads_phone, [told(leads_phone, "device-reported", by="Lee", **fields)]).record


def test_a_replacement_cannot_make_what_a_tech_may_not_record(people, phone):
    own = told(phone, "device-reported", reported_device="phone 2", unsent=3)
    changed = told(phone, "entry-replaced", 2, entry=own["id"], fields={"lost": True}, reason="it is lost")
    with pytest.raises(NotAllowedError):
        sort(people, phone, [changed], before=[own])


def test_one_entry_that_may_not_be_keeps_all_of_its_parcel_out(people, phone):
    with pytest.raises(NotAllowedError):
        sort(people, phone, [told(phone, "signed-on"), told(phone, "release-signed", 2)])


class TestCorrections:
    """Practice 3.2, rules 2 and 4."""

    def void(self, opened, target, by="Ana", reason="wrong tray"):
        return told(opened, "entry-voided", 9, by=by, entry=target["id"], reason=reason)

    def test_ones_own_entry_in_the_same_spell_is_ones_own_to_correct(self, people, phone):
        own = told(phone, "part-removed", part="lid")
        assert sort(people, phone, [self.void(phone, own)], before=[own]).record
        assert sort(people, phone, [own, self.void(phone, own)]).record

    def test_anothers_entry_takes_a_lead_and_ten_characters(self, people, phone, leads_phone):
        bens = entry("part-removed", 1, by="Ben", part="lid")
        with pytest.raises(NotAllowedError, match="only a lead"):
            sort(people, phone, [self.void(phone, bens)], before=[bens])
        with pytest.raises(NotAllowedError, match="10 characters"):
            sort(people, leads_phone, [self.void(leads_phone, bens, "Lee", "wrong")], before=[bens])
        assert sort(
            people, leads_phone, [self.void(leads_phone, bens, "Lee", "it was the other tray")], before=[bens]
        ).record

    @pytest.mark.parametrize(
        "since",
        [
            ("signed-off", {"why": "shift"}, "Ana"),
            ("signed-off", {"person": "Ana", "why": "done"}, "Lee"),
            ("handover-offered", {}, "Ana"),
            ("handover-accepted", {"giver": "Ana"}, "Ben"),
            ("second-checked", {"elements": ["lid"]}, "Ben"),
            ("release-signed", {}, "Lee"),
        ],
    )
    def test_what_was_built_upon_takes_a_lead(self, people, phone, since):
        own = told(phone, "part-removed", part="lid")
        kind, fields, by = since
        with pytest.raises(NotAllowedError, match="since; only a lead"):
            sort(people, phone, [self.void(phone, own)], before=[own, entry(kind, 2, by=by, **fields)])

    @pytest.mark.parametrize(
        "since",
        [
            ("signed-off", {"why": "break"}, "Ana"),
            ("signed-off", {"why": "shift"}, "Ben"),
            ("second-checked", {"elements": ["rail"]}, "Ben"),
            ("release-asked", {}, "Lee"),
        ],
    )
    def test_a_break_and_what_others_do_elsewhere_change_nothing(self, people, phone, since):
        own = told(phone, "part-removed", part="lid")
        kind, fields, by = since
        assert sort(
            people, phone, [self.void(phone, own)], before=[own, entry(kind, 2, by=by, **fields)]
        ).record

    @pytest.mark.parametrize("field", ["by", "device", "at", "kind", "id", "job", "seq", "role"])
    def test_a_replacement_never_changes_who_recorded_what(self, people, phone, field):
        own = told(phone, "part-removed", part="lid")
        changed = told(phone, "entry-replaced", 2, entry=own["id"], fields={field: "Lee"}, reason="other")
        with pytest.raises(NotAllowedError, match=field):
            sort(people, phone, [changed], before=[own])

    def test_what_is_not_here_cannot_be_corrected_ahead_of_its_coming(self, people, phone):
        with pytest.raises(NotAllowedError, match="not here yet"):
            sort(people, phone, [self.void(phone, entry("part-removed", 1, by="Ben", part="lid"))])


class TestHeld:
    def test_what_a_cut_off_phone_sends_is_held(self, people, phone):
        people.shop.end_device(phone.visit.device, by="Lee", lost=True)
        found = sort(people, phone, [told(phone, "signed-on")])
        assert found.record == () and found.hold[0][2] == "the device was cut off"

    def test_what_comes_in_the_name_of_one_who_signed_out_is_held(self, people, phone):
        people.sign_in.sign_out(phone.visit, "Ana")
        assert "signed out" in sort(people, phone, [told(phone, "signed-on")]).hold[0][2]

    def test_within_twelve_hours_of_the_pin_an_entry_counts_however_late_it_comes(self, people, phone, clock):
        within = {**told(phone, "signed-on"), "at": (clock.now + timedelta(hours=11)).isoformat()}
        after = {**told(phone, "signed-on"), "at": (clock.now + timedelta(hours=13)).isoformat()}
        clock.move(hours=20)
        found = sort(people, phone, [within, after])
        assert found.record == (within,) and "12 hours" in found.hold[0][2]

    def test_held_entries_are_let_in_as_they_came_or_kept_out_with_a_reason(self, people, phone):
        raws = [told(phone, "signed-on"), told(phone, "part-removed", 2, part="lid")]
        people.shop.end_device(phone.visit.device, by="Lee", lost=True)
        hold = sort(people, phone, raws).hold
        people.held.hold(JOB, hold)
        people.held.hold(JOB, hold)
        first, second = people.held.waiting()
        assert [json.loads(each.raw) for each in (first, second)] == raws
        recorded = []
        people.held.let_in(UUID(first.id), by="Lee", record=lambda job, raw: recorded.append((job, raw)))
        with pytest.raises(BadInputError):
            people.held.discard(UUID(second.id), by="Lee", reason="no")
        people.held.discard(UUID(second.id), by="Lee", reason="a stranger held it by then")
        assert recorded == [(JOB, raws[0])] and people.held.waiting() == []
        with pytest.raises(NotFoundError):
            people.held.let_in(UUID(second.id), by="Lee", record=lambda job, raw: None)
        assert [deed.act for deed in people.shop.deeds()[:2]] == ["held entry discarded", "held entry let in"]

    def test_one_that_the_journal_refuses_stays_held(self, people, phone):
        people.shop.end_device(phone.visit.device, by="Lee", lost=True)
        people.held.hold(JOB, sort(people, phone, [told(phone, "signed-on")]).hold)

        def full(job, raw):
            raise WaitError("the disk is full")

        with pytest.raises(WaitError):
            people.held.let_in(UUID(people.held.waiting()[0].id), by="Lee", record=full)
        assert len(people.held.waiting()) == 1

    def test_a_phone_in_wrong_hands_cannot_fill_the_disk(self, people, phone, monkeypatch):
        monkeypatch.setattr(holding, "MOST_HELD", 3)
        people.shop.end_device(phone.visit.device, by="Lee", lost=True)
        hold = sort(people, phone, [told(phone, "signed-on", number) for number in range(1, 5)]).hold
        people.held.hold(JOB, hold[:3])
        with pytest.raises(WaitError):
            people.held.hold(JOB, hold[3:])


def test_what_a_lost_phone_touched_is_listed_with_the_last_word_first():
    from lastbolt.people.shop_people import touched_from

    entries = [
        entry("set-described", 1, set="lid bolts", n=4, part="lid"),
        entry("fasteners-removed", 2, set="lid bolts", n=4, to="T1"),
        entry("opening-opened", 3, opening="intake", mouths=1),
    ]
    found = touched_from((JOB, json.dumps(each)) for each in entries)
    assert [(each.element, each.kind) for each in found] == [
        ("intake", "opening-opened"),
        ("T1", "fasteners-removed"),
        ("lid bolts", "fasteners-removed"),
        ("lid", "set-described"),
    ]
