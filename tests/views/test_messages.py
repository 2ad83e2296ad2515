"""Messages of both forms pass; what is in neither is refused before anything walks it, at a bounded cost."""

import datetime
import json
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

base = pytest.importorskip("jupyter_server.services.kernels.connection.base", reason="missing: jupyter_server")
from rigcalc.views.serving.messages import MOST_PARTS, NEWER, Connection, check_message  # noqa: E402

HEADER = {"msg_id": "1", "msg_type": "comm_msg", "date": datetime.datetime.now(datetime.UTC).isoformat()}
MESSAGE = {"header": HEADER, "parent_header": {}, "metadata": {}, "content": {"data": {"a": 1}}, "channel": "shell"}
PARTS = [json.dumps(MESSAGE[key]).encode() for key in ("header", "parent_header", "metadata", "content")]
NEW = base.serialize_msg_to_ws_v1([*PARTS, b"\x00" * 50, b""], "shell")
OLD = base.serialize_binary_message({**MESSAGE, "buffers": [b"\xff" * 500, b""]})
TEXT = json.dumps(MESSAGE)


@pytest.mark.parametrize(("message", "newer"), [(NEW, True), (OLD, False), (TEXT, False)])
def test_a_message_passes(message, newer):
    check_message(message, newer)


def test_what_passes_is_what_jupyter_reads():
    channel, parts = base.deserialize_msg_from_ws_v1(NEW)
    assert (channel, parts[:4]) == ("shell", PARTS)
    assert base.deserialize_binary_message(OLD)["buffers"] == [b"\xff" * 500, b""]


def offsets(size, order, *numbers):
    return b"".join(number.to_bytes(size, order) for number in numbers)


OVERLAPPING = offsets(8, "little", MOST_PARTS, *[8 * (MOST_PARTS + 1), 4_000_000] * (MOST_PARTS // 2)) + bytes(4_000_000)
NONSENSE = {
    "nothing": b"", "one byte": b"\x00", "the message that stopped the server": b"\xff" * 8, "all ones": b"\xff" * 64,
    "zeros": bytes(4096), "a count of two thousand million": b"\x7f\xff\xff\xff" + bytes(64),
    "a negative count": b"\xff\xff\xff\xff",
    "parts that overlap": OVERLAPPING, "parts outside": offsets(8, "little", 6, 56, 61, 70, 80, 90, 2**63) + bytes(100),
    "parts inside the offsets": offsets(8, "little", 6, 0, 0, 0, 0, 0, 0) + bytes(100),
    "text in place of bytes": "{}", "a list": "[]", "a number": "1", "not JSON": "{", "half a letter": b"\x01\x00\x00\x00\xc3",
    "another channel": json.dumps({**MESSAGE, "channel": "iopub"}),
    "a channel that is a list": json.dumps({**MESSAGE, "channel": []}), "no header": json.dumps({**MESSAGE, "header": None}),
    "a part that is a number": base.serialize_msg_to_ws_v1([b"1", *PARTS[1:]], "shell"),
    "deep": "[" * 100_000, "three parts": base.serialize_msg_to_ws_v1(PARTS[:3], "shell"),
}  # fmt: skip


@pytest.mark.parametrize("newer", [True, False], ids=["newer", "older"])
@pytest.mark.parametrize("name", NONSENSE)
def test_nonsense_is_refused(name, newer):
    with pytest.raises((ValueError, RecursionError)):
        check_message(NONSENSE[name], newer)


def attempted(message, newer):
    """Do what the connection does: look first, then let Jupyter's reader walk it."""
    try:
        check_message(message, newer)
    except (ValueError, RecursionError):
        return False
    if newer:
        base.deserialize_msg_from_ws_v1(message)
    elif isinstance(message, bytes):
        base.deserialize_binary_message(message)
    return True


@st.composite
def spoiled(draw):
    """Give a good message with some of its bytes changed, cut off or put in."""
    message = bytearray(draw(st.sampled_from([NEW, OLD])))
    for _ in range(draw(st.integers(1, 6))):
        place = draw(st.integers(0, len(message)))
        message[place : place + draw(st.integers(0, 8))] = draw(st.binary(max_size=8))
    return bytes(message)


if __name__ == "__main__":  # the process whose memory and time are held
    import resource

    resource.setrlimit(resource.RLIMIT_CPU, (120, 120))
    with open("/proc/self/statm") as stream:
        now = int(stream.read().split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (now + 300 * 2**20,) * 2)

    @settings(max_examples=2000, deadline=500, database=None, derandomize=True)
    @given(
        st.one_of(st.binary(max_size=4096), spoiled(), st.binary(max_size=500).map(lambda raw: raw.decode("latin-1"))),
        st.booleans(),
    )
    def random_bytes(message, newer):
        attempted(message, newer)

    random_bytes()
    for each in NONSENSE.values():
        for newer in (True, False):
            assert not attempted(each, newer)
    assert attempted(NEW, True)
    print("held")


@pytest.mark.slow
def test_random_bytes_hold_memory_and_time():
    done = subprocess.run([sys.executable, __file__], capture_output=True, text=True, check=False, timeout=200)
    assert done.stdout.strip() == "held", done.stderr[-2000:]


class Wire:
    """Stands for a websocket: keeps what is sent and whether it was closed."""

    def __init__(self, protocol):
        self.selected_subprotocol, self.sent, self.closed = protocol, [], None

    def close(self, code, why):
        self.closed = code

    def write_message(self, message, binary=False):
        self.sent.append(message)


class Stream:
    channel = "iopub"

    def closed(self):
        return False


def connection(monkeypatch, protocol):
    made = Connection.__new__(Connection)
    wire = Wire(protocol)
    monkeypatch.setattr(Connection, "websocket_handler", wire)
    monkeypatch.setattr(Connection, "channels", {"shell": Stream()})
    return made, wire


@pytest.mark.parametrize("protocol", [NEWER, None], ids=["newer", "older"])
@pytest.mark.parametrize("name", NONSENSE)
def test_nonsense_closes_the_connection(name, protocol, monkeypatch):
    made, wire = connection(monkeypatch, protocol)
    made.handle_incoming_message(NONSENSE[name])
    assert wire.closed == 1007
    assert wire.sent == []


@pytest.mark.parametrize("kind", ["execute_input", "comm_msg"])
def test_the_source_of_the_notebook_stays_here_in_both_forms(kind, monkeypatch):
    header = {**HEADER, "msg_type": kind}
    made, wire = connection(monkeypatch, NEWER)
    made._on_zmq_reply(Stream(), [json.dumps(header).encode(), *PARTS[1:]])
    assert len(wire.sent) == (kind == "comm_msg")
    made, wire = connection(monkeypatch, None)
    made._on_zmq_reply(Stream(), {**MESSAGE, "header": header, "buffers": []})
    assert len(wire.sent) == (kind == "comm_msg")


@given(st.lists(st.binary(max_size=200), min_size=4, max_size=8))
def test_whatever_a_calculation_sends_goes_out_as_it_came(parts):
    with pytest.MonkeyPatch.context() as patch:
        made, wire = connection(patch, NEWER)
        made._on_zmq_reply(Stream(), parts)
        if b"execute_input" not in parts[0]:
            assert base.deserialize_msg_from_ws_v1(wire.sent[0]) == ("iopub", parts)
