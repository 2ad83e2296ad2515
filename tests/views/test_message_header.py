"""Messages of both forms give their header at once; one that is in neither can't keep the server busy."""

import datetime
import os

import pytest
from jupyter_server.services.kernels.connection.base import serialize_binary_message, serialize_msg_to_ws_v1

from rigcalc.views.serving.message_header import message_header

HEADER = {"msg_id": "1", "msg_type": "execute_input", "date": datetime.datetime.now(datetime.UTC).isoformat()}
MESSAGE = {"header": HEADER, "parent_header": {}, "metadata": {}, "content": {"code": "1"}, "channel": "iopub"}


@pytest.mark.parametrize("buffers", [[b"\xff" * 5000], [b"a", b"", b"\x00" * 9]])
def test_older_form(buffers):
    assert message_header(serialize_binary_message({**MESSAGE, "buffers": buffers}))["msg_type"] == "execute_input"


def test_newer_form():
    import json

    parts = [json.dumps(MESSAGE[key]).encode() for key in ("header", "parent_header", "metadata", "content")]
    message = serialize_msg_to_ws_v1(parts, "iopub")
    assert message_header(b"".join(message) if isinstance(message, list) else message)["msg_type"] == "execute_input"


@pytest.mark.parametrize("message", [b"", b"\x00", b"\xff" * 64, b"\x01" + b"\x00" * 7, os.urandom(4096), bytes(4096)])
def test_neither_form(message):
    assert message_header(message) is None


def test_the_server_uses_it():
    import voila.tornado.kernel_websocket_handler

    import rigcalc.views.serving.server

    assert rigcalc.views.serving.server
    assert voila.tornado.kernel_websocket_handler.read_header_from_binary_message is message_header
