import pytest
from tests.actions.pictures import photo
from tests.builders import Told

from lastbolt.actions.intake import Intake
from lastbolt.actions.record import record
from lastbolt.errors import BadInputError, NotFoundError


def test_each_file_gets_its_answer_and_the_last_line_counts(shop, clock, tmp_path):
    record(shop.journal, clock, Told().raws)
    for name, data in (("a.jpg", photo()), ("b.jpg", photo()), ("c.jpg", b"")):
        (tmp_path / name).write_bytes(data)
    card = Intake(shop, "job 1")
    for name in ("a.jpg", "b.jpg", "c.jpg"):
        card.take(tmp_path / name)
    said = card.words().splitlines()
    assert [line.split(": ")[0][-5:] for line in said[:3]] == ["a.jpg", "b.jpg", "c.jpg"]
    assert said[3] == "1 kept, 1 here already, 1 refused"
    assert (card.brought_in, card.refused) == (2, 1)


def test_a_file_that_is_gone_stops_with_the_answers_so_far(shop, clock, tmp_path):
    record(shop.journal, clock, Told().raws)
    (tmp_path / "a.jpg").write_bytes(photo())
    card = Intake(shop, "job 1")
    card.take(tmp_path / "a.jpg")
    with pytest.raises(BadInputError, match="cannot be read"):
        card.take(tmp_path / "gone.jpg")
    assert card.words().endswith("1 kept, 0 here already, 0 refused")


def test_a_job_that_is_not_there_is_told_before_a_file_is_read(shop):
    with pytest.raises(NotFoundError):
        Intake(shop, "nowhere")
