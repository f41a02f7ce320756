from tests.web.shop import entry

from lastbolt.journal import effective, entry_from, in_order
from lastbolt.web.gallery import newest_first, photos_from, picture_counts_from

SHA = "ab" * 32


def told(*raws):
    return effective(in_order([entry_from(raw) for raw in raws]))


def test_a_photo_is_known_by_all_that_entries_say_of_it():
    photos = photos_from(
        told(
            entry("photo-added", 1, photo="p1", sha256=SHA, width=640, height=480, labels=["T-0042-E"]),
            entry("photo-linked", 2, photo="p1", element="pump cover", shape="before"),
            entry("photo-rejected", 3, photo="p1", why="blurred"),
        )
    )
    photo = photos["p1"]
    assert (photo.sha256, photo.width, photo.labels) == (SHA, 640, ["T-0042-E"])
    assert (photo.element, photo.shape, photo.rejected) == ("pump cover", "before", "blurred")


def test_a_photo_that_is_only_named_is_there_without_its_bytes():
    photos = photos_from(told(entry("part-removed", 1, part="lid", photos=["p9"])))
    assert (photos["p9"].sha256, photos["p9"].shape) == (None, "other")


def test_a_photo_named_before_it_came_keeps_what_was_said_of_it():
    photos = photos_from(
        told(
            entry("photo-linked", 1, photo="p1", element="lid"),
            entry("photo-added", 2, photo="p1", sha256=SHA),
        )
    )
    assert (photos["p1"].element, photos["p1"].sha256) == ("lid", SHA)


def test_a_counted_photo_belongs_to_the_tray_that_was_counted():
    happened = told(
        entry("photo-added", 1, photo="p1", sha256=SHA),
        entry("photo-counted", 2, photo="p1", container="T1", n=6, low=5, high=7),
        entry("photo-counted", 3, container="T2", n=4),
    )
    assert photos_from(happened)["p1"].container == "T1"
    counts = picture_counts_from(happened)
    assert [(counts[t].low, counts[t].high) for t in ("T1", "T2")] == [(5, 7), (4, 4)]


def test_a_voided_entry_takes_its_word_on_a_photo_back():
    wrong = entry("photo-linked", 2, photo="p1", element="wrong lid")
    happened = told(
        entry("photo-added", 1, photo="p1", sha256=SHA),
        wrong,
        entry("entry-voided", 3, entry=wrong["id"], reason="mistaken"),
    )
    assert photos_from(happened)["p1"].element is None


def test_the_newest_photo_comes_first_by_the_time_it_was_taken():
    happened = told(
        entry("photo-added", 1, photo="late sent", taken_at="2026-03-08T10:00:00Z"),
        entry("photo-added", 2, photo="new", taken_at="2026-03-09T08:01:00Z"),
        entry("photo-added", 3, photo="no time"),
    )
    names = [photo.photo for photo in newest_first(photos_from(happened).values())]
    assert names == ["no time", "new", "late sent"]
