import pytest

from lastbolt.errors import NotFoundError, StoreError
from lastbolt.store.layout_files import LayoutFiles


@pytest.fixture
def layouts(tmp_path):
    for folder, name, text in (("own", "a", "mine"), ("built in", "a", "theirs"), ("built in", "b", "b")):
        (tmp_path / folder).mkdir(exist_ok=True)
        (tmp_path / folder / f"{name}.toml").write_text(text)
    return LayoutFiles([tmp_path / "own", tmp_path / "built in"])


def test_the_first_folder_wins(layouts):
    assert layouts.names() == ["a", "b"]
    assert (layouts.text("a"), layouts.text("b")) == ("mine", "b")


@pytest.mark.parametrize("name", ["c", "../own/a", "", "a.toml", "/etc/passwd"])
def test_an_unknown_layout_is_answered_with_those_that_there_are(layouts, name):
    with pytest.raises(NotFoundError, match="there are: a, b"):
        layouts.text(name)


def test_a_layout_that_is_no_text_is_told_in_a_sentence(tmp_path):
    (tmp_path / "x.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(StoreError, match="cannot be read"):
        LayoutFiles([tmp_path]).text("x")
