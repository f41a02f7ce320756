import hashlib
import io

import pytest
from PIL import Image
from tests.web.shop import JOB, NEAT, half_finished, neat, picture, send


@pytest.fixture
def job(client):
    send(client, half_finished())
    return client


def upload(client, *files):
    return client.post(f"/api/jobs/{JOB}/photos", files=[("photos", file) for file in files])


def test_a_photo_is_kept_byte_for_byte_and_given_back_for_good(job):
    data = picture("a tray")
    (outcome,) = upload(job, ("IMG 1.jpg", data, "image/jpeg")).json()
    assert outcome["kept"] is True and outcome["file"] == "IMG 1.jpg"
    assert outcome["sha256"] == hashlib.sha256(data).hexdigest()
    original = job.get(f"/api/photos/{outcome['sha256']}")
    assert original.content == data
    assert original.headers["content-type"] == "image/jpeg"
    assert "immutable" in original.headers["cache-control"]
    assert original.headers["x-content-type-options"] == "nosniff"
    assert original.headers["content-disposition"] == f'inline; filename="{outcome["sha256"][:12]}.jpg"'


def test_a_photo_shows_up_in_its_job(job):
    (outcome,) = upload(job, ("a.jpg", picture("a", (800, 600)), "image/jpeg")).json()
    (photo,) = job.get(f"/api/jobs/{JOB}/photos").json()
    assert (photo["sha256"], photo["width"], photo["height"]) == (outcome["sha256"], 800, 600)


def test_the_preview_is_a_small_picture(job):
    data = picture("large", (3000, 2000))
    (outcome,) = upload(job, ("a.jpg", data, "image/jpeg")).json()
    preview = job.get(f"/api/photos/{outcome['sha256']}/preview")
    assert preview.headers["content-type"] == "image/jpeg"
    width, height = Image.open(io.BytesIO(preview.content)).size
    assert max(width, height) <= 1600
    assert abs(width / height - 1.5) < 0.01


def test_the_smallest_picture_is_made_at_first_asking_and_kept(job, app):
    (outcome,) = upload(job, ("a.jpg", picture("large", (3000, 2000)), "image/jpeg")).json()
    sha, photos = outcome["sha256"], app.state.desk.wired.photos
    assert photos.small(sha) is None
    answer = job.get(f"/api/photos/{sha}/small")
    assert Image.open(io.BytesIO(answer.content)).size == (400, 267)
    assert photos.small(sha) == answer.content
    assert "immutable" in answer.headers["cache-control"]
    again = job.get(f"/api/photos/{sha}/small", headers={"if-none-match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert job.get(f"/api/photos/{'0' * 64}/small").status_code == 404


def test_half_a_small_picture_on_disk_is_made_anew(job, app):
    (outcome,) = upload(job, ("a.jpg", picture("large", (3000, 2000)), "image/jpeg")).json()
    sha, photos = outcome["sha256"], app.state.desk.wired.photos
    whole = job.get(f"/api/photos/{sha}/small").content
    for left in (b"", whole[: len(whole) // 2]):
        photos.put_small(sha, left, of_stand_in=False)
        assert job.get(f"/api/photos/{sha}/small").content == whole


def test_what_a_phone_sends_in_place_of_a_photo_never_outlives_the_photo(job, app):
    true, other = picture("true", (800, 600)), picture("another", (500, 500))
    sha = hashlib.sha256(true).hexdigest()
    entry = half_finished()[-1]
    added = {"kind": "photo-added", "photo": sha, "sha256": sha, "width": 800, "height": 600}
    own = {name: entry[name] for name in ("job", "at", "by", "device")}
    send(
        job, [{**own, "id": "0192f0c1-2345-7abc-8def-0123456789ab", "seq": 9000, **added}]
    ).raise_for_status()
    put = job.put(f"/api/photos/{sha}/preview?sha256={hashlib.sha256(other).hexdigest()}", content=other)
    assert put.status_code == 204
    for _ in range(2):
        answer = job.get(f"/api/photos/{sha}/small")
        assert Image.open(io.BytesIO(answer.content)).size == (400, 400)
        assert "immutable" not in answer.headers["cache-control"] and "etag" not in answer.headers
    assert "immutable" not in job.get(f"/api/photos/{sha}/preview").headers["cache-control"]
    upload(job, ("a.jpg", true, "image/jpeg"))
    answer = job.get(f"/api/photos/{sha}/small")
    assert Image.open(io.BytesIO(answer.content)).size == (400, 300)
    assert "immutable" in answer.headers["cache-control"]


def test_a_stand_in_that_is_no_picture_is_decoded_by_nobody_here(job, app):
    sha = hashlib.sha256(b"on its way").hexdigest()
    evil = b"\xff\xd8\xff" + bytes(2000)
    app.state.desk.wired.photos.put_stand_in(sha, evil)
    answer = job.get(f"/api/photos/{sha}/small")
    assert answer.content == evil and "immutable" not in answer.headers["cache-control"]
    assert app.state.desk.wired.photos.small(sha) is None


def test_what_a_photo_is_gets_decided_by_its_bytes(job):
    page = b"<html><script>alert(1)</script></html>"
    true, false = upload(job, ("a.html", picture("a"), "text/html"), ("b.jpg", page, "image/jpeg")).json()
    assert true["kept"] and job.get(f"/api/photos/{true['sha256']}").headers["content-type"] == "image/jpeg"
    assert not false["kept"] and false["sentence"].endswith(".")
    assert job.get(f"/api/photos/{hashlib.sha256(page).hexdigest()}").status_code == 404


def test_each_photo_gets_its_own_answer_and_the_others_still_go_in(job):
    whole = picture("whole")
    files = [("cut.jpg", whole[: len(whole) // 2], "image/jpeg"), ("empty.jpg", b"", "image/jpeg")]
    outcomes = upload(job, *files, ("whole.jpg", whole, "image/jpeg")).json()
    assert [outcome["file"] for outcome in outcomes] == ["cut.jpg", "empty.jpg", "whole.jpg"]
    assert outcomes[2]["kept"] and not outcomes[1]["kept"]
    assert len({outcome["sentence"] for outcome in outcomes}) == 3


def test_the_same_photo_twice_is_kept_once(job):
    data = picture("twice")
    upload(job, ("a.jpg", data, "image/jpeg"))
    upload(job, ("b.jpg", data, "image/jpeg"))
    assert len(job.get(f"/api/jobs/{JOB}/photos").json()) == 1


def test_a_photo_for_a_job_that_is_not_there_is_refused_in_words(client):
    answer = client.post("/api/jobs/nowhere/photos", files={"photos": ("a.jpg", picture("a"), "image/jpeg")})
    assert answer.status_code == 404
    assert "nowhere" in answer.json()["detail"]


@pytest.mark.parametrize("address", ["/api/photos/" + "0" * 64, "/api/photos/" + "0" * 64 + "/preview"])
def test_an_unknown_photo_is_answered_in_words(client, address):
    answer = client.get(address)
    assert (answer.status_code, answer.headers["content-type"]) == (404, "application/problem+json")


@pytest.mark.parametrize("name", ["..%2F..%2Fetc%2Fpasswd", "ABCDEF", "0" * 63, "0" * 65])
def test_what_is_no_digest_opens_nothing(client, name):
    assert client.get(f"/api/photos/{name}").status_code in (404, 422)


def test_a_voice_note_is_kept_as_it_came_and_adds_no_photo(client):
    send(client, neat()).raise_for_status()
    sound = b"OggS\x00\x02" + bytes(200)
    sent = {"photos": ("note.ogg", sound, "audio/ogg")}
    [outcome] = client.post(f"/api/jobs/{NEAT}/photos", files=sent).json()
    assert (outcome["kept"], outcome["sentence"]) == (True, "Kept: a voice note.")
    back = client.get(f"/api/photos/{outcome['sha256']}")
    assert (back.content, back.headers["content-type"]) == (sound, "audio/ogg")
    assert client.get(f"/api/jobs/{NEAT}/photos").json() == []
