import importlib.util
import shutil
from pathlib import Path

import pytest

PAGE = Path(__file__).resolve().parents[2] / "mobile_web"


@pytest.fixture
def hook():
    found = importlib.util.spec_from_file_location("page_build", PAGE / "hatch_build.py")
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


@pytest.fixture
def copy(hook, tmp_path, monkeypatch):
    """The hook at work on a copy of the page's sources."""
    here = tmp_path / "mobile_web"
    shutil.copytree(PAGE, here, ignore=shutil.ignore_patterns("node_modules"))
    for name, place in (("HERE", here), ("STATIC", tmp_path / "static")):
        monkeypatch.setattr(hook, name, place)
    monkeypatch.setattr(hook, "BUILT_FROM", tmp_path / "static" / "built-from.txt")
    return hook


@pytest.mark.parametrize(
    ("version", "enough"),
    [
        ("v20.19.0", True), ("v20.20.2", True), ("v22.12.0", True), ("v24.1.0", True), ("v18.20.4", False),
        ("v20.18.3", False), ("v21.7.0", False), ("v22.11.0", False), ("", False), ("no node", False),
    ],
)  # fmt: skip
def test_node_is_used_only_where_the_build_runs_on_it(hook, version, enough):
    assert hook.is_new_enough(version) is enough


def test_the_stamp_follows_the_sources_and_not_their_tests(copy):
    before = copy.sources_stamp()
    (copy.HERE / "src" / "another.test.ts").write_text("// a test")
    assert copy.sources_stamp() == before
    (copy.HERE / "src" / "another.ts").write_text("export {};")
    changed = copy.sources_stamp()
    assert changed != before
    (copy.HERE / "src" / "another.ts").rename(copy.HERE / "src" / "renamed.ts")
    assert copy.sources_stamp() not in (before, changed)


def test_a_page_built_from_the_same_sources_is_left_alone(copy):
    copy.STATIC.mkdir()
    (copy.STATIC / "index.html").write_text("built before")
    copy.BUILT_FROM.write_text(copy.sources_stamp())
    copy.build()
    assert (copy.STATIC / "index.html").read_text() == "built before"


def test_the_page_can_be_left_out_on_purpose(copy, monkeypatch):
    monkeypatch.setenv("LASTBOLT_SKIP_WEB", "1")
    hook = copy.WebBuild.__new__(copy.WebBuild)
    assert hook.dependencies() == []
    hook.initialize("standard", {})
    assert not copy.STATIC.exists()


def test_without_a_node_the_build_asks_for_the_wheel_that_brings_one(copy, monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.delenv("LASTBOLT_SKIP_WEB", raising=False)
    assert copy.WebBuild.__new__(copy.WebBuild).dependencies() == [copy.NODE_WHEEL]


def test_a_lock_is_freed_of_addresses(copy):
    lock = copy.HERE / "package-lock.json"
    clean = lock.read_text()
    lock.write_text(
        clean.replace('"integrity"', '"resolved": "https://packages.example/x.tgz",\n      "integrity"')
    )
    assert "://" in lock.read_text()
    copy.lock()
    assert lock.read_text() == clean
