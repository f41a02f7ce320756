"""Two servers on one folder: the second is refused in one sentence; after a kill the folder is free."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def serving(folder: Path) -> Iterator[subprocess.Popen[str]]:
    command = [sys.executable, "-u", "-m", "lastbolt", "--data", str(folder), "serve", "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
        try:
            yield server
        finally:
            server.kill()


def test_a_second_server_is_refused_and_a_killed_one_leaves_the_folder_free(tmp_path):
    with serving(tmp_path) as first:
        assert first.stdout is not None
        assert "Serving at http://127.0.0.1:" in first.stdout.readline()
        with serving(tmp_path) as second:
            out, error = second.communicate(timeout=60)
        assert (second.returncode, out) == (2, "")
        assert error.startswith("lastbolt: another Lastbolt server works on") and error.count("\n") == 1
    with serving(tmp_path) as third:
        assert third.stdout is not None
        assert "Serving at" in third.stdout.readline()
