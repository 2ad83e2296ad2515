"""A running server among strangers: no message, request or guess stops it, fills it or gets a secret out of it."""

import asyncio
import http.client
import json
import os
import random
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from urllib.parse import quote

import pytest

pytest.importorskip("voila", reason="missing: voila")
import psutil
import websockets
from served import Served
from test_messages import NONSENSE

NEWER = "v1.kernel.websocket.jupyter.org"
APPS = Path(__file__).parents[1] / "browser" / "tiny_apps"
BY_HAND = {"Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document", "Accept": "text/html"}
TOKEN = "s&cret=#? for+the/tests%41"


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    made = Served(APPS, tmp_path_factory.mktemp("hostile") / "open.log", pool=0, most=2)
    yield made
    made.stop()


@pytest.fixture(scope="module")
def locked(tmp_path_factory):
    made = Served(APPS, tmp_path_factory.mktemp("hostile") / "locked.log", pool=1, token=TOKEN)
    yield made
    made.stop()


def asked(server, path, method="GET", body=None, **headers):
    connection = http.client.HTTPConnection("localhost", server.port, timeout=60)
    try:
        connection.request(method, path, body=body, headers={name.replace("_", "-"): text for name, text in headers.items()})
        answer = connection.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read().decode("utf-8", "replace")
    finally:
        connection.close()


def kernels(server):
    children = psutil.Process(server.process.pid).children(recursive=True)
    return [child for child in children if re.search(r"kernel-[0-9a-f-]+\.json", " ".join(command_of(child)))]


def command_of(process):
    try:
        return process.cmdline()
    except psutil.Error:  # it ended in the meantime
        return []


def comes_true(what, seconds=150):
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "it never came true"
        time.sleep(0.2)


@pytest.fixture
def kernel(server):
    comes_true(lambda: not kernels(server))
    sent = []
    # The server notes within seconds that a calculation was killed; until then its place is taken.
    comes_true(lambda: sent.append(asked(server, "/app/tiny", **BY_HAND)) or sent[-1][0] == 200)
    page = sent[-1][2]
    found = re.search(r'"kernelId": "([\w-]+)"', page)[1]
    yield found
    for process in kernels(server):
        process.kill()
    comes_true(lambda: not kernels(server))


async def answered_by(server, kernel, message, newer):
    """Send one message; give the code with which the connection was closed, None where it stands for half a second."""
    address = f"ws://localhost:{server.port}/api/kernels/{kernel}/channels?session_id=a"
    protocols = [NEWER] if newer else None
    async with websockets.connect(address, subprotocols=protocols, max_size=None) as wire:
        try:
            await wire.send(message)
            async with asyncio.timeout(0.5):
                while True:
                    await wire.recv()
        except websockets.ConnectionClosed as closed:
            return closed.rcvd.code if closed.rcvd else 1006
        except TimeoutError:
            return None


@pytest.mark.parametrize("newer", [True, False], ids=["newer", "older"])
def test_the_message_that_stopped_the_server(server, kernel, newer, awaited):
    before = psutil.Process(server.process.pid).memory_info().rss
    assert awaited(answered_by(server, kernel, b"\xff" * 8, newer)) == 1007
    assert asked(server, "/")[0] == 200
    assert psutil.Process(server.process.pid).memory_info().rss < before + 50e6


def test_nonsense_of_every_kind_over_the_wire(server, kernel, awaited):
    chance = random.Random(30)
    before = psutil.Process(server.process.pid).memory_info().rss
    rest = [chance.randbytes(chance.randint(0, 3000)) for _ in range(100)]
    for number, message in enumerate([*NONSENSE.values(), *rest]):
        # Bytes of the older form may be anything's length, so that only the closing tells.
        code = awaited(answered_by(server, kernel, message, newer=bool(number % 2)))
        assert code == 1007, message[:40]
    assert asked(server, "/")[0] == 200
    assert psutil.Process(server.process.pid).memory_info().rss < before + 100e6
    assert len(kernels(server)) == 1
    assert server.log.read_text().count("\n") < 10, "nothing of it is news where rigcalc was started"


def test_a_message_that_is_too_long_and_a_name_that_is(server, kernel, awaited):
    assert awaited(answered_by(server, kernel, b"\x00" * (5 * 2**20), True)) == 1009
    status, _, _ = asked(
        server, f"/api/kernels/{kernel}/channels?session_id={'x' * 300}", Upgrade="websocket", Connection="Upgrade",
        Sec_WebSocket_Version="13", Sec_WebSocket_Key="AAAAAAAAAAAAAAAAAAAAAA==",
    )  # fmt: skip
    assert status == 400


def test_parts_that_are_no_json_reach_one_calculation_and_do_it_no_harm(server, kernel, awaited):
    from jupyter_server.services.kernels.connection.base import serialize_msg_to_ws_v1

    header = json.dumps(
        {"msg_id": "1", "msg_type": "comm_msg", "session": "a", "username": "", "version": "5.3", "date": ""}
    ).encode()
    deep = b'{"a":' * 50_000 + b"1" + b"}" * 50_000
    for content in (b"{\xff}", b"{", deep, b'{"comm_id": []}', b'{"comm_id": "none", "data": 1}'):
        awaited(answered_by(server, kernel, serialize_msg_to_ws_v1([header, b"{}", b"{}", content], "shell"), True))
    assert len(kernels(server)) == 1
    assert "Traceback" not in server.log.read_text()


def test_over_a_network_messages_are_packed_and_a_small_one_that_unpacks_to_much_ends_its_connection(tmp_path, awaited):
    wide = Served(APPS, tmp_path / "wide.log", pool=0, host="0.0.0.0", token=TOKEN)
    try:
        page = asked(wide, f"/app/tiny?token={quote(TOKEN)}", **BY_HAND)[2]
        kernel = re.search(r'"kernelId": "([\w-]+)"', page)[1]
        address = f"ws://localhost:{wide.port}/api/kernels/{kernel}/channels?session_id=a&token={quote(TOKEN)}"
        before = psutil.Process(wide.process.pid).memory_info().rss

        async def sent():
            async with websockets.connect(address, max_size=None) as wire:
                packed = wire.response.headers.get("Sec-WebSocket-Extensions", "")
                try:
                    await wire.send(b"\0" * 100_000_000)
                    while True:
                        await wire.recv()
                except websockets.ConnectionClosed as closed:
                    return packed, closed.rcvd.code if closed.rcvd else 1006

        packed, code = awaited(sent())
        assert "permessage-deflate" in packed
        assert code in (1009, 1006)  # too big
        assert psutil.Process(wide.process.pid).memory_info().rss - before < 60_000_000
        assert asked(wide, f"/?token={quote(TOKEN)}", **BY_HAND)[0] == 200
    finally:
        wide.stop()


def test_no_more_calculations_than_there_are_places_and_the_rest_wait(server, kernel):
    # The place of a calculation that the test before killed is free within seconds, not at once.
    comes_true(lambda: asked(server, "/app/tiny", **BY_HAND)[0] == 200)
    status, headers, page = asked(server, "/app/tiny?depth=14+in", **BY_HAND)
    assert status == 503
    assert headers["Refresh"] == headers["Retry-After"] == "4"
    assert "2 pages calculate at once" in page
    assert len(kernels(server)) == 2
    kernels(server)[0].kill()
    comes_true(lambda: asked(server, "/app/tiny", **BY_HAND)[0] == 200)
    assert len(kernels(server)) <= 2


def test_a_page_that_never_connects_frees_its_place(server, kernel):
    comes_true(lambda: not kernels(server), seconds=150)


@pytest.mark.parametrize(
    "headers",
    [{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image"},
     {"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"},
     {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"},
     {"Origin": "http://evil.example"}, {"Origin": "null"}, {"Host": "evil.example"}, {"Accept": "image/*"},
     {"Referer": "http://evil.example/", "Accept": "text/html"}, {**BY_HAND, "Sec-Purpose": "prefetch"}],
    ids=lambda headers: "-".join(headers.values())[:40],
)  # fmt: skip
def test_another_page_starts_nothing(server, headers):
    comes_true(lambda: not kernels(server))
    for path in ("/app/tiny", "/voila/static/voila.js", "/rigcalc/plotly.min.js", "/"):
        status, _, page = asked(server, path, **headers)
        assert status in (200, 403, 404)
        assert "kernelId" not in page
    assert not kernels(server)


def test_who_hangs_up_leaves_nothing_behind(server):
    comes_true(lambda: not kernels(server))
    lines = "".join(f"{name}: {text}\r\n" for name, text in BY_HAND.items())
    for _ in range(12):
        with socket.create_connection(("localhost", server.port)) as wire:
            wire.sendall(f"GET /app/tiny HTTP/1.1\r\nHost: localhost:{server.port}\r\n{lines}\r\n".encode())
    comes_true(lambda: not kernels(server) and asked(server, "/app/tiny", **BY_HAND)[0] == 200)
    for process in kernels(server):
        process.kill()


@pytest.mark.parametrize(
    "path",
    ["/voila/templates/x", "/voila/templates/", "/voila/tree", "/voila/files/tiny.ipynb", "/voila/render/tiny.ipynb",
     "/api/contents", "/api/kernels", "/app/none", "/app/..%2f..%2fetc", "/voila/static/../../../etc/passwd",
     "/voila/query/12345678-1234-1234-1234-123456789abc"],
)  # fmt: skip
def test_there_is_no_such_page(server, path):
    status, _, _ = asked(server, path, Accept="text/html")
    assert status in ((403, 404) if ".." in path else (404,))


def test_a_long_body_is_not_taken(server):
    with pytest.raises((OSError, http.client.HTTPException, AssertionError)):
        assert asked(server, "/login", "POST", body=b"a" * 5_000_000)[0] < 400


# with a token


def test_a_visitor_s_token_and_address_go_nowhere_else(locked):
    path = f"/app/tiny?token={quote(TOKEN, safe='')}&depth=14+in"
    status, headers, page = asked(locked, path, **BY_HAND)
    assert status == 200
    kernel = re.search(r'"kernelId": "([\w-]+)"', page)[1]
    assert "samesite=lax" in headers["Set-Cookie"].lower() or "samesite=strict" in headers["Set-Cookie"].lower()
    comes_true(lambda: len(kernels(locked)) >= 2)  # the next visitor's waits already
    for process in kernels(locked):
        around = "\n".join(f"{name}={text}" for name, text in process.environ().items())
        assert TOKEN not in around
        assert quote(TOKEN, safe="") not in around
        assert "depth=14" not in around
    assert asked(locked, f"/voila/query/{kernel}", Accept="text/html")[0] == 302  # to the question for the token
    for path in (f"/api/kernels/{kernel}", f"/api/kernels/{kernel}/channels", f"/voila/api/shutdown/{kernel}"):
        assert asked(locked, path)[0] in (302, 403, 405)
    assert TOKEN not in page
    assert quote(TOKEN, safe="") not in page


def test_nothing_but_the_question_for_the_token(locked):
    for path in ("/", "/app/tiny", "/app/none", "/anything"):
        status, headers, _ = asked(locked, path, Accept="text/html")
        assert status == 302
        assert headers["Location"].startswith("/login?")


def test_the_printed_link_opens_the_page(locked):
    link = re.search(r"is open at http://localhost:\d+(\S+)", locked.log.read_text())[1]
    assert asked(locked, link, Accept="text/html")[0] == 200


def test_the_login_page_sets_no_password(locked, tmp_path):
    status, headers, page = asked(locked, "/login", Accept="text/html")
    assert status == 200
    cookie = headers["Set-Cookie"].split(";")[0]
    form = {"password": TOKEN, "new_password": "mine", "_xsrf": re.search(r'name="_xsrf" value="([^"]+)"', page)[1]}
    body = "&".join(f"{name}={quote(text, safe='')}" for name, text in form.items())
    status, _, _ = asked(locked, "/login", "POST", body, Cookie=cookie, Content_Type="application/x-www-form-urlencoded")
    assert status == 302
    assert not list(Path.cwd().glob("jupyter_server_config*"))
    assert asked(locked, "/?token=mine", Accept="text/html")[0] == 302


def test_wrong_tokens_slow_down(tmp_path):
    server = Served(APPS, tmp_path / "guessed.log", pool=0, token=TOKEN)
    try:
        found = [asked(server, f"/?token=wrong{number}", Accept="text/html")[0] for number in range(8)]
        assert found[:5] == [302] * 5
        assert 429 in found[5:]
        status, _, page = asked(server, f"/?token={quote(TOKEN, safe='')}", Accept="text/html")
        assert status == 429  # not even the right one is looked at
        assert "Too many wrong tokens" in page
        comes_true(lambda: asked(server, f"/?token={quote(TOKEN, safe='')}", Accept="text/html")[0] == 200)
        assert "wrong" not in server.log.read_text()
    finally:
        server.stop()


@pytest.mark.flaky(reruns=1)  # once in some forty runs, beside a full load, a library's own word came through
@pytest.mark.parametrize("moment", ["Starting rigcalc", "is open at", "To stop it"])
def test_ctrl_c_says_nothing(moment, tmp_path):
    log = tmp_path / "log"
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rigcalc", "app", "--no-browser", "--port", str(port)],
            stdout=out,
            stderr=out,
            start_new_session=True,
        )
    comes_true(lambda: moment in log.read_text())
    os.killpg(process.pid, signal.SIGINT)
    assert process.wait(150) in (0, 130)
    said = [line for line in log.read_text().splitlines() if line.strip()]
    assert all(re.match(r"Starting rigcalc|rigcalc is open at|To stop it", line) for line in said), said
    assert not [each for each in psutil.process_iter(["cmdline"]) if f"{port}" in " ".join(each.info["cmdline"] or [])]


def test_ctrl_c_counts_where_its_interruption_is_lost():
    code = (
        "import os, signal, sys, time\n"
        "from rigcalc.views.serving import server\nfrom rigcalc.views.serving.serve import serve\n"
        "real = server.Server.initialize\n"
        "def lost(self, argv):\n"
        "    try:\n        os.kill(os.getpid(), signal.SIGINT); time.sleep(60)\n"
        "    except KeyboardInterrupt:\n        pass  # as where it falls into a callback of the collector\n"
        "    real(self, argv)\n"
        "server.Server.initialize = lost\n"
        "serve(port=int(sys.argv[1]), open_browser=False, pool=0)\n"
    )
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    done = subprocess.run([sys.executable, "-c", code, str(port)], capture_output=True, text=True, timeout=150, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert "is open at" not in done.stdout


def test_a_busy_port_is_said_aloud(server, tmp_path):
    log = tmp_path / "log"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rigcalc", "app", "--no-browser", "--port", str(server.port)], stdout=out, stderr=out
        )
    try:
        comes_true(lambda: "is open at" in log.read_text())
        assert f"Port {server.port} is taken" in log.read_text()
    finally:
        process.terminate()
        process.wait(150)
