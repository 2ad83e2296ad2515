"""The server must keep connections that answer, and send all it has: the rest would be lost answers to the page."""

import pytest

from rigcalc.views.serving.serve import settings

# jupyter_server's own, in milliseconds, where nothing is set
INTERVAL, TIMEOUT = 30_000, 90_000


def test_a_connection_that_answers_is_kept(tmp_path):
    chosen = settings("127.0.0.1", 8866, "", tmp_path, 1, 1800).Server.tornado_settings
    interval = chosen.get("ws_ping_interval", INTERVAL)
    assert interval == 0 or chosen.get("ws_ping_timeout", TIMEOUT) > interval


def test_no_answer_is_dropped_for_its_size(tmp_path):
    channels = pytest.importorskip("jupyter_server.services.kernels.connection.channels", reason="missing: jupyter_server")
    connection = channels.ZMQChannelsWebsocketConnection
    chosen = settings("127.0.0.1", 8866, "", tmp_path, 1, 1800)[connection.__name__]
    assert "limit_rate" in connection.class_trait_names(config=True)
    assert chosen["limit_rate"] is False
