"""The server must not close connections that answer: its time-out has to be longer than the time between two questions."""

from rigcalc.views.serving.serve import settings

# jupyter_server's own, in milliseconds, where nothing is set
INTERVAL, TIMEOUT = 30_000, 90_000


def test_a_connection_that_answers_is_kept(tmp_path):
    chosen = settings("127.0.0.1", 8866, "", tmp_path, 1, 1800).Server.tornado_settings
    interval = chosen.get("ws_ping_interval", INTERVAL)
    assert interval == 0 or chosen.get("ws_ping_timeout", TIMEOUT) > interval
