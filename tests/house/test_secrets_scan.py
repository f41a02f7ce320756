"""The scan for secrets finds a planted one, and none where there is none."""

from __future__ import annotations

import runpy

import pytest

from .package import ROOT

SCAN = runpy.run_path(str(ROOT / ".ci" / "secrets_scan.py"))
PLANTED = {
    "a private key": "-----BEGIN " + "RSA PRIVATE KEY-----\nMIIB\n",
    "a cloud key": "key = '" + "AKIA" + "Z7Q2MZ4LGX3WTR5B" + "'\n",
    "a password in an address": "at = 'https://ana:" + "hunter22" + "@example.invalid/'\n",
}


@pytest.mark.parametrize("what", PLANTED)
def test_a_planted_secret_is_found(tmp_path, what):
    (tmp_path / "a.py").write_text(PLANTED[what])
    assert [name for name, _ in SCAN["secrets_in"](tmp_path, ["a.py"])] == ["a.py"]


def test_plain_code_and_digests_are_none(tmp_path):
    (tmp_path / "a.py").write_text(f"digest = '{'0123456789abcdef' * 4}'\npin = ask()\n")
    assert list(SCAN["secrets_in"](tmp_path, ["a.py"])) == []
