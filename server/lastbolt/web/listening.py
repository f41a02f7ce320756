"""The socket that the server listens at, opened before anything is said of it."""

from __future__ import annotations

import socket

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
