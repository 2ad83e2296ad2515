"""Who may ask for what, without starting a server."""

import pytest

pytest.importorskip("jupyter_server", reason="missing: jupyter_server")
from tornado.httputil import HTTPHeaders

from rigcalc.views.serving.guard import FREE_GUESSES, LONGEST_WAIT, Guesses, fetched_ahead, opened_by_hand, refusal

PAGE = {"Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}


def headers(**more):
    return HTTPHeaders({"Host": "localhost:8866", **{name.replace("_", "-"): text for name, text in more.items()}})


@pytest.mark.parametrize("host", ["localhost", "localhost:8866", "LOCALHOST:1", "127.0.0.1:8866", "[::1]:8866", "127.8.8.8"])
def test_this_computer_by_any_of_its_names(host):
    assert refusal("GET", headers(Host=host), local=True) is None


@pytest.mark.parametrize(
    "host",
    ["", "evil.example", "localhost.evil.example:8866", "192.168.1.5:8866", "[", "localhost,evil.example", "a@evil.example"],
)
def test_a_web_site_that_renamed_itself(host):
    assert refusal("GET", headers(Host=host), local=True)


def test_a_network_has_names_of_its_own():
    assert refusal("GET", headers(Host="teacher-pc:8866"), local=False) is None
    assert refusal("GET", HTTPHeaders(), local=False)


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "", "http://localhost:9999", "http://localhost:8866.evil.example"]
)
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_another_origin(origin, method):
    assert refusal(method, headers(Origin=origin), local=True)
    assert refusal(method, headers(Origin="http://localhost:8866"), local=True) is None


@pytest.mark.parametrize("site", ["cross-site", "same-site", "nonsense"])
def test_another_site_may_link_to_a_page_and_nothing_else(site):
    here = {"Sec-Fetch-Site": site}
    assert refusal("GET", headers(**here, **PAGE), local=True) is None
    assert refusal("POST", headers(**here, **PAGE), local=True)
    for dest in ("image", "iframe", "frame", "object", "embed", "script", "style", "empty", "font", "video", "worker"):
        assert refusal("GET", headers(**here, **{"Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": dest}), local=True)
        assert refusal("GET", headers(**here, **{"Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": dest}), local=True)


def test_what_a_person_opens_starts_a_calculation():
    for site in ("none", "same-origin"):
        assert opened_by_hand(headers(**{"Sec-Fetch-Site": site}, **PAGE))
        assert not opened_by_hand(headers(**{"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image"}))
        assert not opened_by_hand(headers(**{"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"}))
    for site in ("cross-site", "same-site"):
        assert not opened_by_hand(headers(**{"Sec-Fetch-Site": site}, **PAGE))


def test_a_browser_that_says_less_is_judged_by_what_it_says():
    html = {"Accept": "text/html,application/xhtml+xml"}
    assert opened_by_hand(headers(**html))
    assert opened_by_hand(headers(**html, Referer="http://localhost:8866/"))
    assert not opened_by_hand(headers(**html, Referer="http://evil.example/"))
    assert not opened_by_hand(headers(Accept="image/avif,*/*"))
    assert not opened_by_hand(headers())


def test_what_is_fetched_ahead():
    assert fetched_ahead(headers(Sec_Purpose="prefetch;prerender"))
    assert fetched_ahead(headers(Purpose="prefetch"))
    assert not fetched_ahead(headers())


def test_wrong_tokens_slow_down_and_only_their_own_address():
    now = [0.0]
    guesses = Guesses(clock=lambda: now[0])
    waits = []
    for _ in range(FREE_GUESSES + 10):
        guesses.wrong("10.0.0.1")
        waits.append(guesses.wait("10.0.0.1"))
        now[0] += guesses.wait("10.0.0.1")
    assert waits[: FREE_GUESSES - 1] == [0.0] * (FREE_GUESSES - 1)
    assert waits[FREE_GUESSES - 1 :] == sorted(waits[FREE_GUESSES - 1 :])
    assert waits[FREE_GUESSES - 1] > 0
    assert waits[-1] == LONGEST_WAIT
    assert guesses.wait("10.0.0.2") == 0
    guesses.right("10.0.0.1")
    assert guesses.wait("10.0.0.1") == 0


def test_addresses_are_not_remembered_without_end():
    guesses = Guesses()
    for number in range(5000):
        guesses.wrong(f"address {number}")
    assert len(guesses._wrong) <= 1000
