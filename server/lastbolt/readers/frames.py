"""What goes between a server and its reader processes: frames of bytes, each after its length."""

from __future__ import annotations

from typing import IO

LARGEST_FRAME = 2**31
_LENGTH_BYTES = 8


def together(photo: bytes, earlier: bytes | None) -> bytes:
    """Put a photo and, where there is one, an earlier photo of the same tray into one frame."""
    held = earlier or b""
    return len(held).to_bytes(_LENGTH_BYTES, "big") + held + photo


def apart(frame: bytes) -> tuple[bytes, bytes | None]:
    """Take such a frame apart again: the photo, and the earlier one."""
    start = _LENGTH_BYTES + int.from_bytes(frame[:_LENGTH_BYTES], "big")
    return frame[start:], frame[_LENGTH_BYTES:start] or None


def write_frame(stream: IO[bytes], frame: bytes) -> None:
    """Write one frame and push it out.

    Raises:
        OSError: nobody reads at the other end.
    """
    stream.write(len(frame).to_bytes(_LENGTH_BYTES, "big"))
    stream.write(frame)
    stream.flush()


def read_frame(stream: IO[bytes], most: int = LARGEST_FRAME) -> bytes | None:
    """Read one frame; None when the other end went away, or says something that is no frame."""
    head = stream.read(_LENGTH_BYTES)
    if len(head) < _LENGTH_BYTES:
        return None
    length = int.from_bytes(head, "big")
    if length > most:
        return None
    frame = stream.read(length)
    return frame if len(frame) == length else None
