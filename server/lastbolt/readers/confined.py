"""What a process that decodes pictures may have: little memory, little time, no files to write."""

from __future__ import annotations

import math
import os
import resource
import signal
from typing import IO

REFUSED, READ = b"refused", b"read"
"""The first frame of an answer."""
NICENESS = 5
"""A reader steps back behind the server, so that pages are answered while photos are read."""
SLOWEST = 10
"""Seconds of the clock for each second of the processor that a photo may take: other programs want it too."""


def limit(memory_bytes: int) -> None:
    """Bound what this process may ever have, and let it write no file."""
    resource.setrlimit(resource.RLIMIT_AS, (memory_bytes, memory_bytes))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    os.nice(NICENESS)
    os.chdir("/")
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C at the server's terminal is the server's to answer


def allow(seconds: float) -> None:
    """Let the system end this process when a photo takes too much of the processor, or ten times that long.

    Both end it also inside a decoder, and also when the server is gone.
    """
    used = resource.getrusage(resource.RUSAGE_SELF)
    most = math.ceil(used.ru_utime + used.ru_stime + seconds)
    resource.setrlimit(resource.RLIMIT_CPU, (most, resource.getrlimit(resource.RLIMIT_CPU)[1]))
    signal.alarm(math.ceil(seconds * SLOWEST))


def take_stdout() -> IO[bytes]:
    """Keep stdout for the answers: whatever a decoder prints goes to stderr."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return answers


def answered() -> None:
    """Let the clock of the last picture stand still."""
    signal.alarm(0)
