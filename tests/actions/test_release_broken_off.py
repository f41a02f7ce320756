"""A server that stops while a release is signed: it is finished, or taken back in plain sight, never half there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.actions.releases import PIN, Clock, TwoLeads, room_in
from tests.actions.test_release import ANSWERED, DONE, told

from lastbolt.actions import release
from lastbolt.actions.audit_release import audit_releases
from lastbolt.actions.record import record
from lastbolt.actions.release import ReleaseRoom, Wish, ask_release, finish, sign_release, standing
from lastbolt.actions.release_finish import Nobody, finish_all
from lastbolt.errors import ConflictError, NotAllowedError, StoreError
from lastbolt.journal import Line
from lastbolt.keys.signing import is_signed
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

JOB = "job 1"
STEPS = (
    "finish", "source_from", "release_record", "record_text", "release_document", "pictures_of", "draw_sheet",
    "papers_document",
)  # fmt: skip
"""What is called between the entry and what is kept, in that order."""


class Stopped(BaseException):
    """The power went; nothing catches it."""


def stop(*_, **__):
    raise Stopped


def stop_behind_entry(room, job):
    if room.shop.journal.lines(job)[-1].entry["kind"] == "release-signed":
        raise Stopped


class Stops:
    """Stands for something one of whose methods stops the server at its n-th call, before or after the work."""

    def __init__(self, own, name: str, *, at: int = 1, after: bool = False) -> None:
        self._own, self._name, self._left, self._after = own, name, at, after

    def __getattr__(self, name):
        found = getattr(self._own, name)
        return self._stopping(found) if name == self._name else found

    def _stopping(self, found):
        def call(*args, **more):
            self._left -= 1
            if self._left != 0:
                return found(*args, **more)
            if self._after:
                found(*args, **more)
            raise Stopped

        return call


@pytest.fixture
def asked(wired):
    """A shop with a job that may be signed now, and what its release works with."""
    clock = Clock()
    record(wired.journal, clock, told(*DONE).raws)
    room = room_in(wired, clock)
    ask_release(room, JOB, "Ilse", ANSWERED)
    clock.move(seconds=61)
    return wired, room


def sign_and_stop(room: ReleaseRoom) -> None:
    with pytest.raises(Stopped):
        sign_release(room, JOB, Wish("Ilse", PIN))


def kinds(wired) -> list[str]:
    return [line.entry["kind"] for line in wired.journal.lines(JOB)]


def started_again(tmp_path, room: ReleaseRoom):
    """Open the shop's folder as a server that starts does, with nothing kept in memory."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "shop")}))
    return wired, room_in(wired, room.shop.clock)


def assert_signed_once(wired) -> None:
    (kept,) = wired.releases.of(JOB)
    line = wired.journal.lines(JOB)[-1]
    assert (kept.position, kept.said["head"]) == (line.position, line.hash)
    assert kinds(wired).count("release-signed") == 1 and kinds(wired)[-1] == "release-signed"
    found = audit_releases(wired.journal, wired.releases, is_signed, JOB, own_key=wired.signer.public)
    assert found.faults == () and len(found.said) == 1 and "was signed by Ilse" in found.said[0]


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("by", ["start", "view"])
def test_what_broke_off_behind_the_entry_is_finished(asked, tmp_path, monkeypatch, step, by):
    wired, room = asked
    with monkeypatch.context() as patched:
        patched.setattr(release, step, stop_behind_entry if step == "finish" else stop)
        sign_and_stop(room)
    assert kinds(wired)[-1] == "release-signed" and wired.releases.of(JOB) == []
    said = audit_releases(wired.journal, wired.releases, is_signed, JOB).said
    assert "broke off" in said[0]
    again, new = started_again(tmp_path, room)
    if by == "start":
        assert finish_all(replace(new, people=Nobody()), [JOB]) == []
    else:
        assert standing(new, JOB, "Ilse").kept is not None
    assert_signed_once(again)
    with pytest.raises(ConflictError, match="released already"):
        sign_release(new, JOB, Wish("Ilse", PIN))
    again.close()


@pytest.mark.parametrize("at", [2, 3, 4], ids=["look at the seal", "the release", "the papers"])
def test_a_stop_at_the_key_is_finished(asked, tmp_path, at):
    wired, room = asked
    sign_and_stop(replace(room, signer=Stops(room.signer, "sign", at=at)))
    again, new = started_again(tmp_path, room)
    assert wired.releases.of(JOB) == [] and standing(new, JOB).kept is not None
    assert_signed_once(again)
    again.close()


@pytest.mark.parametrize("after", [False, True])
def test_a_stop_while_it_is_kept_leaves_it_whole_or_is_finished(asked, tmp_path, after):
    wired, room = asked
    sign_and_stop(replace(room, releases=Stops(room.releases, "put", after=after)))
    assert len(wired.releases.of(JOB)) == int(after)
    again, new = started_again(tmp_path, room)
    assert finish_all(new, [JOB]) == []
    assert_signed_once(again)
    again.close()


@pytest.mark.parametrize("step", ["_seal", "_record"])
def test_a_stop_before_the_entry_leaves_nothing_and_it_is_signed_anew(asked, tmp_path, monkeypatch, step):
    wired, room = asked
    with monkeypatch.context() as patched:
        patched.setattr(release, step, stop)
        sign_and_stop(room)
    assert "release-signed" not in kinds(wired)
    again, new = started_again(tmp_path, room)
    assert finish(new, JOB) is None and standing(new, JOB).kept is None
    sign_release(new, JOB, Wish("Ilse", PIN))
    assert_signed_once(again)
    again.close()


def test_a_stop_after_another_entry_slipped_in_takes_the_release_back(asked, tmp_path, monkeypatch):
    _, room = asked
    true = release._record

    def slip_in(own, job, by, kind, fields) -> Line:
        if kind == "release-signed":
            true(own, job, "Ana", "job-waiting", {"reason": "parts"})
        return true(own, job, by, kind, fields)

    with monkeypatch.context() as patched:
        patched.setattr(release, "_record", slip_in)
        patched.setattr(release, "finish", stop_behind_entry)
        sign_and_stop(room)
    again, new = started_again(tmp_path, room)
    assert standing(new, JOB).kept is None
    assert kinds(again)[-3:] == ["job-waiting", "release-signed", "release-withdrawn"]
    assert again.bench.state(JOB).released is None and again.releases.of(JOB) == []
    assert finish_all(new, [JOB]) == [] and kinds(again).count("release-withdrawn") == 1
    again.close()


def test_a_full_disk_is_told_and_the_next_look_finishes(asked):
    wired, room = asked

    class Full:
        def __getattr__(self, name):
            return getattr(room.releases, name)

        def put(self, *_):
            raise StoreError("the disk is full")

    with pytest.raises(StoreError):
        sign_release(replace(room, releases=Full()), JOB, Wish("Ilse", PIN))
    assert finish_all(replace(room, releases=Full()), [JOB]) == [f"{JOB}: the disk is full"]
    assert standing(room, JOB).kept is not None
    assert_signed_once(wired)


def test_a_shop_signs_nothing_that_another_shop_or_a_forger_wrote(asked, tmp_path, monkeypatch):
    wired, room = asked
    with monkeypatch.context() as patched:
        patched.setattr(release, "finish", stop_behind_entry)
        sign_and_stop(room)
    lines = wired.journal.lines(JOB)
    other = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "other")}))
    other.sealed.put(JOB, lines)
    assert finish(room_in(other, room.shop.clock), JOB) is None and other.releases.of(JOB) == []
    for change in ({"by": "Lee"}, {"statement": "I looked at nothing."}, {"second": "Lee"}):
        forged = [*lines[:-1], replace(lines[-1], entry={**lines[-1].entry, **change})]
        journal = Stops(wired.journal, "")
        monkeypatch.setattr(journal, "lines", lambda _, forged=forged: forged, raising=False)
        assert finish(replace(room, shop=replace(room.shop, journal=journal)), JOB) is None
    assert wired.releases.of(JOB) == []
    other.close()


def test_nobody_confirms_nothing():
    with pytest.raises(NotAllowedError):
        Nobody().confirm("Ilse", PIN)
    assert not Nobody().is_lead("Ilse") and TwoLeads().is_lead("Ilse")
