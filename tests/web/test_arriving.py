"""Photos in parts: what a phone sends, in whatever pieces and after whatever mishap, is here byte for byte or not at all."""

import hashlib
import os
import socket
import time

import pytest
from tests.web import shop
from tests.web.shop import JOB, entry, half_finished, picture, send

PART = 262_144


@pytest.fixture
def job(client):
    send(client, half_finished())
    return client


@pytest.fixture(scope="module")
def photo():
    """A photo of several parts: a real JPEG with bytes behind its end, as cameras leave them."""
    return picture("a tray", (1600, 1200), "T-0042-E") + os.urandom(3 * PART)


def sha(data):
    return hashlib.sha256(data).hexdigest()


def pieces(data):
    return [data[at : at + PART] for at in range(0, len(data), PART)]


def put(client, data, number, part):
    return client.put(f"/api/photos/{sha(data)}/parts/{number}", content=part)


def send_all(client, data):
    for number, part in enumerate(pieces(data)):
        put(client, data, number, part).raise_for_status()


def finish(client, data, job_name=JOB):
    return client.post(f"/api/jobs/{job_name}/photos/{sha(data)}", json={})


def state(client, data):
    return client.get(f"/api/photos/{sha(data)}/parts").json()


def test_parts_in_order_make_the_photo_byte_for_byte(job, photo):
    send_all(job, photo)
    assert state(job, photo) == {"here": False, "parts": len(photo) // PART, "part_bytes": PART}
    assert finish(job, photo).json()["outcome"] == "kept"
    assert job.get(f"/api/photos/{sha(photo)}").content == photo
    assert state(job, photo)["here"] is True


def test_a_lost_answer_or_a_part_sent_twice_changes_nothing(job, photo):
    for number, part in enumerate(pieces(photo)):
        put(job, photo, number, part)
        put(job, photo, number, part)
    put(job, photo, 0, pieces(photo)[0])
    assert [finish(job, photo).json()["outcome"] for _ in range(2)] == ["kept", "here already"]
    assert (
        len([each for each in job.get(f"/api/jobs/{JOB}/photos").json() if each["sha256"] == sha(photo)]) == 1
    )
    assert job.get(f"/api/photos/{sha(photo)}").content == photo


def test_a_part_before_its_turn_is_not_kept_and_the_answer_says_where_to_go_on(job, photo):
    put(job, photo, 0, pieces(photo)[0])
    assert put(job, photo, 3, pieces(photo)[3]).json()["parts"] == 1


def test_changed_bytes_are_not_taken_and_begin_anew(job, photo):
    parts = pieces(photo)
    for number, part in enumerate(parts):
        put(job, photo, number, bytes(len(part)) if number == 1 else part)
    assert finish(job, photo).json()["outcome"] == "again"
    assert job.get(f"/api/photos/{sha(photo)}").status_code == 404
    assert state(job, photo)["parts"] == 0
    send_all(job, photo)
    assert finish(job, photo).json()["outcome"] == "kept"


def test_the_parts_outlive_the_server(tmp_path, photo):
    with shop.open_shop(tmp_path) as (_, client):
        send(client, half_finished())
        for number in range(2):
            put(client, photo, number, pieces(photo)[number])
    with shop.open_shop(tmp_path) as (_, client):
        assert state(client, photo)["parts"] == 2
        for number in range(2, len(pieces(photo))):
            put(client, photo, number, pieces(photo)[number])
        assert finish(client, photo).json()["outcome"] == "kept"


def test_a_phone_that_hangs_up_in_a_part_leaves_no_trace_in_the_log(tmp_path, photo, caplog, capfd):
    with shop.open_shop(tmp_path) as (address, client):
        send(client, half_finished())
        host, port = address.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port))) as wire:
            head = f"PUT /api/photos/{sha(photo)}/parts/0 HTTP/1.1\r\nHost: {host}:{port}\r\nContent-Length: {PART}\r\n"
            wire.sendall((head + f"Cookie: {client.auth.cookie(int(port))}\r\n\r\n").encode() + photo[:1000])
        time.sleep(0.3)
        assert state(client, photo)["parts"] == 0
    written = capfd.readouterr()
    assert "Traceback" not in written.err + written.out + caplog.text


@pytest.mark.parametrize(("size", "status"), [(0, 422), (PART + 1, 422), (2 * 1024 * 1024, 413)])
def test_a_part_of_a_wrong_size_is_refused_in_words(job, size, status):
    answer = job.put(f"/api/photos/{'a' * 64}/parts/0", content=bytes(size))
    assert (answer.status_code, answer.json()["detail"].lower().count("send")) == (status, 1)


def test_a_photo_beyond_the_limit_is_refused_before_it_fills_the_disk(job):
    answer = job.put(f"/api/photos/{'a' * 64}/parts/256", content=bytes(PART))
    assert answer.status_code == 422 and "64 MiB" in answer.json()["detail"]


def test_what_is_no_photo_is_refused_with_its_reason(job):
    page = b"<html><script>alert(1)</script></html>"
    send_all(job, page)
    answer = finish(job, page).json()
    assert answer["outcome"] == "refused" and answer["sentence"].endswith(".")
    assert job.get(f"/api/photos/{sha(page)}").status_code == 404


def test_a_finish_without_parts_or_job_says_so(job, photo):
    assert finish(job, photo).status_code == 404
    send_all(job, photo)
    assert finish(job, photo, "nowhere").status_code == 404


class TestStandIn:
    """A small picture first: the record shows it, and says that the original is still on the phone."""

    def named(self, client, data):
        raw = entry("photo-added", 12, photo=sha(data), sha256=sha(data), container="T0042E", shape="tray")
        send(client, [raw]).raise_for_status()

    def put(self, client, data, small):
        return client.put(f"/api/photos/{sha(data)}/preview", params={"sha256": sha(small)}, content=small)

    def shown(self, client, data):
        return next(
            each for each in client.get(f"/api/jobs/{JOB}/photos").json() if each["sha256"] == sha(data)
        )

    def test_it_is_shown_as_such_until_the_original_is_here(self, job, photo):
        self.named(job, photo)
        assert self.shown(job, photo)["original"] == "on the phone"
        small = picture("small", (160, 120))
        assert self.put(job, photo, small).status_code == 204
        assert job.get(f"/api/photos/{sha(photo)}/preview").content == small
        assert self.shown(job, photo)["original"] == "on the phone"
        assert self.shown(job, photo)["device"] == f"phone of {JOB}"
        send_all(job, photo)
        assert finish(job, photo).json()["outcome"] == "kept"
        assert self.shown(job, photo)["original"] == "here"
        assert job.get(f"/api/photos/{sha(photo)}/preview").content != small

    def test_it_never_stands_in_for_an_original_that_is_here_or_that_nothing_names(self, job, photo):
        small = picture("small", (160, 120))
        assert self.put(job, photo, small).status_code == 404
        self.named(job, photo)
        send_all(job, photo)
        finish(job, photo)
        before = job.get(f"/api/photos/{sha(photo)}/preview").content
        assert self.put(job, photo, small).status_code == 204
        assert job.get(f"/api/photos/{sha(photo)}/preview").content == before

    @pytest.mark.parametrize(
        "small", [b"GIF89a", b"\xff\xd8\xff" + bytes(600 * 1024)], ids=["no JPEG", "too large"]
    )
    def test_what_is_no_small_picture_is_refused(self, job, photo, small):
        self.named(job, photo)
        assert self.put(job, photo, small).status_code == 422

    def test_one_that_was_changed_on_the_way_is_refused(self, job, photo):
        self.named(job, photo)
        small = picture("small", (160, 120))
        address = f"/api/photos/{sha(photo)}/preview"
        assert job.put(address, params={"sha256": "b" * 64}, content=small).status_code == 422


def test_parts_that_nobody_goes_on_with_are_swept_after_days(tmp_path):
    from lastbolt.store.arriving_photos import ArrivingPhotos

    arriving = ArrivingPhotos(tmp_path, 2**20)
    arriving.put("a" * 64, 0, b"old")
    arriving.put("b" * 64, 0, b"new")
    os.utime(tmp_path / ("a" * 64), (1_000, 1_000))
    assert arriving.sweep(2_000) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["b" * 64]


def test_a_disk_that_refuses_a_part_says_so_and_keeps_what_was_there(tmp_path):
    from lastbolt.errors import StoreError
    from lastbolt.store.arriving_photos import ArrivingPhotos

    tiny = ArrivingPhotos(tmp_path / "file", 2**20)
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError, match="may be written to"):
        tiny.put("a" * 64, 0, b"x")


def test_a_look_at_a_small_picture_counts_it_and_keeps_nothing(job):
    before = job.get(f"/api/jobs/{JOB}/entries").json()["total"]
    answer = job.post("/api/look", content=picture("a tray", (800, 600), "T-0042-E"))
    seen = answer.json()
    assert answer.status_code == 200 and seen["labels"] == ["T0042E"]
    assert seen["low"] <= seen["count"] <= seen["high"] and len(seen["outlines"]) == seen["count"]
    assert job.get(f"/api/jobs/{JOB}/entries").json()["total"] == before
    assert job.post("/api/look", content=b"<html>").status_code == 422
