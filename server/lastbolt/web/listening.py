"""The socket that the server listens at, opened before anything is said of it."""

from __future__ import annotations

import socket
from contextlib import suppress

from ..errors import BadInputError


def listening_at(host: str, port: int) -> socket.socket:
    """Listen at an address; port 0 takes a free one.

    Raises:
        BadInputError: the address is taken or is not this machine's.
    """
    try:
        return socket.create_server((host, port))
    except OSError as error:
        raise BadInputError(
            f"cannot listen at {host}:{port} ({error.strerror}); stop the other program or change --port"
        ) from error


def own_names() -> list[str]:
    """Give the addresses and names under which others on the network reach this machine, the best one first.

    Nothing is sent: a datagram socket that is pointed somewhere only shows which address it would leave from.
    """
    found: list[str] = []
    for family, far in ((socket.AF_INET, "10.255.255.255"), (socket.AF_INET6, "fd00::1")):
        with suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((far, 9))
            found.append(str(probe.getsockname()[0]))
    name = socket.gethostname().split(".")[0].lower()
    if not found:
        found.append("127.0.0.1")
    return [*found, f"{name}.local", f"{name}.lan"]
