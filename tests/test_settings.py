from pathlib import Path

import pytest

from lastbolt.errors import BadInputError
from lastbolt.settings import LARGEST_PHOTO, read_settings, settings_from


def test_everything_works_with_nothing_set():
    settings = settings_from({})
    assert settings.data == Path.home() / ".local/share/lastbolt"
    assert settings.address is None and settings.largest_photo == LARGEST_PHOTO
    assert any((folder / "a4-3x8.toml").exists() for folder in settings.layouts)


def test_data_lies_where_the_desktop_keeps_data_or_where_it_is_told(tmp_path):
    assert settings_from({"XDG_DATA_HOME": str(tmp_path)}).data == tmp_path / "lastbolt"
    both = {"XDG_DATA_HOME": "/elsewhere", "LASTBOLT_DATA": str(tmp_path)}
    assert settings_from(both).data == tmp_path


def test_a_folder_given_by_hand_counts_most(tmp_path, monkeypatch):
    monkeypatch.setenv("LASTBOLT_DATA", "/elsewhere")
    assert read_settings(tmp_path).data == tmp_path
    assert read_settings().data == Path("/elsewhere")


def test_own_layouts_come_first(tmp_path):
    assert settings_from({"LASTBOLT_LAYOUTS": str(tmp_path)}).layouts[0] == tmp_path


def test_all_mistakes_are_told_at_once():
    wrong = {
        "LASTBOLT_ADDRESS": "shop.lan/labels",
        "LASTBOLT_LAYOUTS": "/no/such/folder",
        "LASTBOLT_LARGEST_PHOTO_MB": "big",
    }
    with pytest.raises(BadInputError) as trouble:
        settings_from(wrong)
    assert all(name in str(trouble.value) for name in wrong)


@pytest.mark.parametrize(
    ("text", "unit"), [("", "N·m"), ("Nm", "N·m"), ("lbf·ft", "lbf·ft"), ("ft-lb", "lbf·ft")]
)
def test_the_shop_sets_its_unit_of_torque(text, unit):
    assert settings_from({"LASTBOLT_TORQUE_UNIT": text}).torque_unit.value == unit


@pytest.mark.parametrize("text", ["kg", "kgf·m", "lbf·in"])
def test_no_other_unit_of_torque_is_taken(text):
    with pytest.raises(BadInputError, match="LASTBOLT_TORQUE_UNIT must be"):
        settings_from({"LASTBOLT_TORQUE_UNIT": text})
