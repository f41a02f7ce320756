import pytest
from tests.browser import desk_shop
from tests.browser.desk_shop import JOB, SMALL
from tests.web import shop


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """A shop with the review's job, for those who only read."""
    with shop.open_shop(tmp_path_factory.mktemp("lead")) as (_, client):
        desk_shop.tell_review(client)
        desk_shop.tell_small(client)
        yield client


def asked(client, job, what, **query):
    return client.get(f"/api/jobs/{job}/{what}", params=query).raise_for_status().json()


def test_the_desk_list_has_the_findings_of_the_plain_list_in_its_order(told):
    desk = [each["finding"]["key"] for each in asked(told, JOB, "desk-list")["findings"]]
    assert desk == [each["key"] for each in asked(told, JOB, "findings")["findings"]]
    assert len(desk) >= 10


def test_a_finding_brings_the_pair_of_its_set_with_the_place_marked_after(told):
    found = {each["finding"]["key"]: each for each in asked(told, JOB, "desk-list")["findings"]}
    pair = found["torque-missing/manifold bolts"]["pair"]
    assert (pair["element"], pair["before"]["photo"]["shape"], pair["after"]["photo"]["shape"]) == (
        "manifold bolts",
        "before",
        "after",
    )
    assert pair["before"]["pins"] == []
    (pin,) = pair["after"]["pins"]
    assert (pin["hole"], pin["x"], pin["y"]) == (5, 0.5, pytest.approx(890 / 1200))


def test_a_finding_nobody_photographed_has_no_pair(told):
    found = {each["finding"]["check"]: each for each in asked(told, JOB, "desk-list")["findings"]}
    assert found["isolation-left-or-lifted-wrong"]["pair"] is None
    assert found["isolation-left-or-lifted-wrong"]["on_map"] is False


def test_each_entry_of_a_finding_is_graded_as_evidence(told):
    for each in asked(told, JOB, "desk-list")["findings"]:
        assert len(each["grades"]) == len(each["finding"]["entries"])
        for grade, entry in zip(each["grades"], each["finding"]["entries"], strict=True):
            assert grade == (2 if entry["kind"] == "photo-added" else 1)


def test_a_second_persons_look_lifts_the_grade(told):
    look = desk_shop.Teller(SMALL, desk_shop.datetime.now(desk_shop.UTC))
    look.say("Cleo", ("second-checked", {"elements": ["strainer screws"], "how": "visual", "result": "good"}))
    desk_shop.send(told, look)
    found = {each["finding"]["check"]: each for each in asked(told, SMALL, "desk-list")["findings"]}
    assert set(found["hole-empty"]["grades"]) == {3}


def test_pairs_come_by_risk_and_only_of_what_is_back(told):
    pairs = asked(told, JOB, "desk-list")["pairs"]
    assert {pair["element"] for pair in pairs} == {"manifold bolts", "pump cover bolts", "air box bolts"}
    assert [pair["score"] for pair in pairs] == sorted((pair["score"] for pair in pairs), reverse=True)
    assert pairs[0]["element"] == "pump cover bolts"  # critical
    assert next(pair for pair in pairs if pair["element"] == "air box bolts")["after"] is None


def test_a_pair_that_was_looked_at_says_by_whom_and_lifts_no_finding(told):
    before = [each["key"] for each in asked(told, JOB, "findings")["findings"]]
    look = desk_shop.Teller(JOB, desk_shop.datetime.now(desk_shop.UTC))
    look.say("Lee", ("pair-seen", {"element": "pump cover bolts", "before": "x"}))
    desk_shop.send(told, look)
    pair = next(p for p in asked(told, JOB, "desk-list")["pairs"] if p["element"] == "pump cover bolts")
    assert pair["seen"]["by"] == "Lee"
    assert [each["key"] for each in asked(told, JOB, "findings")["findings"]] == before


def test_a_finding_sent_back_names_who_is_to_do_it_and_stays(told):
    back = desk_shop.Teller(SMALL, desk_shop.datetime.now(desk_shop.UTC))
    word = {
        "check": "hole-empty",
        "subject": "strainer screws",
        "decision": "rework",
        "reason": "fit the fourth screw",
    }
    back.say("Lee", ("finding-decided", {**word, "to": "Ana", "role": "lead"}))
    desk_shop.send(told, back)
    found = {each["finding"]["check"]: each for each in asked(told, SMALL, "desk-list")["findings"]}
    assert (found["hole-empty"]["sent_back"]["to"], found["hole-empty"]["sent_back"]["by"]) == ("Ana", "Lee")


def test_the_end_of_a_review_says_how_far_the_record_reaches(told):
    end = asked(told, JOB, "review")
    coverage = end["coverage"]
    assert (coverage["sets"], coverage["torque_known"]) == (5, 2)
    assert (coverage["second_had"], coverage["second_wanted"]) == (0, 1)
    lacks = {each["set"]: each["missing"] for each in coverage["missing"]}
    assert lacks["pump cover bolts"] == ["second person"]
    assert lacks["sender bolts"] == ["photo", "torque"]
    assert end["question"].endswith("?") and end["nothing_else_apart"] is None


def test_the_map_says_what_lies_over_what_and_how_each_thing_stands(told):
    graph = asked(told, JOB, "access")
    nodes = {node["name"]: node for node in graph["nodes"]}
    assert (nodes["sender bolts"]["state"], nodes["sender bolts"]["hidden"]) == ("buried", True)
    assert nodes["sender bolts"]["words"].startswith("under inlet manifold")
    assert (nodes["air box"]["state"], nodes["pump cover bolts"]["state"]) == ("back", "back")
    assert (nodes["manifold bolts"]["kind"], nodes["manifold bolts"]["holds"]) == ("set", "inlet manifold")
    over = {(e["source"], e["target"]): e["trusted"] for e in graph["edges"] if e["kind"] == "hides"}
    assert over["inlet manifold", "sender bolts"] is True
    assert over["heat shield", "pump cover bolts"] is False
    assert graph["contradictions"] == []


def test_the_way_back_names_each_part_with_what_holds_it_and_its_minutes(told):
    path = asked(told, JOB, "undo", element="sender bolts")
    assert {step["part"]: step["minutes"] for step in path["steps"]} == {
        "heat shield": 12, "air box": 8, "inlet manifold": 40,
    }  # fmt: skip
    assert path["steps"][-1]["part"] == "inlet manifold"
    assert path["steps"][-1]["undone"] == ["manifold bolts"]
    assert path["minutes"] == sum(step["minutes"] for step in path["steps"]) == 60
    assert path["torques"] == ["manifold bolts: 4"]


def test_a_tray_shows_its_counts_beside_each_other_and_what_was_seen_in_its_photo(told):
    trays = {tray["container"]: tray for tray in asked(told, JOB, "trays")}
    assert trays["T0102M"]["record"] == 1 and trays["T0102M"]["place"] == "bench by the window"
    photo = desk_shop.view("a tray")
    name = told.post(
        f"/api/jobs/{JOB}/photos", files={"photos": ("t.jpg", photo, "image/jpeg")}, data={"by": "Ana"}
    ).json()[0]["sha256"]
    counted = desk_shop.Teller(JOB, desk_shop.datetime.now(desk_shop.UTC))
    spots = [{"x": 0.25, "y": 0.5}, {"x": 0.75, "y": 0.5}]
    around = [[[0.2, 0.45], [0.3, 0.45], [0.25, 0.6]], [[0.7, 0.45], [0.8, 0.45], [0.75, 0.6]]]
    counted.say(
        "Ana",
        ("photo-linked", {"photo": name, "element": "T0102M", "shape": "tray"}),
        (
            "photo-counted",
            {
                "container": "T0102M",
                "photo": name,
                "n": 2,
                "low": 1,
                "high": 3,
                "seen": spots,
                "outlines": around,
            },
        ),
        ("reading-corrected", {"photo": name, "container": "T0102M", "n": 1, "struck": spots[:1]}),
        ("container-counted", {"container": "T0102M", "n": 1}),
    )
    desk_shop.send(told, counted)
    tray = next(t for t in asked(told, JOB, "trays") if t["container"] == "T0102M")
    assert [(m["x"], m["by"]) for m in tray["marks"]] == [(0.25, "struck"), (0.75, "reader")]
    assert [m["outline"] for m in tray["marks"]] == around
    assert (tray["by_hand"], tray["counted_by"]) == (1, "Ana")


@pytest.mark.parametrize("what", ["desk-list", "review", "access", "trays", "undo?element=x"])
def test_an_unknown_job_is_answered_in_one_sentence(told, what):
    answer = told.get(f"/api/jobs/nowhere/{what}")
    assert answer.status_code == 404 and "nowhere" in answer.json()["detail"]
