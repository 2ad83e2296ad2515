"""The Voila server with rigcalc's own pages: a start page, an address for each app, one copy of plotly's script."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jinja2
import tornado.ioloop
import tornado.web
import voila.tornado.kernel_websocket_handler
from jupyter_server.base.handlers import JupyterHandler
from jupyter_server.utils import url_path_join
from traitlets import Any as AnyTrait
from traitlets import Bool
from voila.app import Voila
from voila.tornado.handler import TornadoVoilaHandler

from rigcalc.views.serving.message_header import message_header
from rigcalc.widgets.figure_script import plotly_script
from rigcalc.widgets.page_look import look

voila.tornado.kernel_websocket_handler.read_header_from_binary_message = message_header

# Voila's own pages that nobody needs here: lists of files, their contents, their bytes.
_DROPPED = ("/voila/tree", "/voila/render", "/voila/api/contents", "/voila/files")


def apps_in(folder: Path) -> list[dict[str, str]]:
    """List the apps of a folder: name of the file, the question it answers, one sentence; the main question first."""
    found = []
    for path in sorted(folder.glob("*.ipynb")):
        about = json.loads(path.read_text(encoding="utf-8")).get("metadata", {})
        title = about.get("title", path.stem)
        words = about.get("rigcalc", {})
        app = {"name": path.stem, "question": words.get("question", title), "text": words.get("text", "")}
        found.append((int(words.get("place", 99)), app))
    return [app for _, app in sorted(found, key=lambda each: each[0])]


class Page(JupyterHandler):
    """Base of the own pages: our templates, shown to whoever holds the token."""

    def get_template(self, name: str) -> jinja2.Template:
        """Give one of our own templates."""
        return self.settings["voila_jinja2_env"].get_template(name)


class StartPage(Page):
    """Lists the apps."""

    @tornado.web.authenticated
    def get(self) -> None:
        """Show the list."""
        self.write(self.render_template("start.html", apps=apps_in(Path(self.settings["voila"].root_dir))))


class AppPage(TornadoVoilaHandler):
    """An app under its own short address."""

    async def get(self, path: str | None = None) -> None:
        """Show the app, or say that there is none of that name."""
        if path not in {app["name"] for app in apps_in(Path(self.settings["voila"].root_dir))}:
            raise tornado.web.HTTPError(404)
        # Asking for it sets its cookie, without which a closing page can't tell the server to end its calculation.
        self.xsrf_token  # noqa: B018
        await super().get(f"{path}.ipynb")


class Missing(Page):
    """Answers every address that nothing else answers."""

    async def prepare(self) -> None:
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


class Server(Voila):
    """Voila with rigcalc's pages, settings and words."""

    name = "voila"
    on_open = AnyTrait()
    opens = Bool(False)

    def init_settings(self) -> dict[str, Any]:
        """Add our error pages, and compression where the answer travels over a network."""
        made = super().init_settings()
        ours = made["voila_jinja2_env"].loader
        made["jinja2_env"].loader = jinja2.ChoiceLoader([ours, made["jinja2_env"].loader])
        made["default_handler_class"] = Missing
        made["compress_response"] = bool(self.tornado_settings.get("allow_remote_access"))
        return made

    def init_handlers(self) -> list[Any]:
        """Put our pages first and leave out those of Voila that show files."""

        def at(*parts: str) -> str:
            return url_path_join(self.server_url, *parts)

        kept = [
            handler
            for handler in super().init_handlers()
            if handler[0] != self.server_url and not any(str(handler[0]).startswith(at(path)) for path in _DROPPED)
        ]
        common = {"template_paths": self.template_paths, "config": self.config}
        script, style = plotly_script().read_bytes(), look().encode()
        return [
            (at("/"), StartPage),
            (at("/app/([A-Za-z0-9_-]+)"), AppPage, {**common, "voila_configuration": self.voila_configuration}),
            (at("/rigcalc/plotly.min.js"), Asset, {"content": lambda: script, "kind": "text/javascript"}),
            (at("/rigcalc/look.css"), Asset, {"content": lambda: style, "kind": "text/css"}),
            *kept,
        ]

    def start(self) -> None:
        """Serve until stopped; say where as soon as the port is open."""
        tornado.ioloop.IOLoop.current().add_callback(self._opened)
        super().start()

    def _opened(self) -> None:
        host = "localhost" if self.ip in ("127.0.0.1", "::1", "localhost") else self.ip
        if host in ("", "0.0.0.0"):  # noqa: S104
            import socket

            host = socket.gethostname()
        host = f"[{host}]" if ":" in host else host
        self.on_open(f"http://{host}:{self.port}{self.base_url}", self.token or "", self.opens)
