"""Who may ask for what: only our own pages and people who open them, and only so many guesses at the token."""

from __future__ import annotations

import hmac
import time
from collections import OrderedDict
from collections.abc import Callable
from typing import Any
from urllib.parse import urlsplit

from jupyter_server.auth.identity import IdentityProvider
from tornado.httputil import HTTPHeaders, HTTPServerRequest
from tornado.web import Application, HTTPError, RequestHandler

from rigcalc.views.serving.loopback import is_loopback

FREE_GUESSES = 5  # wrong tokens from one address before it has to wait
LONGEST_WAIT = 60.0  # seconds; the wait doubles with each wrong token up to this
_MOST_ADDRESSES = 1000  # remembered at once; the one not heard of for longest is forgotten


def refusal(method: str, headers: HTTPHeaders, local: bool) -> str | None:
    """Say why a request is refused before anything looks at it; None where it isn't.

    `local` is whether the server is for this computer alone; then a foreign host name is a web site that renamed itself.
    Browsers say which page a request comes from (Fetch Metadata) on this computer and over https; elsewhere they say Origin.
    """
    host = headers.get("Host", "")
    name = _name(host)
    if not name:
        return "a request names the host that it is for"
    if local and not is_loopback(name):
        return "this rigcalc is for this computer alone: open it as localhost"
    origin = headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc.lower() != host.lower():
        return "a page from elsewhere asks for this"
    if headers.get("Sec-Fetch-Site", "none") not in ("none", "same-origin") and not (method == "GET" and _is_page(headers)):
        return "a page from elsewhere asks for this"
    return None


def opened_by_hand(headers: HTTPHeaders) -> bool:
    """Say whether a page is opened by a person or from one of our own pages, and so may start a calculation.

    A link on another site is not: the person is asked first. Nor is a picture, a frame, a script or a browser that fetches
    ahead what may be wanted later.
    """
    site = headers.get("Sec-Fetch-Site")
    if site is not None:
        return site in ("none", "same-origin") and _is_page(headers)
    referer = headers.get("Referer")
    ours = referer is None or urlsplit(referer).netloc.lower() == headers.get("Host", "").lower()
    return ours and "text/html" in headers.get("Accept", "")


def fetched_ahead(headers: HTTPHeaders) -> bool:
    """Say whether a browser fetches a page before anybody asked for it."""
    return "prefetch" in (headers.get("Sec-Purpose") or headers.get("Purpose") or "").lower()


def _is_page(headers: HTTPHeaders) -> bool:
    return headers.get("Sec-Fetch-Mode") == "navigate" and headers.get("Sec-Fetch-Dest") == "document"


def _name(host: str) -> str:
    try:
        return urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return ""


class Refused(RequestHandler):
    """Answers a request that is refused, in one line of plain text."""

    def initialize(self, why: str) -> None:
        """Take the reason."""
        self.why = why

    def prepare(self) -> None:
        """Refuse, whatever was to be done."""
        self.set_status(403)
        self.set_header("Content-Type", "text/plain; charset=utf-8")
        self.finish(f"Refused: {self.why}.\n")

    def check_xsrf_cookie(self) -> None:
        """Nothing is done here that could be forged."""


class GuardedApplication(Application):
    """An application that looks at where a request comes from before any of its addresses does, files too."""

    local = True

    def find_handler(self, request: HTTPServerRequest, **kwargs: Any) -> Any:
        """Give what answers the request."""
        why = refusal(request.method or "", request.headers, self.local)
        if why is not None:
            return self.get_handler_delegate(request, Refused, {"why": why})
        return super().find_handler(request, **kwargs)


class Guesses:
    """Counts wrong tokens by address, and says how long an address has to wait before its next one is looked at."""

    def __init__(self, clock: Callable[[], float] = time.monotonic):
        self._clock = clock
        self._wrong: OrderedDict[str, tuple[int, float]] = OrderedDict()

    def wait(self, address: str) -> float:
        """Give the seconds that an address has to wait; 0 where it needn't."""
        _, until = self._wrong.get(address, (0, 0.0))
        return max(0.0, until - self._clock())

    def wrong(self, address: str) -> None:
        """Note a wrong token."""
        count = self._wrong.pop(address, (0, 0.0))[0] + 1
        wait = min(LONGEST_WAIT, 2.0 ** min(count - FREE_GUESSES, 10)) if count >= FREE_GUESSES else 0.0
        self._wrong[address] = (count, self._clock() + wait)
        while len(self._wrong) > _MOST_ADDRESSES:
            self._wrong.popitem(last=False)

    def right(self, address: str) -> None:
        """Forget the wrong ones."""
        self._wrong.pop(address, None)


class Door(IdentityProvider):
    """Asks for the token: compared in constant time, guessed at ever more slowly. Without a token it stands open."""

    def __init__(self, **kwargs: Any):
        super().__init__(**kwargs)
        self.guesses = Guesses()
        # Another site's picture or frame goes without the cookie; a link that a person follows goes with it.
        self.cookie_options = {"samesite": "Lax"}

    @property
    def auth_enabled(self) -> bool:
        """Whether a token is asked for."""
        return bool(self.token)

    def get_token(self, handler: Any) -> str:
        """Give the token that a request brings, letter by letter."""
        brought = handler.get_argument("token", "", strip=False)
        if not brought:
            match = self.auth_header_pat.match(handler.request.headers.get("Authorization", ""))
            brought = match.group(2) if match else ""
        return str(brought)

    async def get_user_token(self, handler: Any) -> Any:
        """Give the visitor whose request brings the right token, else None."""
        if not self._is_right(handler, self.get_token(handler)):
            return None
        return self.get_user_cookie(handler) or self.generate_anonymous_user(handler)

    def process_login_form(self, handler: Any) -> Any:
        """Give the visitor who typed the right token, else None."""
        if not self.token or self._is_right(handler, handler.get_argument("password", "", strip=False)):
            return self.generate_anonymous_user(handler)
        return None

    def _is_right(self, handler: Any, brought: str) -> bool:
        if not self.token or not brought:
            return False
        address = handler.request.remote_ip or ""
        if self.guesses.wait(address) > 0:
            handler.current_user = handler._jupyter_current_user = None  # the page that says so asks who is there
            raise HTTPError(429)
        right = hmac.compare_digest(brought.encode("utf-8", "replace"), self.token.encode("utf-8", "replace"))
        (self.guesses.right if right else self.guesses.wrong)(address)
        return right
