"""Messages between a page and its calculation: bounded before they are read, whatever form they are in.

A message is a list of parts behind a list of offsets, in one of two forms: the newer one (eight bytes an offset, least byte
first) and the older one (four bytes, greatest byte first; without buffers it is plain JSON). Jupyter's own readers walk as many
offsets as the message claims to have: eight bytes of 0xff make them walk eighteen million million million. So the count, the
offsets and the JSON are looked at first, and who sends nonsense loses the connection. What goes out is looked at while it is
still a list of parts, so that nothing is read back from bytes.
"""

from __future__ import annotations

import json
import re
import struct
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.services.kernels.websocket import KernelWebsocketHandler
from tornado.web import HTTPError
from tornado.websocket import WebSocketClosedError

NEWER = "v1.kernel.websocket.jupyter.org"
MOST_PARTS = 1000  # a message has four parts, and one more for each buffer
MOST_UNSENT = 64 * 1024 * 1024  # bytes under way to a page that doesn't take them
_CHANNELS = ("shell", "control", "stdin")  # those that a page may write to
_SHOWS_SOURCE = "execute_input"  # the kind of message that holds the notebook's own lines
_NOT_A_MESSAGE = 1007  # RFC 6455, 7.4.1: the data don't fit the type of the message


class Nonsense(ValueError):
    """Bytes that are no message."""


def check_message(message: bytes | str, newer: bool) -> None:
    """Raise ValueError or RecursionError unless Jupyter's reader of that form can read `message` at a bounded cost."""
    if newer:
        _check_newer(message)
    else:
        _check_older(message)


def _check_newer(message: bytes | str) -> None:
    if not isinstance(message, bytes):
        raise Nonsense("text where bytes belong")
    offsets = _offsets(message, 8, "little")
    if len(offsets) < 6:  # where the channel starts, where it and each of the four parts end
        raise Nonsense("fewer than four parts")
    if message[offsets[0] : offsets[1]].decode() not in _CHANNELS:
        raise Nonsense("not a channel that a page writes to")
    # The calculation reads the parts itself and outlives what it can't read; the header is read here by Jupyter.
    if any(message[start : start + 1] != b"{" or message[end - 1 : end] != b"}" for start, end in pairwise(offsets[1:6])):
        raise Nonsense("a part that is no mapping")


def _check_older(message: bytes | str) -> None:
    text: bytes | str = message
    if isinstance(message, bytes):
        offsets = _offsets(message, 4, "big")
        text = message[offsets[0] : offsets[1] if len(offsets) > 1 else len(message)]
    found = json.loads(text)
    if not isinstance(found, dict):
        raise Nonsense("not a mapping")
    if found.get("channel", "shell") not in _CHANNELS:
        raise Nonsense("not a channel that a page writes to")
    if not all(isinstance(found.get(part), dict) for part in ("header", "parent_header", "metadata", "content")):
        raise Nonsense("a part is missing")


def _offsets(message: bytes, size: int, order: Any) -> Sequence[int]:
    count = int.from_bytes(message[:size], order)
    if not 0 < count <= MOST_PARTS or (count + 1) * size > len(message):
        raise Nonsense("a count of parts that can't be")
    found = struct.unpack_from(f"{'<' if order == 'little' else '>'}{count}{'Q' if size == 8 else 'I'}", message, size)
    # Parts that overlap would be copied once each: a thousand of four megabytes.
    if found[0] < (count + 1) * size or found[-1] > len(message) or list(found) != sorted(found):
        raise Nonsense("parts that overlap or lie outside")
    return found


class Connection(ZMQChannelsWebsocketConnection):
    """Jupyter's connection between a page and its calculation, behind bounds."""

    def handle_incoming_message(self, incoming_msg: Any) -> None:
        """Pass on what a page sends; close the connection on what is no message."""
        try:
            check_message(incoming_msg, self.subprotocol == NEWER)
            super().handle_incoming_message(incoming_msg)
        except Exception as error:  # whatever a stranger's bytes set off, it ends here and ends the connection
            self.log.debug("a page sent nonsense: %s", error)
            self.websocket_handler.close(_NOT_A_MESSAGE, "not a message to a calculation")

    def _on_zmq_reply(self, stream: Any, msg_list: Any) -> None:
        """Pass on what the calculation sends, but not the source of the notebook."""
        older = isinstance(msg_list, dict)  # else the parts as they came, of which the first is the header
        kind = msg_list["header"].get("msg_type", "") if older else msg_list[0]
        if _SHOWS_SOURCE in (kind if older else bytes(kind).decode("utf-8", "replace")):
            return
        try:
            super()._on_zmq_reply(stream, msg_list)  # type: ignore[no-untyped-call]
        except WebSocketClosedError:
            pass  # the page went while its answer was under way


class KernelSocket(KernelWebsocketHandler):
    """The address at which a page talks to its calculation."""

    unsent = 0

    async def pre_get(self) -> None:
        """Refuse a name of a page that Jupyter's lower layers would choke on."""
        if not re.fullmatch(r"[\w.-]{0,80}", self.get_argument("session_id", "")):
            raise HTTPError(400, "session_id of at most 80 letters, digits, dots and dashes expected")
        await super().pre_get()  # type: ignore[no-untyped-call]

    def write_message(self, message: Any, binary: bool = False) -> Any:
        """Send; a page that takes nothing for long is let go instead of filling the memory."""
        size = len(message)
        if self.unsent + size > MOST_UNSENT:
            self.close(1008, "the page takes too little of what it is sent")
        sent = super().write_message(message, binary)
        self.unsent += size

        def off(done: Any) -> None:
            self.unsent -= size
            if not done.cancelled():
                done.exception()  # looked at, so that a page that goes in the midst of it isn't reported as an error

        sent.add_done_callback(off)
        return sent
