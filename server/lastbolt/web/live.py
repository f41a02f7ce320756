"""Changes told as they happen: one look-out at the heads, any number of listeners, no thread for any."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Callable, Mapping

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ..errors import LastboltError

LOOK_EVERY_S = 1.0
"""How often other programs' entries (a command beside the server) are looked for while somebody listens."""
BEAT_EVERY_S = 15.0
"""How often a quiet stream says that it is still there."""
Heads = Mapping[str, str]


class Live:
    """Tells listeners that a job has new entries; what they are, they ask for themselves."""

    def __init__(self, heads: Callable[[], Heads]) -> None:
        self._heads = heads
        self._known: Heads = {}
        self._listening: dict[asyncio.Queue[tuple[str, str] | None], str | None] = {}
        self._again = asyncio.Event()
        self._looking: asyncio.Task[None] | None = None
        self.is_over = False

    def start(self) -> None:
        """Begin to look out, in the event loop that calls."""
        self._looking = asyncio.create_task(self._look_out())

    def stop(self) -> None:
        """End all streams, so that the server need not wait for them."""
        self.is_over = True
        if self._looking:
            self._looking.cancel()
        for queue in self._listening:
            queue.put_nowait(None)

    def nudge(self) -> None:
        """Look at once: something may have been written."""
        self._again.set()

    async def stream(self, job: str | None) -> AsyncIterator[bytes]:
        """Give the events of one job, or of all: where it stands now, then each change, a beat between."""
        queue: asyncio.Queue[tuple[str, str] | None] = asyncio.Queue()
        self._listening[queue] = job
        try:
            self._known = self._known if len(self._listening) > 1 else await self._look()
            for name, head in self._known.items():
                if job in (None, name):
                    yield event("now", job=name, head=head)
            while not self.is_over:
                try:
                    told = await asyncio.wait_for(queue.get(), BEAT_EVERY_S)
                except TimeoutError:
                    yield event("beat")
                    continue
                if told is None:
                    return
                yield event("changed", job=told[0], head=told[1])
        finally:
            del self._listening[queue]

    async def _look_out(self) -> None:
        while True:
            try:
                await asyncio.wait_for(self._again.wait(), LOOK_EVERY_S)
            except TimeoutError:
                pass
            self._again.clear()
            if self._listening:
                self._tell(await self._look())

    async def _look(self) -> Heads:
        try:
            return await asyncio.to_thread(self._heads)
        except LastboltError:  # a busy or full disk now must not end the look-out for good
            return self._known

    def _tell(self, heads: Heads) -> None:
        changed = [(job, head) for job, head in heads.items() if self._known.get(job) != head]
        self._known = heads
        for job, head in changed:
            for queue, wanted in self._listening.items():
                if wanted in (None, job):
                    queue.put_nowait((job, head))


class Nudging:
    """ASGI middleware: after every request that may have written, the look-out looks at once."""

    def __init__(self, app: ASGIApp, live: Live) -> None:
        self.app = app
        self.live = live

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        writes = scope["type"] == "http" and scope["method"] not in ("GET", "HEAD", "OPTIONS")

        async def send_and_nudge(message: Message) -> None:
            await send(message)
            if writes and message["type"] == "http.response.body" and not message.get("more_body"):
                self.live.nudge()

        await self.app(scope, receive, send_and_nudge)


def event(name: str, **data: str) -> bytes:
    r"""Write one event as the HTML standard (9.2, server-sent events) lays it down.

    >>> event("changed", job="keel", head="ab")
    b'event: changed\ndata: {"job": "keel", "head": "ab"}\n\n'
    """
    return f"event: {name}\ndata: {json.dumps(data)}\n\n".encode()
