"""The header of a kernel's message on its way to a page, read in either of the two forms that a page may ask for.

A page asks for the newer form, and falls back to the older one when its connection breaks off before it stands, as on a busy
machine. Voila's own reader takes every binary message for the newer form: an older one then looks like a count of thousands of
millions, which it tries to walk, and the server stops answering and fills its memory.
"""

from __future__ import annotations

import json
from typing import Any

_MOST_PARTS = 10_000  # a message has six parts, and one more for each buffer


def message_header(message: bytes) -> dict[str, Any] | None:
    """Give the header of a binary message, None where it is in neither form."""
    for read in (_newer, _older):
        try:
            header = read(message)
        except (ValueError, IndexError, KeyError, UnicodeDecodeError):
            continue
        if isinstance(header, dict):
            return header
    return None


def _newer(message: bytes) -> Any:
    """Offsets in eight bytes each, least byte first; the header stands between the second and the third."""
    offsets = _offsets(message, 8, "little")
    return json.loads(message[offsets[1] : offsets[2]].decode("utf-8"))


def _older(message: bytes) -> Any:
    """Offsets in four bytes each, greatest byte first; the whole message without its buffers stands after the first."""
    offsets = _offsets(message, 4, "big")
    end = offsets[1] if len(offsets) > 1 else len(message)
    return json.loads(message[offsets[0] : end].decode("utf-8"))["header"]


def _offsets(message: bytes, size: int, order: Any) -> list[int]:
    count = int.from_bytes(message[:size], order)
    if not 0 < count <= _MOST_PARTS or (count + 1) * size > len(message):
        raise ValueError("not in this form")
    return [int.from_bytes(message[size * (i + 1) : size * (i + 2)], order) for i in range(count)]
