"""The Voila server with rigcalc's own pages: a start page, an address for each app, one copy of plotly's script."""

from __future__ import annotations

import asyncio
import errno
import hashlib
import json
import logging
import shutil
import signal
import socket
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl, urlencode

import jinja2
import psutil
import tornado.ioloop
import tornado.web
from jupyter_server.base.handlers import JupyterHandler
from jupyter_server.services.kernels.handlers import _kernel_id_regex
from jupyter_server.utils import ensure_async, url_path_join
from tornado.httpserver import HTTPServer
from tornado.log import access_log, app_log, gen_log
from tornado.netutil import bind_sockets
from traitlets import Any as AnyTrait
from traitlets import Bool, Int
from voila.app import Voila

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.views.serving.guard import GuardedApplication, fetched_ahead, opened_by_hand
from rigcalc.views.serving.messages import Connection, KernelSocket
from rigcalc.views.serving.visits import Place, Visits, most_visits
from rigcalc.widgets.figure_script import plotly_script
from rigcalc.widgets.page_look import look

# Voila's own addresses that nobody needs here: lists of files, their contents, their bytes, what a visitor's address was.
_DROPPED = ("/voila/tree", "/voila/render", "/voila/api/contents", "/voila/files", "/voila/templates", "/voila/query")
_LOOK_AGAIN = 4  # seconds between two looks of a page that waits for a place
LESSONS = "lessons"  # the folder of an apps folder whose notebooks stand in a group of their own
MOST_BODY = 64 * 1024  # bytes
MOST_BUFFERED = 8 * 1024 * 1024  # bytes of one connection that wait to be read; a message has at most half of it


def apps_in(folder: Path) -> list[dict[str, str]]:
    """List the pages of a folder's apps: file, address, the question it answers, a sentence; lessons come last."""
    found = []
    lessons = sorted((folder / LESSONS).glob("*.ipynb"))
    for path in [*sorted(folder.glob("*.ipynb")), *lessons]:
        about = json.loads(path.read_text(encoding="utf-8")).get("metadata", {})
        words = about.get("rigcalc", {})
        for page in words.get("pages") or [words]:
            name = page.get("page", "")
            called, group = (f"lesson-{path.stem}", "lesson") if path in lessons else (path.stem, "app")
            app = {
                **{"name": called, "page": name, "address": f"app/{called}" + (f"?page={name}" if name else "")},
                **{"file": path.relative_to(folder).as_posix(), "group": group},
                **{"question": page.get("question", about.get("title", path.stem)), "text": page.get("text", "")},
            }
            found.append((group == "lesson", int(words.get("place", 99)), app))
    return [app for *_, app in sorted(found, key=lambda each: each[:2])]


class Page(JupyterHandler):
    """Base of the own pages: our templates, shown to whoever holds the token."""

    def get_template(self, name: str) -> jinja2.Template:
        """Give one of our own templates."""
        made: jinja2.Template = self.settings["voila_jinja2_env"].get_template(name)
        return made

    def show(self, name: str, **words: Any) -> None:
        """Send a page made of one of our own templates."""
        self.write(self.render_template(name, **words))  # type: ignore[no-untyped-call]


class StartPage(Page):
    """Lists the apps."""

    @tornado.web.authenticated
    def get(self) -> None:
        """Show the list."""
        self.show("start.html", apps=apps_in(Path(self.settings["voila"].root_dir)))


class AppPage(Page):
    """An app under its own short address, with a calculation of its own for whoever opens it."""

    gone = False

    @tornado.web.authenticated
    async def get(self, name: str) -> None:
        """Show the app; or say that there is none of that name, that a person has to open it, or that all places are taken."""
        known = [app for app in apps_in(Path(self.settings["voila"].root_dir)) if app["name"] == name]
        if not known:
            raise tornado.web.HTTPError(404)
        asked = self.get_query_argument("page", "")
        app = next((app for app in known if app["page"] == asked), known[0])
        if fetched_ahead(self.request.headers):
            raise tornado.web.HTTPError(403)
        self.set_header("Cache-Control", "no-store")
        if not opened_by_hand(self.request.headers):
            self.show("ask.html", app=app, address=self._without_token())
            return
        # Asking for it sets its cookie, without which a closing page can't tell the server to end its calculation.
        self.xsrf_token  # noqa: B018
        visits: Visits = self.settings["rigcalc_visits"]
        place = visits.take()
        if place is None:
            self.set_status(503)
            self.set_header("Retry-After", str(_LOOK_AGAIN))
            self.set_header("Refresh", str(_LOOK_AGAIN))
            self.show("full.html", app=app, most=visits.most)
            return
        try:
            await self._show(app["file"], place)
        finally:
            if self.gone or not place.kernel:
                await visits.give_up(place)
            else:
                visits.was_sent(place)

    async def _show(self, notebook: str, place: Place) -> None:
        """Send the page part by part as its cells are worked out; the visitor's address and token go nowhere else."""
        manager: Any = self.kernel_manager
        while not place.kernel and manager.get_pool_size(notebook):
            first, already, kernel = await manager.get_rendered_notebook(notebook_name=notebook)
            if kernel in manager:  # else it ended while it waited
                place.kernel = kernel
        if not place.kernel:
            made = await manager._initialize(notebook, None, path="")
            made["renderer"].stop_generator = True  # after its first part, so that the others go out as they come
            first, already, place.kernel = made["task"], [], made["kernel_id"]
        sent = len(already)
        self._send("".join(already))
        parts, more = await first
        self._send("".join(parts[sent:]))
        async for part, _ in more:
            if self.gone:
                return
            self._send(part)

    def _send(self, html: str) -> None:
        if html and not self.gone:
            self.write(html)
            self.flush()

    def _without_token(self) -> str:
        query = [(key, text) for key, text in parse_qsl(self.request.query, keep_blank_values=True) if key != "token"]
        return self.request.path + (f"?{urlencode(query)}" if query else "")

    def on_connection_close(self) -> None:
        """Note that nobody waits for the answer any more."""
        self.gone = True
        super().on_connection_close()


class Missing(Page):
    """Answers every address that nothing else answers."""

    async def prepare(self) -> None:  # type: ignore[override]
        """Say that there is no such page, whatever was to be done with it."""
        await super().prepare()
        raise tornado.web.HTTPError(404)


class Asset(tornado.web.RequestHandler):
    """One text that every page shares; the browser keeps it and asks only whether it has changed."""

    def initialize(self, content: Callable[[], bytes], kind: str) -> None:
        """Take what makes the text, and its type."""
        self.content, self.kind = content, kind

    def get(self) -> None:
        """Send it, or say that it hasn't changed."""
        body = self.content()
        self.set_header("Content-Type", self.kind)
        self.set_header("Cache-Control", "max-age=3600")
        self.set_header("Etag", f'"{hashlib.sha256(body).hexdigest()[:24]}"')
        if self.check_etag_header():
            self.set_status(304)
            return
        self.write(body)

    def compute_etag(self) -> str | None:
        """Keep the one that `get` made."""
        return self._headers.get("Etag")


class Server(Voila):  # type: ignore[misc]
    """Voila with rigcalc's pages, settings and words."""

    name = "voila"
    port: int
    on_open = AnyTrait()
    opens = Bool(False)
    most_visits = Int(0)  # 0: what this computer carries
    stop_noted = AnyTrait(None)  # says, where somebody listened while it started, whether it was told to stop

    def init_settings(self) -> dict[str, Any]:
        """Add our error pages, our door, our places, and compression where the answer travels over a network."""
        made = super().init_settings()
        ours = made["voila_jinja2_env"].loader
        made["jinja2_env"].loader = jinja2.ChoiceLoader([ours, made["jinja2_env"].loader])
        made["default_handler_class"] = Missing
        if self.tornado_settings.get("allow_remote_access"):
            made["compress_response"] = True
            made["websocket_compression_options"] = {}  # tornado's own bounds hold for what a message unpacks to
        made["rigcalc_visits"] = Visits(self.kernel_manager, self.most_visits or most_visits())
        made["kernel_websocket_connection_class"] = Connection
        made["log_function"] = _log
        return {**made, **self.tornado_settings}

    def init_handlers(self) -> list[Any]:
        """Put our pages first and leave out those of Voila that nobody needs or that take a message as it comes."""

        def at(*parts: str) -> str:
            return url_path_join(self.server_url, *parts)

        kept = [
            handler
            for handler in super().init_handlers()
            if handler[0] != self.server_url
            and not any(str(handler[0]).startswith(at(path)) for path in _DROPPED)
            and not str(handler[0]).endswith("/channels")
        ]
        script, style = plotly_script().read_bytes(), look().encode()
        return [
            (at("/"), StartPage),
            (at("/app/([A-Za-z0-9_-]+)"), AppPage),
            (at("/rigcalc/plotly.min.js"), Asset, {"content": lambda: script, "kind": "text/javascript"}),
            (at("/rigcalc/look.css"), Asset, {"content": lambda: style, "kind": "text/css"}),
            (at(f"/api/kernels/{_kernel_id_regex}/channels"), KernelSocket),
            *kept,
        ]

    def start(self) -> None:
        """Serve until stopped; say where as soon as the port is open. Raises InputError where none can be opened."""
        for log in (app_log, gen_log):
            log.setLevel(logging.ERROR)  # a stranger's odd request is no news in the window where rigcalc was started
        self.ioloop = tornado.ioloop.IOLoop.current()
        sockets, wanted = _open_port(self.ip, self.port), self.port
        self.port = sockets[0].getsockname()[1]
        self.connection_dir = tempfile.mkdtemp(prefix="rigcalc_")
        try:
            made = self.init_settings()
            self.app = GuardedApplication(**made)
            self.app.local = not made.get("allow_remote_access")
            self.app.add_handlers(".*$", self.init_handlers())
            self._serve(sockets, wanted)
        finally:
            self.stop()

    def _serve(self, sockets: list[socket.socket], wanted: int) -> None:
        # An app's page sends nothing larger than the token; what it calculates travels over its socket.
        server = HTTPServer(self.app, max_body_size=MOST_BODY, max_buffer_size=MOST_BUFFERED, idle_connection_timeout=300)
        server.add_sockets(sockets)
        visits: Visits = self.app.settings["rigcalc_visits"]
        tornado.ioloop.PeriodicCallback(visits.tidy, 2000).start()
        for kind in (signal.SIGINT, signal.SIGTERM):
            signal.signal(kind, self._handle_signal_stop)
        if self.stop_noted is None or not self.stop_noted.noted:
            self.ioloop.add_callback(self._opened, wanted)
            self.ioloop.start()
        server.stop()

    def stop(self) -> None:
        """End every calculation and whatever was under way, without a word."""
        loop = self.ioloop.asyncio_loop  # type: ignore[attr-defined]
        # A second Ctrl+C, or one that came while the port was being opened, finds nothing to interrupt any more.
        for kind in (signal.SIGINT, signal.SIGTERM):
            signal.signal(kind, signal.SIG_IGN)
        loop.run_until_complete(self._end())
        shutil.rmtree(self.connection_dir, ignore_errors=True)

    async def _end(self) -> None:
        manager = getattr(self, "kernel_manager", None)  # None where the start broke off
        if manager is not None:
            manager._pools = {}  # those that wait ready are ended like any other
        rest = [task for task in asyncio.all_tasks() if task is not asyncio.current_task()]
        for task in rest:
            task.cancel()
        await asyncio.gather(*rest, return_exceptions=True)
        if manager is not None:
            ended = [ensure_async(manager.shutdown_kernel(kernel, now=True)) for kernel in manager.list_kernel_ids()]
            await asyncio.gather(*ended, return_exceptions=True)
        # One that was just being started stands in nobody's list yet.
        for process in psutil.Process().children(recursive=True):
            try:
                if any(self.connection_dir in word for word in process.cmdline()):
                    process.kill()
            except psutil.Error:
                pass  # it ended by itself

    def _opened(self, wanted: int) -> None:
        host = "localhost" if self.ip in ("127.0.0.1", "::1", "localhost") else self.ip
        if host in ("0.0.0.0", "::"):  # noqa: S104
            host = own_address()
        host = f"[{host}]" if ":" in host else host
        address = f"http://{host}:{self.port}{self.base_url}"
        self.on_open(address, self.token or "", self.opens, wanted if wanted != self.port else None)


def own_address() -> str:
    """Give this computer's address in its network, by which a phone beside it finds it. Nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(("192.0.2.1", 9))  # an address kept for examples (RFC 5737): only the way there is looked up
            return str(asked.getsockname()[0])
        except OSError:
            return socket.gethostname()


def _log(handler: tornado.web.RequestHandler) -> None:
    """Report what went wrong here; not who asked for what, least of all the token in an address."""
    if handler.get_status() >= 500 and handler.get_status() != 503:
        access_log.error("%d %s %s", handler.get_status(), handler.request.method, shown(handler.request.path))


def _open_port(host: str, port: int) -> list[socket.socket]:
    """Open a port, or one of the next twenty where it is taken. Raises InputError."""
    for each in range(port, min(port + 21, 65536)):
        try:
            return bind_sockets(each, host)
        except (OSError, ValueError) as error:  # a name that can't be one is a ValueError
            if getattr(error, "errno", None) == errno.EADDRINUSE:
                continue
            if isinstance(error, PermissionError):
                raise InputError([Fault("--port", str(port), "a port that you may open", "--port 8866")]) from None
            why = f"an address of this computer ({getattr(error, 'strerror', None) or 'no such name'})"
            raise InputError([Fault("--host", shown(host), why, "--host 127.0.0.1, or --host 0.0.0.0 for a network")]) from None
    raise InputError([Fault("--port", str(port), "a port that is free; it and the next 20 are taken", "--port 9000")])
