import pytest
from tests.builders import Told

from lastbolt.errors import ConflictError
from lastbolt.journal import GENESIS, Line, seal
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

RECEIVED = "2026-03-09T08:00:00.000Z"


def sealed(raws, job="job 1"):
    """Seal entries as another shop would, one a second."""
    lines, prev = [], GENESIS
    for position, raw in enumerate(raws, start=1):
        received = RECEIVED.replace("00.000", f"{position:02}.000")
        digest = seal(raw, position=position, received=received, prev=prev)
        lines.append(Line(job, position, received, prev, digest, raw))
        prev = digest
    return lines


@pytest.fixture
def lines():
    story = Told()
    for number in range(3):
        story.say("container-scanned", container=f"T{number}")
    return sealed(story.raws)


def test_lines_stand_as_they_were_sealed(wired, lines):
    assert wired.sealed.missing("job 1", lines) == 4
    assert wired.sealed.put("job 1", lines) == 4
    assert wired.journal.lines("job 1") == lines and wired.journal.head("job 1") == lines[-1].hash
    assert wired.look_up.job("job 1").entries == 4 and wired.look_up.job("job 1").last == lines[-1].received
    assert (wired.sealed.missing("job 1", lines), wired.sealed.put("job 1", lines)) == (0, 0)


def test_the_rest_of_a_job_follows_what_is_here(wired, lines):
    wired.sealed.put("job 1", lines[:2])
    assert wired.sealed.put("job 1", lines) == 2 and wired.journal.lines("job 1") == lines
    assert wired.sealed.put("job 1", lines[:3]) == 0


def test_other_lines_are_refused_and_nothing_is_recorded(wired, lines):
    wired.sealed.put("job 1", lines[:2])
    others = sealed([line.entry for line in [lines[0], *lines[2:]]])
    with pytest.raises(ConflictError, match="entry 2 of job 1"):
        wired.sealed.put("job 1", others)
    assert wired.journal.lines("job 1") == lines[:2]


def test_all_of_it_or_nothing(wired, lines):
    wired.journal.append("job 2", [{**lines[3].entry, "job": "job 2"}], received=RECEIVED)
    with pytest.raises(ConflictError, match="job job 2, place 1"):
        wired.sealed.put("job 1", lines)
    assert wired.journal.job_names() == ["job 2"]


def test_the_look_up_tables_are_those_of_a_rebuild(wired, tmp_path):
    story = Told().told(
        ("label-bound", {"label": "T0042E", "container": "tray 42"}),
        ("photo-added", {"photo": "p", "sha256": "ab" * 32, "container": "tray 42"}),
        ("job-waiting", {"reason": "parts"}),
    )
    wired.sealed.put("job 1", sealed(story.raws))
    kept = (wired.look_up.jobs(), wired.look_up.label("T0042E"), wired.look_up.photos("ab" * 32))
    wired.journal.rebuild()
    assert (wired.look_up.jobs(), wired.look_up.label("T0042E"), wired.look_up.photos("ab" * 32)) == kept
    assert kept[0][0].state == "waiting" and kept[1] and kept[2]
    other = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "other")}))
    other.sealed.put("job 1", wired.journal.lines("job 1"))
    assert other.look_up.jobs() == kept[0]
    other.close()
