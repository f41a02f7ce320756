import json
import re
from pathlib import Path

PAGE = Path(__file__).resolve().parents[2] / "mobile_web"


def test_the_lock_names_no_address_and_nobody_to_fund():
    text = (PAGE / "package-lock.json").read_text()
    assert "://" not in text
    assert '"resolved"' not in text
    assert '"funding"' not in text


def test_every_locked_package_is_held_by_its_hash():
    packages = json.loads((PAGE / "package-lock.json").read_text())["packages"]
    unheld = [name for name, entry in packages.items() if name and not entry.get("integrity")]
    assert packages and unheld == []


def test_every_wanted_version_is_exact():
    wanted = json.loads((PAGE / "package.json").read_text())
    versions = {**wanted["dependencies"], **wanted["devDependencies"]}
    assert [v for v in versions.values() if not re.fullmatch(r"\d+\.\d+\.\d+", v)] == []


def test_npm_is_told_to_leave_addresses_out():
    settings = (PAGE / ".npmrc").read_text().split()
    assert "omit-lockfile-registry-resolved=true" in settings
    assert "save-exact=true" in settings
