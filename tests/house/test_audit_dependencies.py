"""The answers are as pip-audit 2.x writes them (its JSON form; documented in its README)."""

import json
import runpy
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
AUDIT = runpy.run_path(str(ROOT / ".ci" / "audit_dependencies.py"))
HOLE = {"id": "PYSEC-0000-1", "fix_versions": ["2.0", "2.1"], "aliases": [], "description": "invented"}
SOUND = {"name": "sound", "version": "1.0", "vulns": []}
HOLED = {"name": "holed", "version": "1.9", "vulns": [HOLE]}
UNASKED = {"name": "unasked", "skip_reason": "Dependency not found"}


def said(*dependencies):
    return AUDIT["said"](AUDIT["audit_from"](json.dumps({"dependencies": list(dependencies), "fixes": []})))


def test_a_hole_is_named_with_the_versions_that_lack_it():
    assert said(SOUND, HOLED) == (
        "Dependency audit: 2 of 2 packages asked about, 1 known holes.\n"
        "holed 1.9: PYSEC-0000-1; versions without it: 2.0, 2.1"
    )


def test_what_could_not_be_asked_about_is_counted_and_not_called_sound():
    assert said(SOUND, UNASKED).startswith("Dependency audit: 1 of 2 packages asked about, 0 known holes.")
    assert "nothing is known about holes" in said(UNASKED)


@pytest.mark.parametrize(
    ("answer", "status"),
    [((SOUND,), 0), ((UNASKED,), 0), ((HOLED, UNASKED), 1)],
    ids=["sound", "unasked", "holed"],
)
def test_only_a_known_hole_ends_it_with_status_1(monkeypatch, capsys, answer, status):
    text = json.dumps({"dependencies": answer, "fixes": []})

    class Answer:
        stdout = text

    monkeypatch.setattr("subprocess.run", lambda *_, **__: Answer)
    assert AUDIT["main"]() == status
    assert "Dependency audit" in capsys.readouterr().out


def test_no_answer_is_said(monkeypatch, capsys):
    class Answer:
        stdout = "no JSON"

    monkeypatch.setattr("subprocess.run", lambda *_, **__: Answer)
    assert AUDIT["main"]() == 0
    assert "no advisory service answered" in capsys.readouterr().out
