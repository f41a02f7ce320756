"""A wire between a browser and a server that can be slow, be cut, or swallow an answer, as Wi-Fi does."""

import re
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

REQUEST = re.compile(rb"(?:^|\r\n)(GET|PUT|POST|DELETE) (\S+) HTTP/1\.1\r\n")
PIECE = 8192


class Wire:
    """Passes TCP connections on to a server; what came by is in `requests`."""

    def __init__(self, target: int) -> None:
        self.target = target
        self.rate: float | None = None
        """Bytes a second from the browser to the server; None is as fast as it goes."""
        self.swallow: list[str] = []
        """Ends of paths whose next answer is lost; each is lost once."""
        self.lost: list[str] = []
        self.requests: list[tuple[str, str]] = []
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port = self._listening.getsockname()[1]
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        self._listening.close()

    def puts(self, end: str) -> int:
        return sum(1 for method, path in self.requests if method == "PUT" and path.endswith(end))

    def _accept(self) -> None:
        while True:
            try:
                browser, _ = self._listening.accept()
            except OSError:
                return
            threading.Thread(target=self._connect, args=(browser,), daemon=True).start()

    def _connect(self, browser: socket.socket) -> None:
        try:
            server = socket.create_connection(("127.0.0.1", self.target))
        except OSError:
            browser.close()
            return
        loses = threading.Event()
        threading.Thread(target=self._up, args=(browser, server, loses), daemon=True).start()
        self._down(server, browser, loses)

    def _up(self, browser: socket.socket, server: socket.socket, loses: threading.Event) -> None:
        try:
            while data := browser.recv(PIECE):
                for method, path in REQUEST.findall(data):
                    self._saw(method.decode(), path.decode().partition("?")[0], loses)
                server.sendall(data)
                if self.rate:
                    time.sleep(len(data) / self.rate)
        except OSError:
            pass
        finally:
            _end(server)

    def _saw(self, method: str, path: str, loses: threading.Event) -> None:
        self.requests.append((method, path))
        for end in self.swallow:
            if path.endswith(end) and method != "GET":
                self.swallow.remove(end)
                self.lost.append(path)
                loses.set()
                return

    def _down(self, server: socket.socket, browser: socket.socket, loses: threading.Event) -> None:
        try:
            while data := server.recv(65536):
                if loses.is_set():
                    break
                browser.sendall(data)
        except OSError:
            pass
        finally:
            _end(browser)
            _end(server)


def _end(wire: socket.socket) -> None:
    try:
        wire.shutdown(socket.SHUT_RDWR)
    except OSError:
        pass
    wire.close()


@contextmanager
def wire_to(port: int) -> Iterator[Wire]:
    """Lay a wire to a port of this machine."""
    wire = Wire(port)
    try:
        yield wire
    finally:
        wire.close()
