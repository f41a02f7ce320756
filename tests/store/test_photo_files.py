import hashlib
import os
import threading

import pytest

from lastbolt.errors import NotFoundError, StoreError
from lastbolt.store.photo_files import PhotoFiles

PHOTO = b"\xff\xd8 not really a picture, but bytes are bytes"
SHA = hashlib.sha256(PHOTO).hexdigest()


@pytest.fixture
def photos(tmp_path):
    return PhotoFiles(tmp_path / "photos")


def files(photos):
    return sorted(path.name for path in photos._folder.rglob("*") if path.is_file())


def original_path(photos):
    return photos._folder / SHA[:2] / SHA[2:4] / SHA


def test_a_photo_comes_back_byte_for_byte(photos):
    assert photos.put(PHOTO) == SHA
    assert photos.original(SHA) == PHOTO
    assert photos.state(SHA) == "here"


def test_a_photo_lies_in_folders_by_its_hash_and_cannot_be_written_to(photos):
    photos.put(PHOTO)
    assert original_path(photos).stat().st_mode & 0o222 == 0
    assert files(photos) == [SHA]


def test_the_same_photo_twice_is_kept_once_and_not_written_again(photos):
    photos.put(PHOTO)
    first = original_path(photos).stat()
    photos.put(PHOTO)
    again = original_path(photos).stat()
    assert (first.st_ino, first.st_mtime_ns) == (again.st_ino, again.st_mtime_ns)


def test_a_preview_lies_beside_its_photo_and_the_first_one_stays(photos):
    photos.put(PHOTO)
    assert photos.preview(SHA) is None
    photos.put_preview(SHA, b"small")
    photos.put_preview(SHA, b"other")
    assert photos.preview(SHA) == b"small"
    assert files(photos) == [SHA, f"{SHA}.preview.jpg"]


def test_damage_on_disk_is_seen_on_reading(photos):
    photos.put(PHOTO)
    os.chmod(original_path(photos), 0o644)
    original_path(photos).write_bytes(PHOTO[:-1] + b"!")
    assert photos.state(SHA) == "damaged"
    with pytest.raises(StoreError, match="damaged on disk"):
        photos.original(SHA)


def test_a_damaged_photo_is_moved_aside_when_it_comes_again(photos):
    photos.put(PHOTO)
    os.chmod(original_path(photos), 0o644)
    original_path(photos).write_bytes(b"")
    photos.put(PHOTO)
    assert photos.original(SHA) == PHOTO
    assert files(photos) == [SHA, f"{SHA}.damaged-1"]


@pytest.mark.parametrize("name", ["", "../../etc/passwd", "A" * 64, SHA[:-1], SHA + "0", "g" * 64])
def test_what_is_no_hash_opens_nothing(photos, name):
    with pytest.raises(NotFoundError):
        photos.original(name)


def test_a_photo_that_never_came_is_told_in_a_sentence(photos):
    assert photos.state("0" * 64) == "missing"
    with pytest.raises(NotFoundError, match="is not here"):
        photos.original("0" * 64)


def test_a_refusing_disk_is_told_in_a_sentence_and_leaves_nothing(photos):
    photos._folder.mkdir()
    (photos._folder / SHA[:2]).write_text("a file where a folder should be")
    with pytest.raises(StoreError, match="send the photo again"):
        photos.put(PHOTO)
    assert files(photos) == [SHA[:2]]


def test_half_written_files_are_swept_and_whole_ones_stay(photos):
    photos.put(PHOTO)
    (original_path(photos).parent / ".arriving-x1").write_bytes(PHOTO[:5])
    assert photos.sweep() == 1
    assert files(photos) == [SHA]


def test_one_photo_from_many_threads_is_whole(photos):
    big = os.urandom(400_000)
    threads = [threading.Thread(target=photos.put, args=(big,)) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert photos.original(hashlib.sha256(big).hexdigest()) == big
    assert len(files(photos)) == 1
