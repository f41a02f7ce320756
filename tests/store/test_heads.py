"""The heads that are kept are those on disk, whoever wrote: this program, another one, or nobody after all."""

import pytest
from tests.builders import Told

from lastbolt.actions.record import record
from lastbolt.errors import ConflictError
from lastbolt.settings import settings_from
from lastbolt.wiring import wire


def test_heads_follow_this_program_and_another_one(wired, clock, tmp_path):
    settings = settings_from({"LASTBOLT_DATA": str(tmp_path / "shop")})
    assert wired.journal.heads() == {}
    one = Told(job="job 1")
    record(wired.journal, clock, one.raws)
    assert wired.journal.heads() == {"job 1": wired.journal.head("job 1")}
    other = wire(settings)
    two = Told(job="job 2")
    record(other.journal, clock, [raw | {"id": raw["id"][:-1] + "f"} for raw in two.raws])
    assert wired.journal.heads() == other.journal.heads()
    assert set(wired.journal.heads()) == {"job 1", "job 2"}
    other.close()


def test_what_was_refused_leaves_the_heads_as_they_were(wired, clock):
    told = Told()
    record(wired.journal, clock, told.raws)
    before = wired.journal.heads()
    with pytest.raises(ConflictError):
        record(wired.journal, clock, [told.raws[0] | {"title": "Another title"}])
    assert wired.journal.heads() == before


def test_what_is_given_out_may_be_changed_without_harm(wired, clock):
    record(wired.journal, clock, Told().raws)
    wired.journal.heads().clear()
    assert set(wired.journal.heads()) == {"job 1"}
