import pytest

from lastbolt.errors import StoreError
from lastbolt.settings import settings_from
from lastbolt.store.folder_lock import FolderLock
from lastbolt.wiring import wire


def test_a_second_server_on_one_folder_is_refused_until_the_first_ends(tmp_path):
    first = FolderLock(tmp_path)
    with pytest.raises(StoreError, match="another Lastbolt server works on"):
        FolderLock(tmp_path)
    first.release()
    FolderLock(tmp_path).release()


def test_commands_work_beside_a_server(tmp_path):
    settings = settings_from({"LASTBOLT_DATA": str(tmp_path)})
    server, command = wire(settings, serving=True), wire(settings)
    assert command.look_up.jobs() == []
    command.close()
    server.close()


def test_a_server_that_could_not_open_its_records_lets_the_folder_go(tmp_path):
    (tmp_path / "lastbolt.sqlite").write_bytes(b"no records" * 200)
    settings = settings_from({"LASTBOLT_DATA": str(tmp_path)})
    with pytest.raises(StoreError):
        wire(settings, serving=True)
    FolderLock(tmp_path).release()


def test_a_folder_that_cannot_be_used_is_told_in_a_sentence(tmp_path):
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(StoreError, match="cannot be used"):
        FolderLock(tmp_path / "taken")
