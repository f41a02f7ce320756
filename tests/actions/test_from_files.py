import io

import pytest

from lastbolt.actions.from_files import photo_bytes, photo_files, text_lines
from lastbolt.errors import BadInputError


def test_folders_give_their_files_by_name_and_leave_hidden_ones_out(tmp_path):
    for name in ("card/b.jpg", "card/a.jpg", "card/.hidden", "card/DCIM/c.jpg", "single.jpg"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(b"x")
    found = photo_files([tmp_path / "single.jpg", tmp_path / "card"])
    assert [path.name for path in found] == ["single.jpg", "c.jpg", "a.jpg", "b.jpg"]


def test_hardly_more_is_read_than_a_photo_may_have(tmp_path):
    (tmp_path / "big").write_bytes(bytes(1000))
    assert len(photo_bytes(tmp_path / "big", 10)) == 11


def test_a_file_that_is_gone_is_told(tmp_path):
    with pytest.raises(BadInputError, match="cannot be read"):
        photo_bytes(tmp_path / "gone", 10)


def test_what_is_no_text_is_told(tmp_path):
    (tmp_path / "x").write_bytes(b"\xff\xff")
    with (tmp_path / "x").open(encoding="utf-8") as stream, pytest.raises(BadInputError, match="UTF-8"):
        text_lines(stream)
    assert text_lines(io.StringIO("a\nb")) == ["a\n", "b"]
