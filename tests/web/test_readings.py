from types import SimpleNamespace

import pytest

from lastbolt.web.readings import readings_from


def test_an_idle_server_says_that_nothing_waits(client):
    answer = client.get("/api/readings")
    assert answer.json() == {
        "reading": 0,
        "waiting": 0,
        "devices": [],
        "sentence": "No photo waits to be read.",
        "forms": [],
    }


@pytest.mark.parametrize(("readers", "about"), [(1, [(1, 8), (2, 6)]), (2, [(1, 5), (2, 4)])])
def test_each_device_learns_its_place_and_about_how_long(readers, about):
    queue = SimpleNamespace(reading=("c",) * readers, waiting=("a", "b", "a"), seconds=2.0, readers=readers)
    said = readings_from(queue)
    assert (said.reading, said.waiting) == (readers, 3)
    assert [(each.next_place, each.about_s) for each in said.devices] == about
    assert said.sentence.startswith("3 photos wait to be read, about")
